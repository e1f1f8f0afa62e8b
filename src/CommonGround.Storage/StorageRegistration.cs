using CommonGround.Storage.Postgres;
using CommonGround.Storage.Sqlite;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

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
    public static IServiceCollection AddStorage(this IServiceCollection services, StorageLocation location) =>
        services.AddSingleton(location).AddSingleton<IDbContextFactory<CommonGroundDb>>(new DbFactory(location));

    public static IDbContextFactory<CommonGroundDb> Open(StorageLocation location) => new DbFactory(location);

    private sealed class DbFactory(StorageLocation location) : IDbContextFactory<CommonGroundDb>
    {
        private readonly Func<CommonGroundDb> create = location.Provider switch
        {
            "sqlite" => Sqlite(location.ConnectionString),
            "postgres" => Postgres(location.ConnectionString),
            _ => throw new ArgumentException($"Database provider '{location.Provider}' is not known: use sqlite or postgres.", nameof(location)),
        };

        public CommonGroundDb CreateDbContext() => create();

        private static Func<CommonGroundDb> Sqlite(string connection)
        {
            // The library waits on top of SQLite's own waiting, by default until thirty seconds are over: both have the same patience, so that it is not had twice.
            var settings = new SqliteConnectionStringBuilder(connection);
            settings.DefaultTimeout = connection.Contains("Timeout", StringComparison.OrdinalIgnoreCase) ? settings.DefaultTimeout : SqlitePragmas.PatienceSeconds;
            var options = new DbContextOptionsBuilder<SqliteDb>().UseSqlite(settings.ConnectionString).AddInterceptors(new SqlitePragmas()).Options;
            return () => new SqliteDb(options);
        }

        private static Func<CommonGroundDb> Postgres(string connection)
        {
            var options = new DbContextOptionsBuilder<PostgresDb>().UseNpgsql(connection).Options;
            return () => new PostgresDb(options);
        }
    }
}
