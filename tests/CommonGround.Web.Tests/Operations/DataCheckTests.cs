using System.Security.Cryptography;
using CommonGround.Storage;
using CommonGround.Storage.Tests;
using CommonGround.Web.Operations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Operations;

/// <summary>Each kind of damage is done to a sound folder, and the check names it.</summary>
public sealed class DataCheckTests(Databases databases) : IClassFixture<Databases>, IDisposable
{
    private readonly TempFolder data = new();

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        data.Dispose();
    }

    [Theory]
    [InlineData("sqlite")]
    [InlineData("postgres")]
    public async Task A_row_that_points_nowhere_is_named_with_its_key(string provider)
    {
        var options = await LaidAsync(provider);
        (await DataCheck.RunAsync(options, default)).ShouldBeEmpty();
        await DoAsync(options, provider == "sqlite"
            ? "PRAGMA foreign_keys = OFF; DELETE FROM \"Streets\" WHERE \"Id\" = (SELECT min(\"StreetId\") FROM \"Blocks\"); PRAGMA "
            + "foreign_keys = ON"
            : "SET session_replication_role = replica; DELETE FROM \"Streets\" WHERE \"Id\" = (SELECT min(\"StreetId\") FROM \"Blocks\"); "
            + "SET session_replication_role = DEFAULT");
        var found = (await DataCheck.RunAsync(options, default)).ShouldHaveSingleItem();
        found.ShouldStartWith("A row of Blocks points to a row of Streets that is gone (NeighbourhoodId, Id: 1, ");
        found.ShouldContain("What to do: ");
    }

    [Fact]
    public async Task A_value_that_breaks_a_rule_is_found_on_postgresql()
    {
        var options = await LaidAsync("postgres");
        await DoAsync(options,
            """ALTER TABLE "Sightings" DROP CONSTRAINT "CK_Sightings_Cover"; UPDATE "Sightings" SET "CoverSquareMetres" = -1 WHERE "Id" = (SELECT min("Id") FROM "Sightings"); ALTER TABLE "Sightings" ADD CONSTRAINT "CK_Sightings_Cover" CHECK ("CoverSquareMetres" >= 0) NOT VALID""");
        var found = await DataCheck.RunAsync(options, default);
        found.Count.ShouldBe(2);
        found[0].ShouldStartWith("PostgreSQL database: 1 rows of \"Sightings\" break the rule CK_Sightings_Cover. What to do: ");
        found[1].ShouldContain("is not enforced on all rows");
    }

    [Theory]
    [InlineData("sqlite")]
    [InlineData("postgres")]
    public async Task A_groups_value_that_can_no_longer_be_read_is_named_with_its_plant(string provider)
    {
        var options = await LaidAsync(provider);
        await DoAsync(options, """
            INSERT INTO "PlantOverrides" ("NeighbourhoodId", "TaxonId", "Trait", "Value", "Reason", "SetAtUtc", "Version")
            SELECT 1, "Id", 'height_max_m', 'tall', 'a test', '2026-08-19 12:00:00', '6f9619ff-8b86-4d01-b42d-00cf4fc964ff' FROM "Taxa" WHERE "ScientificName" = 'Monarda fistulosa'
            """);
        (await DataCheck.RunAsync(options, default)).ShouldHaveSingleItem()
            .ShouldStartWith("Monarda fistulosa: the group's value for height_max_m, tall, cannot be read");
    }

    [Theory]
    [InlineData("UPDATE \"Taxa\" SET \"Unlisted\" = TRUE", "The catalogue of Quarry Bend is empty.")]
    [InlineData("UPDATE \"Taxa\" SET \"Traits\" = replace(\"Traits\", '\"C\":', '\"C\":4') WHERE \"ScientificName\" = 'Monarda fistulosa'",
        "Monarda fistulosa: its C is 4")]
    [InlineData("UPDATE \"Taxa\" SET \"Traits\" = '{' WHERE \"ScientificName\" = 'Monarda fistulosa'",
        "Monarda fistulosa: its traits cannot be read.")]
    [InlineData("UPDATE \"Taxa\" SET \"Traits\" = '{\"ScientificName\":\"Planta ignota\"}' WHERE \"ScientificName\" = 'Monarda fistulosa'",
        "are those of Planta ignota, which is not in the catalogue.")]
    [InlineData("UPDATE \"Taxa\" SET \"Traits\" = '{\"ScientificName\":\"Monarda fistulosa\",\"Synonyms\":[\"Echinacea pallida\",\" \"]}' "
        + "WHERE \"ScientificName\" = 'Monarda fistulosa'", "its synonym Echinacea pallida is a taxon of its own.")]
    public async Task A_damaged_catalogue_is_found_and_bringing_it_again_is_the_way_to_repair_it(string damage, string said)
    {
        var options = await LaidAsync("sqlite");
        await DoAsync(options, damage);
        var found = await DataCheck.RunAsync(options, default);
        found.ShouldContain(f => f.Contains(said));
        found.ShouldAllBe(f => f.Contains("What to do: "));
        if (said.EndsWith("cannot be read.", StringComparison.Ordinal))
        {
            found.ShouldHaveSingleItem().ShouldContain("restore the newest backup");
            return;
        }

        await new Commands.Terminal(data.Path).DoAsync("import", Path.Combine(SiteOptions.SeedFolder, "plants.csv"));
        (await DataCheck.RunAsync(options, default)).ShouldBeEmpty();
    }

    [Fact]
    public async Task Flipped_bytes_in_the_database_file_are_found()
    {
        var options = await LaidAsync("sqlite");
        await DoAsync(options, "PRAGMA wal_checkpoint(TRUNCATE)");
        SqliteConnection.ClearAllPools();
        await using (var file = File.Open(data.File("commonground.db"), FileMode.Open))
        {
            // The header of every eighth page: what kind of page it is and where its cells begin (https://www.sqlite.org/fileformat2.html).
            for (var page = 8L; page < file.Length / 4096; page += 8)
            {
                file.Position = page * 4096;
                var bytes = new byte[8];
                file.ReadExactly(bytes);
                file.Position = page * 4096;
                file.Write([.. bytes.Select(b => (byte)~b)]);
            }
        }

        var found = await DataCheck.RunAsync(options, default);
        found.ShouldContain(f => f.StartsWith("SQLite database: ") && f.Contains("restore the newest backup"));
        var terminal = await new Commands.Terminal(data.Path).RunAsync("check");
        terminal.Code.ShouldBe(1);
        terminal.Error.ShouldStartWith("The check found ");
    }

    [Fact]
    public async Task A_file_that_is_no_database_and_a_folder_without_one_are_told_apart()
    {
        data.Write("commonground.db", new string('x', 9000));
        (await DataCheck.RunAsync(Options("sqlite"), default)).ShouldContain(f => f.Contains("not a database"));
        File.Delete(data.File("commonground.db"));
        (await Should.ThrowAsync<DataFolderException>(() => DataCheck.RunAsync(Options("sqlite"), default))).Message
            .ShouldContain("nothing to check");
    }

    [Fact]
    public async Task Left_overs_of_something_cut_short_are_named()
    {
        var options = await LaidAsync("sqlite");
        Directory.CreateDirectory(data.File("backups/x.zip.work"));
        data.Write("backups/x.zip.part", "half");
        var found = await DataCheck.RunAsync(options, default);
        found.Select(f => f.Split(':')[0]).ShouldBe(["Left-over backups/x.zip.part", "Left-over backups/x.zip.work"]);
    }

    [Fact]
    public void Photos_and_their_rows_are_compared_both_ways()
    {
        Directory.CreateDirectory(data.File("photos/a"));
        data.Write("photos/a/good.jpg", "good");
        data.Write("photos/a/changed.jpg", "changed");
        data.Write("photos/a/nobodys.jpg", "nobody's");
        string Sum(string text) => Convert.ToHexString(SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(text)));
        var found = PhotoFiles.Compare([new("a/good.jpg", Sum("good").ToLowerInvariant()), new("a/changed.jpg", Sum("as it was")),
            new("a/lost.jpg", Sum("lost"))], data.File("photos"));
        found.Select(f => f.Split(". What to do: ")[0]).ShouldBe([
            "Photo a/changed.jpg: the file is not the one that was stored",
            "Photo a/lost.jpg: the database names it, but photos/ does not hold it",
            "Photo a/nobodys.jpg: photos/ holds it, but the database does not name it",
        ]);
        PhotoFiles.Compare(null, data.File("photos")).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_change_of_the_schema_that_is_missing_is_a_finding()
    {
        var options = await LaidAsync("sqlite");
        await DoAsync(options,
            """DELETE FROM "__EFMigrationsHistory" WHERE "MigrationId" = (SELECT MAX("MigrationId") FROM "__EFMigrationsHistory")""");
        (await DataCheck.RunAsync(options, default)).ShouldHaveSingleItem().ShouldContain("run migrate or start the site");
    }

    private SiteOptions Options(string provider) => new(data.Path, true, provider == "sqlite"
        ? StorageLocation.SqliteFile(data.File("commonground.db")) : databases.NewLocation(provider), "Our group", "America/Chicago");

    private async Task<SiteOptions> LaidAsync(string provider)
    {
        var options = Options(provider);
        if (provider == "sqlite")
        {
            await PreparedData.FillAsync(data.Path, demo: true);
        }

        await SiteStartup.OpenAsync(options, TestClock.On(2026, 8, 19));
        return options;
    }

    private static async Task DoAsync(SiteOptions options, string sql)
    {
        await using var db = await StorageRegistration.Open(options.Storage).In(1).CreateDbContextAsync();
        await db.Database.OpenConnectionAsync();
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = sql;
        await command.ExecuteNonQueryAsync();
    }
}
