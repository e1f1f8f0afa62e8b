using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Storage.Members;
using CommonGround.Storage.Plans;
using CommonGround.Storage.Tests;
using CommonGround.Web.Operations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Operations;

/// <summary>The drill: a whole neighbourhood is backed up while somebody saves, brought back elsewhere, and compared row by row and file by
/// file.</summary>
public sealed class BackupDrillTests(Databases databases) : IClassFixture<Databases>, IDisposable
{
    private readonly TempFolder data = new();
    private readonly TempFolder empty = new();
    private readonly TempFolder files = new();

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        data.Dispose();
        empty.Dispose();
        files.Dispose();
    }

    [Theory]
    [InlineData("sqlite")]
    [InlineData("postgres")]
    public async Task Everything_comes_back_as_it_was(string provider)
    {
        var (here, there) = (Options(data, provider), Options(empty, provider));
        var opened = await SiteStartup.OpenAsync(here, TestClock.On(2026, 8, 19));
        await FillAsync(opened);
        var count = await BackupArchive.WriteAsync(here, files.File("whole.zip"), TimeProvider.System, default);
        count.ShouldBe(3);
        (await RestoreArchive.ReadAsync(there, files.File("whole.zip"), default)).ShouldBe(count);
        var (before, after) = (await TableRows.OfAsync(here.Storage), await TableRows.OfAsync(there.Storage));
        after.Keys.ShouldBe(before.Keys);
        foreach (var (table, rows) in before)
        {
            after[table].ShouldBe(rows, table);
        }

        before["Sightings"].Count.ShouldBe(5840);
        before["Plans"].ShouldHaveSingleItem();
        Contents(empty).ShouldBe(Contents(data));
        (await MeasuresAsync(there)).ShouldBe(await MeasuresAsync(here));
        (await DataCheck.RunAsync(there, default)).ShouldBeEmpty();
        (await Should.ThrowAsync<DataFolderException>(() => RestoreArchive.ReadAsync(there, files.File("whole.zip"), default))).Message
            .ShouldContain("already holds");
    }

    [Theory]
    [InlineData("sqlite")]
    [InlineData("postgres")]
    public async Task A_backup_made_while_somebody_saves_holds_one_moment_whole(string provider)
    {
        var (here, there) = (Options(data, provider), Options(empty, provider));
        var opened = await SiteStartup.OpenAsync(here, TestClock.On(2026, 8, 19));
        using var stop = new CancellationTokenSource();
        var receipts = new List<(long SightingId, long BedId, Guid BedVersion)>();
        var started = new TaskCompletionSource();
        var writing = Task.Run(() => WriteAsync(opened, receipts, started, stop.Token));
        await started.Task;
        var first = receipts.Count;
        await BackupArchive.WriteAsync(here, files.File("moving.zip"), TimeProvider.System, default);
        await stop.CancelAsync();
        await writing;
        receipts.Count.ShouldBeGreaterThan(first);
        await RestoreArchive.ReadAsync(there, files.File("moving.zip"), default);
        (await DataCheck.RunAsync(there, default)).ShouldBeEmpty();
        await using var db = await StorageRegistration.Open(there.Storage).In(1).CreateDbContextAsync();
        var ids = await db.Sightings.Select(s => s.Id).ToHashSetAsync();
        var stored = receipts.TakeWhile(r => ids.Contains(r.SightingId)).ToList();
        // What was saved before the backup began is in it; of what came later a beginning, without a hole, and the bed as the last of it
        // left the bed.
        stored.Count.ShouldBeGreaterThanOrEqualTo(first);
        receipts.Skip(stored.Count).ShouldAllBe(r => !ids.Contains(r.SightingId));
        (await db.Beds.SingleAsync(b => b.Id == receipts[0].BedId)).Version.ShouldBe(stored[^1].BedVersion);
    }

    [Fact]
    public async Task A_backup_of_a_newer_program_or_of_the_other_database_is_refused_and_nothing_is_restored()
    {
        var here = Options(data, "sqlite");
        await SiteStartup.OpenAsync(here, TestClock.On(2026, 8, 19));
        await BackupArchive.WriteAsync(here, files.File("own.zip"), TimeProvider.System, default);
        (await Should.ThrowAsync<DataFolderException>(() => RestoreArchive.ReadAsync(Options(empty, "postgres"), files.File("own.zip"),
            default))).Message.ShouldContain("holds a SQLite database, but Database:Provider says PostgreSQL");
        await using (var db = await StorageRegistration.Open(here.Storage).In(1).CreateDbContextAsync())
        {
            await db.Database.ExecuteSqlRawAsync("""INSERT INTO "__EFMigrationsHistory" VALUES ('29991231000000_Later', '99.0.0')""");
        }

        await BackupArchive.WriteAsync(here, files.File("newer.zip"), TimeProvider.System, default);
        (await Should.ThrowAsync<DataFolderException>(() => RestoreArchive.ReadAsync(Options(empty, "sqlite"), files.File("newer.zip"),
            default))).Message.ShouldContain("made by a newer version of the program");
        Directory.GetFileSystemEntries(empty.Path).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_photo_of_another_site_is_not_overwritten_and_a_restore_that_was_cut_short_can_be_run_again()
    {
        var here = Options(data, "sqlite");
        await FillAsync(await SiteStartup.OpenAsync(here, TestClock.On(2026, 8, 19)));
        await BackupArchive.WriteAsync(here, files.File("own.zip"), TimeProvider.System, default);
        Directory.CreateDirectory(empty.File("photos/2026"));
        empty.Write("photos/2026/empty.jpg", "another");
        var there = Options(empty, "sqlite");
        (await Should.ThrowAsync<DataFolderException>(() => RestoreArchive.ReadAsync(there, files.File("own.zip"), default))).Message
            .ShouldContain("already holds another photos/2026/empty.jpg");
        File.Exists(empty.File("commonground.db")).ShouldBeFalse();
        empty.Write("photos/2026/empty.jpg", "");
        await RestoreArchive.ReadAsync(there, files.File("own.zip"), default);
        Contents(empty).ShouldBe(Contents(data));
    }

    private static async Task WriteAsync(OpenedSite opened, List<(long SightingId, long BedId, Guid BedVersion)> receipts,
        TaskCompletionSource started, CancellationToken stop)
    {
        var place = opened.Neighbourhoods.All[0];
        var record = new RecordPlantings(opened.Database.In(place.Neighbourhood.Id), place.Neighbourhood, place.Clock);
        long bedId;
        await using (var first = await opened.Database.In(1).CreateDbContextAsync(CancellationToken.None))
        {
            bedId = await first.Beds.Where(b => b.AreaSquareMetres > 2).OrderBy(b => b.Id).Select(b => b.Id)
                .FirstAsync(CancellationToken.None);
        }

        for (var day = 1; !stop.IsCancellationRequested && day < 20_000; day++)
        {
            await using var db = await opened.Database.In(1).CreateDbContextAsync(CancellationToken.None);
            var bed = await db.Beds.AsNoTracking().SingleAsync(b => b.Id == bedId, CancellationToken.None);
            var seen = new DateOnly(2020, 1, 1).AddDays(-day);
            var line = new PlantingDraft { Taxon = Flora.Named(Flora.Columbine), CoverSquareMetres = 1, Count = day };
            var result = await record.SaveAsync(new RecordSheet(bed.YardId, bed.Id, bed.Version, seen, "walker", [line]),
                new CurrentUser(Role.Organiser, null, "an organiser", false), CancellationToken.None);
            result.ChangeId.ShouldNotBeNull(string.Join(' ', result.Problems.Select(p => p.Message)));
            receipts.Add((await db.Sightings.Where(s => s.BedId == bed.Id && s.ObservedOn == seen).Select(s => s.Id)
                .SingleAsync(CancellationToken.None), bed.Id, result.BedVersion));
            if (day == 30)
            {
                started.SetResult();
            }
        }
    }

    /// <summary>Photos and a kept plan beside the demo's own rows.</summary>
    private async Task FillAsync(OpenedSite opened)
    {
        Directory.CreateDirectory(data.File("photos/2026"));
        Directory.CreateDirectory(data.File("logs"));
        data.Write("logs/today.json", "{}");
        await File.WriteAllBytesAsync(data.File("photos/2026/ä.jpg"), [.. Enumerable.Range(0, 70_000).Select(i => (byte)(i * 7))]);
        data.Write("photos/2026/empty.jpg", "");
        await using var db = await opened.Database.In(1).CreateDbContextAsync();
        var id = opened.Neighbourhoods.All[0].Neighbourhood.Id;
        var yard = await db.Yards.OrderBy(y => y.Id).FirstAsync();
        db.Plans.Add(new SavedPlan
        {
            NeighbourhoodId = id,
            YardId = yard.Id,
            Number = 1,
            Request = """{"budget":300,"words":"„schön“"}""",
            Shares = "{}",
            MadeOn = new(2026, 8, 19),
            MadeAtUtc = new(2026, 8, 19, 12, 0, 0, 123, DateTimeKind.Utc)
        });
        db.Photos.AddRange(new[] { "2026/ä.jpg", "2026/empty.jpg" }.Select(name => new Photo
        {
            NeighbourhoodId = id,
            YardId = yard.Id,
            FileName = name,
            Sha256 = Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(data.File("photos/" + name)))),
            TakenOn = new(2026, 8, 19),
            AddedAtUtc = new(2026, 8, 19, 12, 0, 0, DateTimeKind.Utc)
        }));
        await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
    }

    private SiteOptions Options(TempFolder folder, string provider) => new(folder.Path, true, provider == "sqlite"
        ? StorageLocation.SqliteFile(folder.File("commonground.db")) : databases.NewLocation(provider), "Our group", "America/Chicago");

    private static Dictionary<string, string> Contents(TempFolder folder) => new[] { "photos" }
        .SelectMany(d => Directory.EnumerateFiles(folder.File(d), "*", SearchOption.AllDirectories))
        .ToDictionary(f => Path.GetRelativePath(folder.Path, f), f => Convert.ToHexString(File.ReadAllBytes(f)), StringComparer.Ordinal);

    private static Task<string> MeasuresAsync(SiteOptions options) =>
        new Commands.Terminal(options.DataFolder) { Database = options.Storage }.DoAsync("measures", "--by", "yard", "--as-of",
            "2026-08-19");
}
