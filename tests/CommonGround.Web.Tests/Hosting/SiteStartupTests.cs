using CommonGround.Interchange;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Hosting;

/// <summary>A data folder when the program starts.</summary>
public sealed class OpeningTests : IDisposable
{
    private readonly TempFolder folder = new();

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        folder.Dispose();
    }

    [Fact]
    public async Task A_new_folder_gets_the_demo_whole_and_a_second_opening_changes_nothing()
    {
        var opened = await OpenAsync(demo: true);
        var place = opened.Neighbourhoods.All.Single();
        (place.Neighbourhood.Name, place.Neighbourhood.IsDemo,
            place.Neighbourhood.Locality).ShouldBe(("Quarry Bend", true, DemoGroup.QuarryBend.Place));
        place.Clock.Today.ShouldBe(new(2026, 8, 19));
        var first = await CountsAsync();
        var (beds, sightings) = (Rows("beds.csv"), Rows("sightings.csv"));
        first.ShouldBe((8, 38, Rows("places.csv"), beds, sightings, Rows("infestations.csv")));
        (beds, sightings).ShouldBe((429, 5840)); // as the demo's README says
        var versions = await VersionsAsync();
        await OpenAsync(demo: true);
        (await CountsAsync()).ShouldBe(first);
        (await VersionsAsync()).ShouldBe(versions);
        await using var db = await Database().In(1).CreateDbContextAsync();
        (await db.Yards.CountAsync(y => y.OwnerId != null)).ShouldBe(2);
        (await db.Members.CountAsync()).ShouldBe(3);
        (await db.Taxa.CountAsync()).ShouldBe(File.ReadLines(Path.Combine(SiteOptions.SeedFolder, "plants.csv")).Count() - 1);
    }

    [Fact]
    public async Task Without_the_demo_a_new_folder_holds_the_catalogue_and_nothing_else()
    {
        var opened = await OpenAsync(demo: false);
        var place = opened.Neighbourhoods.All.Single();
        (place.Neighbourhood.Name, place.Neighbourhood.IsDemo).ShouldBe(("Our group", false));
        place.Clock.Today.ShouldBe(Garden.Today);
        (await CountsAsync()).ShouldBe((0, 0, 0, 0, 0, 0));
        await using var db = await Database().In(1).CreateDbContextAsync();
        (await db.Taxa.CountAsync()).ShouldBeGreaterThan(500);
        (await db.Members.CountAsync()).ShouldBe(0);
    }

    [Fact]
    public async Task A_real_group_never_gets_the_demo_later()
    {
        await OpenAsync(demo: false);
        (await OpenAsync(demo: true)).Neighbourhoods.All.Single().Neighbourhood.IsDemo.ShouldBeFalse();
        (await CountsAsync()).Yards.ShouldBe(0);
    }

    [Fact]
    public async Task A_demo_whose_first_opening_was_cut_short_is_brought_in_at_the_next()
    {
        await using (var db = await Database().In(1).CreateDbContextAsync())
        {
            await db.Database.MigrateAsync();
            db.Neighbourhoods.Add(new Neighbourhood
            {
                Id = 1,
                Name = "Quarry Bend",
                IsDemo = true,
                DemoToday = SiteStartup.DemoToday,
                TimeZone = "America/Chicago"
            });
            await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        }

        await OpenAsync(demo: true);
        (await CountsAsync()).Yards.ShouldBe(160);
    }

    [Fact]
    public async Task A_database_of_a_newer_program_is_refused_with_what_to_do()
    {
        await OpenAsync(demo: false);
        await using (var db = await Database().In(1).CreateDbContextAsync())
        {
            await db.Database.ExecuteSqlRawAsync("""INSERT INTO "__EFMigrationsHistory" VALUES ('29991231000000_Later', '99.0.0')""");
        }

        var refusal = await Should.ThrowAsync<DataFolderException>(() => OpenAsync(demo: false));
        refusal.Message
            .ShouldBe("This database was written by a newer version of the program (it has the change '29991231000000_Later'). Start the "
            + "newer version, or restore an older backup.");
    }

    [Fact]
    public async Task The_catalogue_is_read_again_only_when_its_file_has_changed()
    {
        await OpenAsync(demo: false);
        await ChangeAsync(db => db.Taxa.Where(t => t.ScientificName == "Monarda fistulosa")
            .ExecuteUpdateAsync(set => set.SetProperty(t => t.Unlisted, true)));
        await OpenAsync(demo: false);
        (await IsUnlistedAsync()).ShouldBeTrue();
        await ChangeAsync(db => db.Neighbourhoods.ExecuteUpdateAsync(set => set.SetProperty(n => n.CatalogueFingerprint, "another")));
        await OpenAsync(demo: false);
        (await IsUnlistedAsync()).ShouldBeFalse();
    }

    private static int Rows(string name) => ImportFile.Read(name,
        File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "quarry-bend", name))).RowCount;

    private Task<OpenedSite> OpenAsync(bool demo) =>
        SiteStartup.OpenAsync(new SiteOptions(folder.Path, demo, Location(), "Our group", "America/Chicago"), TestClock.On(2026, 8, 19));

    private StorageLocation Location() => StorageLocation.SqliteFile(folder.File("commonground.db"));

    private IDbContextFactory<CommonGroundDb> Database() => StorageRegistration.Open(Location());

    private async Task<(int Streets, int Blocks, int Yards, int Beds, int Sightings, int Infestations)> CountsAsync()
    {
        await using var db = await Database().In(1).CreateDbContextAsync();
        return (await db.Streets.CountAsync(), await db.Blocks.CountAsync(), await db.Yards.CountAsync(), await db.Beds.CountAsync(),
            await db.Sightings.CountAsync(), await db.Infestations.CountAsync());
    }

    private async Task<List<Guid>> VersionsAsync()
    {
        await using var db = await Database().In(1).CreateDbContextAsync();
        return [.. await db.Beds.OrderBy(b => b.Id).Select(b => b.Version).ToListAsync(),
            .. await db.Yards.OrderBy(y => y.Id).Select(y => y.Version).ToListAsync()];
    }

    private async Task ChangeAsync(Func<CommonGroundDb, Task> change)
    {
        await using var db = await Database().In(1).CreateDbContextAsync();
        await change(db);
    }

    private async Task<bool> IsUnlistedAsync()
    {
        await using var db = await Database().In(1).CreateDbContextAsync();
        return await db.Taxa.Where(t => t.ScientificName == "Monarda fistulosa").Select(t => t.Unlisted).SingleAsync();
    }
}
