using System.Globalization;
using CommonGround.Storage.History;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace CommonGround.Storage.Postgres;

public sealed class PostgresDb(DbContextOptions<PostgresDb> options) : CommonGroundDb(options)
{
    private const string Channel = "commonground_change";

    /// <summary>A quiet connection is asked so often whether it still stands.</summary>
    private static readonly TimeSpan Quiet = TimeSpan.FromSeconds(30);

    public override Task<IDbContextTransaction> BeginReadingAsync(CancellationToken cancel = default) =>
        Database.BeginTransactionAsync(System.Data.IsolationLevel.RepeatableRead, cancel);

    /// <remarks>The server sends it when the transaction is stored, and not at all when it is rolled back.</remarks>
    protected override Task TellOthersAsync(int neighbourhoodId, CancellationToken cancel) =>
        Database.ExecuteSqlAsync($"SELECT pg_notify({Channel}, {neighbourhoodId.ToString(CultureInfo.InvariantCulture)})", cancel);

    public override async Task ListenAsync(ChangeFeed feed, Action listening, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(feed);
        ArgumentNullException.ThrowIfNull(listening);
        await Database.OpenConnectionAsync(cancel);
        var connection = (NpgsqlConnection)Database.GetDbConnection();
        connection.Notification += (_, e) => feed.Tell(int.Parse(e.Payload, NumberStyles.None, CultureInfo.InvariantCulture));
        await Database.ExecuteSqlRawAsync("LISTEN " + Channel, cancel);
        listening();
        while (true)
        {
            if (!await connection.WaitAsync(Quiet, cancel))
            {
                await Database.ExecuteSqlRawAsync("SELECT 1", cancel);
            }
        }
    }
}

internal sealed class PostgresDesignTime : IDesignTimeDbContextFactory<PostgresDb>
{
    public PostgresDb CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<PostgresDb>().UseNpgsql("Host=127.0.0.1").Options);
}
