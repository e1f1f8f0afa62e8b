using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Storage;

namespace CommonGround.Storage.Sqlite;

public sealed class SqliteDb(DbContextOptions<SqliteDb> options) : CommonGroundDb(options)
{
    /// <remarks>A deferred transaction reads from the write-ahead log as of its first read; any other kind would lock writers
    /// out.</remarks>
    public override async Task<IDbContextTransaction> BeginReadingAsync(CancellationToken cancel = default)
    {
        await Database.OpenConnectionAsync(cancel);
        var transaction = ((SqliteConnection)Database.GetDbConnection()).BeginTransaction(deferred: true);
        return await Database.UseTransactionAsync(transaction, cancel)
            ?? throw new InvalidOperationException("The reading could not begin.");
    }
}

internal sealed class SqliteDesignTime : IDesignTimeDbContextFactory<SqliteDb>
{
    public SqliteDb CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<SqliteDb>().UseSqlite("Data Source=design.db").Options);
}

/// <summary>
/// Write-ahead log so that readers never wait for a writer; full synchronous so that a save that was answered survives a power cut;
/// five seconds of patience for another writer; foreign keys on.
/// </summary>
internal sealed class SqlitePragmas : DbConnectionInterceptor
{
    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Pragmas(connection);
        command.ExecuteNonQuery();
    }

    public override async Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData,
        CancellationToken cancellationToken = default)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = Pragmas(connection);
        await command.ExecuteNonQueryAsync(cancellationToken);
    }

    private static string Pragmas(DbConnection connection) =>
        $"PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA busy_timeout={((SqliteConnection)connection).DefaultTimeout * 1000}; "
            + $"PRAGMA foreign_keys=ON; PRAGMA cache_size=-32768;";
}
