using System.Text;
using CommonGround.Interchange.Walks;
using CommonGround.Storage;
using CommonGround.Web.Commands;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.Photos;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Hosting;
using CommonGround.Web.Layout;
using CommonGround.Web.Operations;
using CommonGround.Web.Tests.Features.Walks;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging.Abstractions;

namespace CommonGround.Web.Tests.Features.Photos;

public sealed class YardPhotosTests : IDisposable
{
    /// <summary>16 × 12 pixels.</summary>
    internal static readonly byte[] Jpeg = Convert.FromBase64String(
        "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABsSFBcUERsXFhceHBsgKEIrKCUlKFE6PTBCYFVlZF9VXVtqeJmBanGQc1tdhbWGkJ6jq62rZ4C8ybqmx5moq6T/2wBDARweHigjKE4rK06kbl1upKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKT/wAARCAAMABADASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAAEF/8QAGRAAAQUAAAAAAAAAAAAAAAAAAAITFFFh/8QAFQEBAQAAAAAAAAAAAAAAAAAAAgX/xAAWEQADAAAAAAAAAAAAAAAAAAAAARP/2gAMAwEAAhEDEQA/AJDwQ8NtpFBpFES7DFH/2Q==");

    private readonly TempFolder data = new();

    [Fact]
    public async Task A_photo_is_stored_without_what_it_tells_under_a_name_of_ours()
    {
        using var garden = await Garden.WithOneYardAsync();
        var member = await garden.MemberOfAsync("N-1");
        byte[] telling = [.. Jpeg[..2], 0xFF, 0xFE, 0, 8, .. "secret"u8, .. Jpeg[2..]];
        (await AddAsync(garden, member, telling, "the front bed")).ShouldBeEmpty();
        await using var db = await garden.Database.CreateDbContextAsync();
        var photo = await db.Photos.SingleAsync();
        photo.FileName.ShouldMatch("^2026/[0-9a-f]{32}\\.jpg$");
        (photo.Caption, photo.AddedById).ShouldBe(("the front bed", member.MemberId));
        (await File.ReadAllBytesAsync(data.File("photos/" + photo.FileName))).ShouldBe(Stored(telling));
        Encoding.Latin1.GetString(Stored(telling)).ShouldNotContain("secret");
        await CheckAsync(garden, []);
    }

    [Fact]
    public async Task What_is_no_photo_or_not_theirs_to_add_changes_nothing()
    {
        using var garden = await Garden.WithOneYardAsync();
        var other = await garden.MemberOfAsync();
        (await AddAsync(garden, other, Jpeg)).ShouldHaveSingleItem().Message.ShouldContain("not yours to change");
        (await AddAsync(garden, Garden.Visitor, Jpeg)).ShouldHaveSingleItem();
        (await AddAsync(garden, Garden.Organiser, Encoding.UTF8.GetBytes("<script>"))).ShouldHaveSingleItem().Field.ShouldBe("file");
        (await Photos(garden).AddAsync((await garden.BedAsync()).Yard.Id, new PhotoDraft { TakenOn = Garden.Today.AddDays(1) }, Jpeg,
            Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("is in the future");
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Photos.AnyAsync()).ShouldBeFalse();
        Directory.Exists(data.File("photos")).ShouldBeFalse();
    }

    [Fact]
    public async Task Spoilt_pictures_never_throw_and_leave_no_row_without_its_file()
    {
        using var garden = await Garden.WithOneYardAsync();
        var chance = new Random(20260819);
        for (var i = 0; i < 300; i++)
        {
            var spoilt = Jpeg.ToArray();
            for (var change = 0; change < 3; change++)
            {
                spoilt[chance.Next(spoilt.Length)] = (byte)chance.Next(256);
            }

            var before = await CountAsync(garden);
            var problems = await AddAsync(garden, Garden.Organiser, spoilt);
            (await CountAsync(garden)).ShouldBe(before + (problems.Count == 0 ? 1 : 0));
        }

        await CheckAsync(garden, []);
    }

    [Fact]
    public async Task A_full_disk_leaves_no_row()
    {
        using var garden = await Garden.WithOneYardAsync();
        data.Write("photos", "a file where the folder should be");
        (await AddAsync(garden, Garden.Organiser, Jpeg)).ShouldHaveSingleItem().Message.ShouldContain("Nothing was stored");
        (await CountAsync(garden)).ShouldBe(0);
    }

    [Fact]
    public async Task A_photo_that_was_removed_comes_back_from_history_with_its_file()
    {
        using var garden = await Garden.WithOneYardAsync();
        var member = await garden.MemberOfAsync("N-1");
        await AddAsync(garden, member, Jpeg);
        await using var db = await garden.Database.CreateDbContextAsync();
        var photo = await db.Photos.AsNoTracking().SingleAsync();
        (await Photos(garden).RemoveAsync(photo.Id, await garden.MemberOfAsync())).ShouldHaveSingleItem();
        (await Photos(garden).RemoveAsync(photo.Id, member)).ShouldBeEmpty();
        (await CountAsync(garden)).ShouldBe(0);
        await CheckAsync(garden, []);
        var change = await db.Changes.OrderBy(c => c.Id).LastAsync();
        (await garden.Undo.UndoAsync(change.Id, member)).ShouldBeEmpty();
        (await db.Photos.AsNoTracking().SingleAsync()).FileName.ShouldBe(photo.FileName);
        garden.Time.Now = garden.Time.Now.AddDays(400);
        await RetentionJob(garden).RunAsync();
        File.Exists(data.File("photos/" + photo.FileName)).ShouldBeTrue();
        await CheckAsync(garden, []);
    }

    [Fact]
    public async Task A_removed_photo_is_erased_after_thirty_days_file_and_all()
    {
        using var garden = await Garden.WithOneYardAsync();
        await AddAsync(garden, Garden.Organiser, Jpeg, "ours");
        await using var db = await garden.Database.CreateDbContextAsync();
        var photo = await db.Photos.AsNoTracking().SingleAsync();
        await Photos(garden).RemoveAsync(photo.Id, Garden.Organiser);
        garden.Time.Now = garden.Time.Now.AddDays(29);
        await RetentionJob(garden).RunAsync();
        File.Exists(data.File("photos/" + photo.FileName)).ShouldBeTrue();
        garden.Time.Now = garden.Time.Now.AddDays(2);
        await RetentionJob(garden).RunAsync();
        File.Exists(data.File("photos/" + photo.FileName)).ShouldBeFalse();
        (await db.ChangedRows.Where(r => r.Kind == "Photo" && r.Before != null).AnyAsync()).ShouldBeFalse();
        await CheckAsync(garden, []);
    }

    [Fact]
    public async Task An_adding_that_was_undone_is_swept_once_nothing_can_bring_it_back()
    {
        using var garden = await Garden.WithOneYardAsync();
        await AddAsync(garden, Garden.Organiser, Jpeg);
        await using var db = await garden.Database.CreateDbContextAsync();
        var photo = await db.Photos.AsNoTracking().SingleAsync();
        (await garden.Undo.UndoAsync((await db.Changes.OrderBy(c => c.Id).LastAsync()).Id, Garden.Organiser)).ShouldBeEmpty();
        await RetentionJob(garden).RunAsync();
        File.Exists(data.File("photos/" + photo.FileName)).ShouldBeTrue();
        await CheckAsync(garden, []);
        // History is dated by the machine's clock, not the test's.
        garden.Time.Now = DateTimeOffset.UtcNow.AddDays(91);
        await RetentionJob(garden).RunAsync();
        File.Exists(data.File("photos/" + photo.FileName)).ShouldBeFalse();
        await CheckAsync(garden, []);
    }

    [Fact]
    public async Task A_block_shows_three_photos_at_most_only_while_the_public_sees_it_and_their_households_agree()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv",
            "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A,N-1,41.5,-88.5,100,yes\nNorth,A,N-2,41.5,-88.5,100,yes\n"
                + "North,A,N-3,41.5,-88.5,100,yes\nNorth,B,N-4,41.5,-88.5,100,yes\n"));
        foreach (var code in new[] { "N-1", "N-1", "N-1", "N-1", "N-2", "N-4" })
        {
            (await Photos(garden).AddAsync(await IdAsync(garden, code), new PhotoDraft { TakenOn = Garden.Today }, Jpeg,
                Garden.Organiser)).ShouldBeEmpty();
        }

        var queries = new PhotoQueries(garden.Database, garden.Live);
        (await queries.OfBlockAsync(0)).ShouldBeEmpty();
        await AgreeAsync("N-1", true);
        await AgreeAsync("N-2", true);
        await AgreeAsync("N-4", true);
        var shown = await queries.OfBlockAsync(0);
        shown.Count.ShouldBe(3);
        await using var db = await garden.Database.CreateDbContextAsync();
        var second = (await db.Photos.SingleAsync(p => p.YardId == db.Yards.Single(y => y.Code == "N-2").Id)).Id;
        shown.ShouldContain(p => p.Id == second);
        (await queries.OfBlockAsync(1)).ShouldBeEmpty();
        (await queries.SharedFileAsync(second, default)).ShouldNotBeNull();
        await AgreeAsync("N-2", false);
        (await queries.OfBlockAsync(0)).ShouldNotContain(p => p.Id == second);
        (await queries.SharedFileAsync(second, default)).ShouldBeNull();

        async Task AgreeAsync(string code, bool photos) => (await garden.Keeping.ConsentAsync(await IdAsync(garden, code),
            new Consents(true, false, photos), Garden.Organiser)).ShouldBeEmpty();
    }

    public void Dispose() => data.Dispose();

    /// <summary>What of a file is kept.</summary>
    internal static byte[] Stored(byte[] file) => CommonGround.Interchange.Photos.CleanPhoto.Read(file).Photo.ShouldNotBeNull().Bytes;

    private YardPhotos Photos(Garden garden) => new(garden.Database, garden.Neighbourhood, new PhotoFolder(Options), garden.Clock,
        new CommonGround.Web.Shared.HeavyWork(null));

    private SiteOptions Options => new(data.Path, false, StorageLocation.SqliteFile(data.File("unused.db")), "Testgrund",
        "America/Chicago");

    /// <summary>What was received of a walk is emptied when nothing can come for the same day any more, or its yard is gone for good; that
    /// it was received stays.</summary>
    [Theory]
    [InlineData(399, false, false)]
    [InlineData(401, false, true)]
    [InlineData(29, true, false)]
    [InlineData(31, true, true)]
    public async Task Notes_of_walks_are_emptied_and_still_stored_once(int days, bool takenOut, bool emptied)
    {
        using var garden = await Garden.WithOneYardAsync();
        var walker = await garden.WalkerAsync("walker 1");
        await garden.BergamotAsync();
        var note = await garden.LookAsync(walker, Flora.Bergamot, new() { Remark = "by the downspout" });
        await garden.StoreAsync(walker, note);
        if (takenOut)
        {
            (await garden.Keeping.TakeOutAsync((await garden.BedAsync()).Yard.Id, Garden.Organiser)).ShouldBeEmpty();
        }

        garden.Time.Now = garden.Time.Now.AddDays(days);
        await RetentionJob(garden).RunAsync();
        (await garden.AskAsync(db => db.ReceivedNotes.SingleAsync())).Said.Contains("downspout", StringComparison.Ordinal)
            .ShouldBe(!emptied);
        (await garden.SendAsync(walker, note)).Receipts.Single().State.ShouldBe(ReceiptState.StoredBefore);
    }

    private RetentionJob RetentionJob(Garden garden) => new(garden.Database, new PhotoFolder(Options), Options, garden.Time,
        NullLogger<RetentionJob>.Instance);

    private async Task<IReadOnlyList<Problem>> AddAsync(Garden garden, CurrentUser by, byte[] file, string caption = "") =>
        await Photos(garden).AddAsync((await garden.BedAsync()).Yard.Id, new PhotoDraft { Caption = caption, TakenOn = Garden.Today },
            file, by);

    private async Task CheckAsync(Garden garden, string[] found)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        PhotoFiles.Compare(await PhotoFiles.StoredAsync(db, default), data.File("photos"), await PhotoFiles.HeldAsync(db, default))
            .ShouldBe(found);
    }

    private static async Task<int> CountAsync(Garden garden)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        return await db.Photos.CountAsync();
    }

    private static async Task<long> IdAsync(Garden garden, string code)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        return await db.Yards.Where(y => y.Code == code).Select(y => y.Id).SingleAsync();
    }
}
