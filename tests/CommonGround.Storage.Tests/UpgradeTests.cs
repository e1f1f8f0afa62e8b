using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace CommonGround.Storage.Tests;

/// <summary>A record kept by an older version is brought up to date with nothing lost.</summary>
[Collection(DatabaseTests.Name)]
public class UpgradeTests(Databases databases)
{
    [Theory, OnBothDatabases]
    public async Task Rows_of_the_first_schema_are_all_there_after_the_last(string provider)
    {
        var database = databases.Bare(provider);
        await using (var db = await database.CreateDbContextAsync())
        {
            var first = db.Database.GetMigrations().First();
            await db.GetService<IMigrator>().MigrateAsync(first);
            await db.Database.ExecuteSqlRawAsync(Rows);
        }

        await using (var db = await database.CreateDbContextAsync())
        {
            await db.Database.MigrateAsync();
        }

        await using var after = await database.CreateDbContextAsync();
        (await after.Neighbourhoods.SingleAsync()).Rates.ShouldBe("");
        (await after.Yards.SingleAsync()).Code.ShouldBe("A-1");
        var sighting = await after.Sightings.SingleAsync();
        (sighting.CoverSquareMetres, sighting.Count, sighting.BedId).ShouldBe((2.5, 7, 5));
        sighting.ObservedOn.ShouldBe(new DateOnly(2026, 8, 19));
        (await after.Infestations.SingleAsync()).GrowthStage.ShouldBe(3);
    }

    /// <summary>One row of each kind in the columns the first schema had.</summary>
    private const string Rows = """
        INSERT INTO "Neighbourhoods" ("Id", "Name", "IsDemo", "TimeZone", "CatalogueFingerprint", "Settings") VALUES (1, 'Ours', FALSE, 'America/Chicago', '', '');
        INSERT INTO "Streets" ("NeighbourhoodId", "Id", "Name") VALUES (1, 2, 'Street');
        INSERT INTO "Blocks" ("NeighbourhoodId", "Id", "StreetId", "Name") VALUES (1, 3, 2, 'Block');
        INSERT INTO "Yards" ("NeighbourhoodId", "Id", "BlockId", "Code", "Latitude", "Longitude", "AreaSquareMetres", "Household", "Shared", "Version") VALUES (1, 4, 3, 'A-1', 41.5, -88.5, 600, '', TRUE, '00000000-0000-0000-0000-000000000001');
        INSERT INTO "Beds" ("NeighbourhoodId", "Id", "YardId", "Name", "Version") VALUES (1, 5, 4, 'front', '00000000-0000-0000-0000-000000000002');
        INSERT INTO "Taxa" ("NeighbourhoodId", "Id", "ScientificName", "Unlisted", "Traits") VALUES (1, 6, 'Aster', TRUE, '{{"ScientificName":"Aster"}}');
        INSERT INTO "Sightings" ("NeighbourhoodId", "Id", "YardId", "BedId", "TaxonId", "ObservedOn", "CoverSquareMetres", "Count", "CoverDerived", "Origin", "Certainty", "Qualifier", "Observer", "Remarks", "RecordedAtUtc") VALUES (1, 7, 4, 5, 6, '2026-08-19', 2.5, 7, FALSE, 'Planted', 'Certain', '', 'a walker', '', '2026-08-19 12:00:00Z');
        INSERT INTO "Infestations" ("NeighbourhoodId", "Id", "BlockId", "YardId", "TaxonId", "ObservedOn", "AreaSquareMetres", "CoverPercent", "GrowthStage", "Remarks", "RecordedAtUtc") VALUES (1, 8, 3, 4, 6, '2026-08-19', 3, 40, 3, '', '2026-08-19 12:00:00Z');
        """;
}
