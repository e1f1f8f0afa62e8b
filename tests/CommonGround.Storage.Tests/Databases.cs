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

/// <summary>Gives each test its own fresh, migrated database, seen from neighbourhood 1.</summary>
public sealed class Databases : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("commonground-storage-").FullName;
    private readonly PostgresCluster cluster = new();
    private readonly System.Runtime.CompilerServices.ConditionalWeakTable<IDbContextFactory<CommonGroundDb>, StorageLocation> locations = [];
    private int files;

    public Task InitializeAsync() => cluster.StartAsync();

    public async Task DisposeAsync()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
        await cluster.StopAsync();
    }

    /// <summary>A database nobody has migrated yet.</summary>
    public IDbContextFactory<CommonGroundDb> Bare(string provider)
    {
        var location = provider == "sqlite"
            ? StorageLocation.SqliteFile(Path.Combine(folder, $"garden{Interlocked.Increment(ref files)}.db"))
            : new StorageLocation(provider, cluster.NewDatabase());
        var database = StorageRegistration.Open(location);
        locations.Add(database, location);
        return database;
    }

    public StorageLocation LocationOf(IDbContextFactory<CommonGroundDb> database) => locations.TryGetValue(database, out var location) ? location : throw new InvalidOperationException("This database was not made here.");

    /// <summary>The same database without a neighbourhood.</summary>
    public IDbContextFactory<CommonGroundDb> Site(NeighbourhoodDatabase database) => StorageRegistration.Open(LocationOf(database));

    public async Task<NeighbourhoodDatabase> NewAsync(string provider)
    {
        var database = Bare(provider);
        await using var db = await database.CreateDbContextAsync();
        await db.Database.MigrateAsync();
        var first = database.In(1);
        locations.Add(first, LocationOf(database));
        return first;
    }
}
