using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Tests;

/// <summary>With statistics the planner reads a whole neighbourhood as one table, without them through an index (SQLite's documentation,
/// "The ANALYZE command").</summary>
[Collection(DatabaseTests.Name)]
public class StatisticsTests(Databases databases)
{
    [Theory, OnBothDatabases]
    public async Task Renewing_what_the_planner_knows_changes_nothing_stored(string provider)
    {
        var (database, _) = await FilledAsync(provider);
        await using var db = await database.CreateDbContextAsync();
        await Statistics.RenewAsync(db);
        (await db.Sightings.CountAsync()).ShouldBe(2000);
    }

    [Fact]
    public async Task A_whole_neighbourhood_is_read_as_one_table()
    {
        var (database, query) = await FilledAsync("sqlite");
        (await PlanAsync(database, query)).ShouldStartWith("SEARCH");
        await using (var db = await database.CreateDbContextAsync())
        {
            await Statistics.RenewAsync(db);
        }

        (await PlanAsync(database, query)).ShouldStartWith("SCAN");
    }

    private async Task<(IDbContextFactory<CommonGroundDb> Database, string Query)> FilledAsync(string provider)
    {
        var database = await databases.NewAsync(provider);
        var ground = await Ground.LayAsync(database);
        await using var db = await database.CreateDbContextAsync();
        for (var i = 0; i < 2000; i++)
        {
            var sighting = ground.Sighting();
            sighting.ObservedOn = new DateOnly(2020, 1, 1).AddDays(i);
            db.Sightings.Add(sighting);
        }

        await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        return (database, "SELECT SUM(CoverSquareMetres) FROM Sightings WHERE NeighbourhoodId = 1 AND ObservedOn <= '2026-08-19'");
    }

    private static async Task<string> PlanAsync(IDbContextFactory<CommonGroundDb> database, string query)
    {
        await using var db = await database.CreateDbContextAsync();
        await db.Database.OpenConnectionAsync();
        await using var command = db.Database.GetDbConnection().CreateCommand();
#pragma warning disable CA2100 // The query is written above.
        command.CommandText = "EXPLAIN QUERY PLAN " + query;
#pragma warning restore CA2100
        await using var reader = await command.ExecuteReaderAsync();
        await reader.ReadAsync();
        return reader.GetString(3);
    }
}
