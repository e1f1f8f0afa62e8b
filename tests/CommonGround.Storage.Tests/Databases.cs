using System.Runtime.CompilerServices;
using System.Reflection;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit.Sdk;

namespace CommonGround.Storage.Tests;

/// <summary>Runs a theory once on each database the program supports.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class OnBothDatabasesAttribute : DataAttribute
{
    public override IEnumerable<object[]> GetData(MethodInfo testMethod) => [["sqlite"], ["postgres"]];
}

[CollectionDefinition(Name)]
public sealed class DatabaseTests : ICollectionFixture<Databases>
{
    public const string Name = "Databases";
}

/// <summary>One PostgreSQL cluster, and a fresh migrated database for each test, seen from neighbourhood 1.</summary>
public sealed class Databases : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("commonground-storage-").FullName;
    private readonly PostgresCluster cluster = new();
    private readonly ConditionalWeakTable<IDbContextFactory<CommonGroundDb>, StorageLocation> locations = [];
    private readonly Lazy<Task<string>> sqliteTemplate, postgresTemplate;
    private int files;

    public Databases() => (sqliteTemplate, postgresTemplate) = (new(() => MigratedAsync("sqlite")), new(() => MigratedAsync("postgres")));

    public Task InitializeAsync() => cluster.StartAsync();

    public async Task DisposeAsync()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
        await cluster.StopAsync();
    }

    /// <summary>Where a database that nobody has made yet may lie.</summary>
    public StorageLocation NewLocation(string provider) => provider == "sqlite"
        ? StorageLocation.SqliteFile(Path.Combine(folder, $"garden{Interlocked.Increment(ref files)}.db"))
        : new StorageLocation(provider, cluster.NewDatabase());

    /// <summary>A database nobody has migrated yet.</summary>
    public IDbContextFactory<CommonGroundDb> Bare(string provider) => Open(NewLocation(provider));

    public StorageLocation LocationOf(IDbContextFactory<CommonGroundDb> database) => locations.TryGetValue(database, out var location)
        ? location : throw new InvalidOperationException("This database was not made here.");

    /// <summary>The same database without a neighbourhood.</summary>
    public IDbContextFactory<CommonGroundDb> Site(NeighbourhoodDatabase database) => StorageRegistration.Open(LocationOf(database));

    /// <summary>A migrated database: migrated once for each provider, and copied for every test.</summary>
    public async Task<NeighbourhoodDatabase> NewAsync(string provider)
    {
        var template = await (provider == "sqlite" ? sqliteTemplate : postgresTemplate).Value;
        var location = NewLocation(provider);
        if (provider == "sqlite")
        {
            File.Copy(template, new SqliteConnectionStringBuilder(location.ConnectionString).DataSource);
        }
        else
        {
            await PostgresCluster.CopyAsync(template, location.ConnectionString);
        }

        var database = Open(location);
        var first = database.In(1);
        locations.Add(first, location);
        return first;
    }

    private IDbContextFactory<CommonGroundDb> Open(StorageLocation location)
    {
        var database = StorageRegistration.Open(location);
        locations.Add(database, location);
        return database;
    }

    /// <summary>The path of the whole file, or the connection string of the database.</summary>
    private async Task<string> MigratedAsync(string provider)
    {
        var location = NewLocation(provider);
        await using var db = await StorageRegistration.Open(location).CreateDbContextAsync();
        await db.Database.MigrateAsync();
        if (provider != "sqlite")
        {
            return location.ConnectionString;
        }

        var whole = Path.Combine(folder, "migrated.db");
        await db.Database.ExecuteSqlAsync($"VACUUM INTO {whole}");
        return whole;
    }
}
