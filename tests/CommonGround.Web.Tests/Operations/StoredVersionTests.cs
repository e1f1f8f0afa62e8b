using System.Text.RegularExpressions;
using CommonGround.Storage;
using CommonGround.Storage.Tests;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Operations;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Operations;

/// <summary>A backup that an older version wrote is restored by this one, and its database brought up to date with nothing lost.</summary>
public sealed partial class StoredVersionTests(Databases databases) : IClassFixture<Databases>, IDisposable
{
    private readonly TempFolder data = new();

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        data.Dispose();
    }

    public static TheoryData<string, string> Stored()
    {
        var stored = new TheoryData<string, string>();
        foreach (var file in Directory.GetFiles(Folder, "*.zip").Select(Path.GetFileNameWithoutExtension))
        {
            stored.Add(file!.Split('-')[0], file.Split('-')[1]);
        }

        return stored;
    }

    [Theory]
    [MemberData(nameof(Stored))]
    public async Task Every_row_of_an_older_version_is_there_after_the_upgrade(string version, string provider)
    {
        var options = Options(provider);
        (await RestoreArchive.ReadAsync(options, Path.Combine(Folder, $"{version}-{provider}.zip"), default)).ShouldBe(2);
        var columns = await TableRows.ColumnsAsync(options.Storage);
        var before = await TableRows.OfAsync(options.Storage);
        string[] filled = ["Accounts", "Beds", "Blocks", "ChangedRows", "Changes", "Infestations", "Invitations", "Members", "Photos",
            "Plans",
            "PlantNotes", "PlantOverrides", "Prices", "PublishedYards", "Sessions", "Sightings", "Streets", "Taxa", "WeatherDays", "Yards"];
        filled.ShouldAllBe(table => before[table].Count > 0);

        await using (var db = await StorageRegistration.Open(options.Storage).CreateDbContextAsync())
        {
            await SiteStartup.MigrateAsync(db, null, default);
            db.Database.HasPendingModelChanges().ShouldBeFalse();
        }

        var after = await TableRows.OfAsync(options.Storage, columns);
        foreach (var (table, rows) in before.Where(t => !t.Key.StartsWith("__EF", StringComparison.Ordinal)))
        {
            after[table].ShouldBe(rows, $"{table} of {version}");
        }

        (await DataCheck.RunAsync(options, default)).ShouldBeEmpty();
        await using var record = await StorageRegistration.Open(options.Storage).In(1).CreateDbContextAsync();
        (await record.Neighbourhoods.SingleAsync()).Name.ShouldBe("Sycamore Hollow");
        (await record.Yards.CountAsync(), await record.Beds.CountAsync(), await record.Sightings.CountAsync()).ShouldBe((24, 24, 258));
        (await record.WeatherDays.SingleAsync()).RainMillimetres.ShouldBe(12.5);
        (await record.PlantOverrides.SingleAsync()).Value.ShouldBe("1.2");
        (await record.Photos.SingleAsync()).Caption.ShouldBe("Asters at the fence");
        (await record.Users.SingleAsync()).Email.ShouldBe("robin@sycamore-hollow.example");
    }

    [Theory]
    [InlineData("sqlite")]
    [InlineData("postgres")]
    public async Task The_first_migration_still_makes_the_schema_of_the_first_version(string provider)
    {
        var (stored, made) = (Options(provider), Options(provider, "made"));
        Directory.CreateDirectory(made.DataFolder);
        await RestoreArchive.ReadAsync(stored, Path.Combine(Folder, $"0.1.0-{provider}.zip"), default);
        await using (var db = await StorageRegistration.Open(made.Storage).CreateDbContextAsync())
        {
            await db.Database.MigrateAsync(db.Database.GetMigrations().First());
        }

        (await TableRows.SchemaAsync(made.Storage)).ShouldBe(await TableRows.SchemaAsync(stored.Storage));
    }

    [Fact]
    public void Every_version_that_was_released_is_stored_for_both_databases()
    {
        var changelog = File.ReadAllText(Path.Combine(TempFolder.Repository(), "docs", "changelog.md"));
        var versions = Headings().Matches(changelog).Select(m => m.Groups["version"].Value).Append("0.1.0").Distinct();
        versions.SelectMany(v => new[] { $"{v}-postgres.zip", $"{v}-sqlite.zip" })
            .ShouldBeSubsetOf(Directory.GetFiles(Folder, "*.zip").Select(f => Path.GetFileName(f)));
    }

    [GeneratedRegex(@"^## (?<version>\d+\.\d+\.\d+)\s*$", RegexOptions.Multiline | RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000)]
    private static partial Regex Headings();

    private static string Folder => Path.Combine(TempFolder.Repository(), "tests", "CommonGround.Web.Tests", "Operations", "Stored");

    private SiteOptions Options(string provider, string folder = "stored") => new(data.File(folder), true,
        provider == "sqlite" ? StorageLocation.SqliteFile(data.File($"{folder}/commonground.db")) : databases.NewLocation(provider),
            "Our group", "America/Chicago");
}
