using System.Globalization;
using CommonGround.Storage.History;
using CommonGround.Storage.Postgres;
using CommonGround.Storage.Saving;
using CommonGround.Storage.Sqlite;
using Medallion.Threading.Postgres;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;

namespace CommonGround.Storage;

/// <summary>Where the record is kept.</summary>
/// <param name="Provider">"sqlite" or "postgres".</param>
/// <param name="ConnectionString">For SQLite a data source, for PostgreSQL the server, database and user.</param>
public sealed record StorageLocation(string Provider, string ConnectionString)
{
    public static StorageLocation SqliteFile(string path) => new("sqlite", $"Data Source={path}");
}

/// <summary>The only place that knows there are two databases.</summary>
public static class StorageRegistration
{
    /// <param name="location">Where the record is kept.</param>
    /// <param name="feed">Is told of every change stored through this factory.</param>
    public static IDbContextFactory<CommonGroundDb> Open(StorageLocation location, ChangeFeed? feed = null) =>
        new DbFactory(location, feed);

    /// <summary>Takes a duty that only one process of the site does at a time, such as backups; null while another one holds it. A process
    /// that dies gives it back.</summary>
    /// <param name="location">The record the duty is about.</param>
    /// <param name="duty">A short word.</param>
    /// <param name="cancel">Gives up.</param>
    public static async Task<IAsyncDisposable?> TryTakeDutyAsync(StorageLocation location, string duty, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(location);
        return location.Provider switch
        {
            "postgres" => await new PostgresDistributedLock(new PostgresAdvisoryLockKey("commonground." + duty, allowHashing: true),
                location.ConnectionString)
                .TryAcquireAsync(TimeSpan.Zero, cancel),
            _ => LockedFile(new SqliteConnectionStringBuilder(location.ConnectionString).DataSource + "." + duty + ".lock"),
        };
    }

    private static FileStream? LockedFile(string path)
    {
        try
        {
            return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, bufferSize: 0,
                FileOptions.DeleteOnClose);
        }
        catch (IOException) when (File.Exists(path))
        {
            return null; // Another process has it open.
        }
    }

    private sealed class DbFactory(StorageLocation location, ChangeFeed? feed) : IDbContextFactory<CommonGroundDb>
    {
        private readonly Func<CommonGroundDb> create = location.Provider switch
        {
            "sqlite" => Sqlite(location.ConnectionString),
            "postgres" => Postgres(location.ConnectionString),
            _ => throw new ArgumentException($"Database provider '{location.Provider}' is not known: use sqlite or postgres.",
                nameof(location)),
        };

        public CommonGroundDb CreateDbContext()
        {
            var db = create();
            db.Feed = feed;
            return db;
        }

        private static Func<CommonGroundDb> Sqlite(string connection)
        {
            // The library waits on top of SQLite's own waiting, by default until thirty seconds are over: both have the same patience, so
            // that it is not had twice.
            var settings = new SqliteConnectionStringBuilder(connection);
            settings.DefaultTimeout = connection.Contains("Timeout", StringComparison.OrdinalIgnoreCase) ? settings.DefaultTimeout
                : StoragePatience.Seconds;
            var options = new DbContextOptionsBuilder<SqliteDb>().UseSqlite(settings.ConnectionString)
                .AddInterceptors(new SqlitePragmas()).Options;
            return () => new SqliteDb(options);
        }

        private static Func<CommonGroundDb> Postgres(string connection)
        {
            // As on SQLite, nobody waits longer for somebody else's write. Source:
            // https://www.postgresql.org/docs/current/runtime-config-client.html (lock_timeout)
            var settings = new NpgsqlConnectionStringBuilder(connection);
            if (settings.Options?.Contains("lock_timeout", StringComparison.Ordinal) != true)
            {
                settings.Options =
                    string.Create(CultureInfo.InvariantCulture, $"{settings.Options} -c lock_timeout={StoragePatience.Seconds * 1000}")
                    .Trim();
            }

            var options = new DbContextOptionsBuilder<PostgresDb>().UseNpgsql(settings.ConnectionString).Options;
            return () => new PostgresDb(options);
        }
    }
}
