using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace CommonGround.Storage.Tests;

/// <summary>A record kept by an older version is brought up to date with nothing lost.</summary>
[Collection(DatabaseTests.Name)]
public class UpgradeTests(Databases databases)
{
    [Theory, OnBothDatabases]
    public async Task Rows_of_every_schema_there_has_been_are_all_there_after_the_last(string provider)
    {
        List<string> schemas;
        await using (var db = await databases.Bare(provider).CreateDbContextAsync())
        {
            schemas = [.. db.Database.GetMigrations()];
        }

        schemas.Count.ShouldBeGreaterThan(1);
        foreach (var schema in schemas)
        {
            await UpgradeAsync(provider, schemas[0], schema);
        }
    }

    /// <summary>Data of the first schema, brought to another, then with one more row in every table it has, to the last.</summary>
    private async Task UpgradeAsync(string provider, string first, string schema)
    {
        var database = databases.Bare(provider);
        Dictionary<string, List<string>> before;
        await using (var db = await database.CreateDbContextAsync())
        {
            await db.GetService<IMigrator>().MigrateAsync(first);
            await db.Database.ExecuteSqlRawAsync(Rows);
            await db.GetService<IMigrator>().MigrateAsync(schema);
            if (schema != first)
            {
                await db.Database.ExecuteSqlRawAsync(LaterRows);
            }

            before = await RowsAsync(db);
            before.Values.Sum(r => r.Count).ShouldBeGreaterThan(7);
            await db.Database.MigrateAsync();
            var after = await RowsAsync(db);
            foreach (var (table, rows) in before)
            {
                after[table].Count.ShouldBe(rows.Count, $"{table} of {schema}");
            }

            (await CommonGround.Storage.Operations.DatabaseCopy.Of(databases.LocationOf(database)).FaultsAsync(db, default)).ShouldBeEmpty(schema);
        }

        await using var last = await database.In(1).CreateDbContextAsync();
        (await last.Neighbourhoods.SingleAsync()).Name.ShouldBe("Ours");
        (await last.Yards.SingleAsync()).Code.ShouldBe("A-1");
        var sighting = await last.Sightings.SingleAsync(s => s.Id == 7);
        (sighting.CoverSquareMetres, sighting.Count, sighting.BedId).ShouldBe((2.5, 7, 5));
        // Cover 0 said that the planting had ended, before findings had a word: it says so still.
        var ended = await last.Sightings.SingleAsync(s => s.Id == 10);
        (ended.CoverSquareMetres, ended.Finding, ended.Patch, ended.VerifiedBy).ShouldBe((0, CommonGround.Ecology.Taxa.Finding.Growing, "", ""));
        sighting.ObservedOn.ShouldBe(new DateOnly(2026, 8, 19));
        (await last.Infestations.SingleAsync()).GrowthStage.ShouldBe(3);
        (await last.Taxa.SingleAsync()).ScientificName.ShouldBe("Aster");
        (await last.Plans.CountAsync()).ShouldBe(schema == first ? 0 : 1);
    }

    private static async Task<Dictionary<string, List<string>>> RowsAsync(CommonGroundDb db)
    {
        var tables = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        foreach (var table in await TextsAsync(db, db.Database.IsSqlite() ? "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE '__EF%'" : "SELECT tablename FROM pg_tables WHERE schemaname = 'public' AND tablename NOT LIKE '\\_\\_EF%'"))
        {
            tables[table] = await TextsAsync(db, $"SELECT 'row' FROM \"{table}\"");
        }

        return tables;
    }

    private static async Task<List<string>> TextsAsync(CommonGroundDb db, string sql)
    {
        await db.Database.OpenConnectionAsync();
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = sql;
        await using var reader = await command.ExecuteReaderAsync();
        var texts = new List<string>();
        while (await reader.ReadAsync())
        {
            texts.Add(reader.GetString(0));
        }

        return texts;
    }

    /// <summary>What the second schema added.</summary>
    private const string LaterRows = """
        INSERT INTO "Plans" ("NeighbourhoodId", "Id", "YardId", "Number", "Request", "Shares", "MadeOn", "MadeAtUtc") VALUES (1, 9, 4, 1, '{{}}', '{{}}', '2026-08-19', '2026-08-19 12:00:00Z');
        """;

    /// <summary>One row of each kind in the columns the first schema had.</summary>
    private const string Rows = """
        INSERT INTO "Neighbourhoods" ("Id", "Name", "IsDemo", "TimeZone", "CatalogueFingerprint", "Settings") VALUES (1, 'Ours', FALSE, 'America/Chicago', '', '');
        INSERT INTO "Streets" ("NeighbourhoodId", "Id", "Name") VALUES (1, 2, 'Street');
        INSERT INTO "Blocks" ("NeighbourhoodId", "Id", "StreetId", "Name") VALUES (1, 3, 2, 'Block');
        INSERT INTO "Yards" ("NeighbourhoodId", "Id", "BlockId", "Code", "Latitude", "Longitude", "AreaSquareMetres", "Household", "Shared", "Version") VALUES (1, 4, 3, 'A-1', 41.5, -88.5, 600, '', TRUE, '00000000-0000-0000-0000-000000000001');
        INSERT INTO "Beds" ("NeighbourhoodId", "Id", "YardId", "Name", "Version") VALUES (1, 5, 4, 'front', '00000000-0000-0000-0000-000000000002');
        INSERT INTO "Taxa" ("NeighbourhoodId", "Id", "ScientificName", "Unlisted", "Traits") VALUES (1, 6, 'Aster', TRUE, '{{"ScientificName":"Aster"}}');
        INSERT INTO "Sightings" ("NeighbourhoodId", "Id", "YardId", "BedId", "TaxonId", "ObservedOn", "CoverSquareMetres", "Count", "CoverDerived", "Origin", "Certainty", "Qualifier", "Observer", "Remarks", "RecordedAtUtc") VALUES (1, 7, 4, 5, 6, '2026-08-19', 2.5, 7, FALSE, 'Planted', 'Certain', '', 'a walker', '', '2026-08-19 12:00:00Z');
        INSERT INTO "Sightings" ("NeighbourhoodId", "Id", "YardId", "BedId", "TaxonId", "ObservedOn", "CoverSquareMetres", "Count", "CoverDerived", "Origin", "Certainty", "Qualifier", "Observer", "Remarks", "RecordedAtUtc") VALUES (1, 10, 4, 5, 6, '2026-08-01', 0, NULL, FALSE, 'Planted', 'Certain', '', 'a walker', 'gone', '2026-08-01 12:00:00Z');
        INSERT INTO "Infestations" ("NeighbourhoodId", "Id", "BlockId", "YardId", "TaxonId", "ObservedOn", "AreaSquareMetres", "CoverPercent", "GrowthStage", "Remarks", "RecordedAtUtc") VALUES (1, 8, 3, 4, 6, '2026-08-19', 3, 40, 3, '', '2026-08-19 12:00:00Z');
        """;
}
