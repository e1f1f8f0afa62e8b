using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.History;
using CommonGround.Web.Features.More;
using CommonGround.Web.Features.Yards;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.History;

public class UndoChangeTests
{
    [Fact]
    public async Task An_import_is_undone_row_by_row_and_the_undoing_can_be_undone_too()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-08-01,1\n"));
        var before = await StateAsync(garden);
        await garden.StoreAsync(
            ("places.csv",
                "street,block,yard,latitude,longitude,yard_m2\nNorth,A to B,N-1,41.5,-88.5,200\nSouth,C to D,S-1,41.4,-88.4,300\n"),
            ("beds.csv", "yard,bed,area_m2\nS-1,back,4\n"),
            ("sightings.csv",
                "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-08-01,3\nS-1,back,Monarda "
                    + "fistulosa,2026-08-02,2\n"));
        var after = await StateAsync(garden);
        var import = await NewestAsync(garden);
        (await garden.Undo.UndoAsync(import, Garden.Organiser)).ShouldBeEmpty();
        (await StateAsync(garden)).ShouldBe(before);
        (await garden.Undo.UndoAsync(import, Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("already undone");
        (await garden.Undo.UndoAsync(await NewestAsync(garden), Garden.Organiser)).ShouldBeEmpty();
        (await StateAsync(garden)).ShouldBe(after);
        (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood.Yards.ShouldBe(2);
    }

    [Fact]
    public async Task What_was_changed_again_since_is_left_alone_and_said()
    {
        using var garden = await Garden.WithOneYardAsync();
        var first = (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1))).ChangeId!.Value;
        await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth,
            2) with
        { SameDay = CommonGround.Web.Features.Record.SameDay.InPlace });
        var state = await StateAsync(garden);
        (await garden.Undo.UndoAsync(first, Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("changed again since");
        (await StateAsync(garden)).ShouldBe(state);
    }

    [Fact]
    public async Task A_yard_that_others_have_recorded_in_since_is_not_undone_from_under_them()
    {
        using var garden = await Garden.WithOneYardAsync();
        await using var db = await garden.Database.CreateDbContextAsync();
        var registered = await db.Changes.Where(c => c.What.StartsWith("brought places")).Select(c => c.Id).SingleAsync();
        await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1));
        (await garden.Undo.UndoAsync(registered, Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("can no longer be undone");
        (await garden.SightingsAsync()).Count.ShouldBe(1);
    }

    [Fact]
    public async Task After_ninety_days_a_change_stands()
    {
        using var garden = await Garden.WithOneYardAsync();
        var id = (await garden.SaveAsync(Garden.Organiser, Garden.Line(Flora.Smooth, 1))).ChangeId!.Value;
        var late = new GroupClock(new FarAhead(UndoChange.Days + 1), "America/Chicago", null);
        (await new UndoChange(garden.Database, late).UndoAsync(id, Garden.Organiser)).ShouldHaveSingleItem(
            ).Message.ShouldContain("90 days");
        var inTime = new GroupClock(new FarAhead(UndoChange.Days - 1), "America/Chicago", null);
        (await new UndoChange(garden.Database, inTime).UndoAsync(id, Garden.Organiser)).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_member_undoes_own_changes_in_own_yards_only()
    {
        using var garden = await Garden.WithOneYardAsync();
        var member = await garden.MemberOfAsync("N-1");
        var other = await garden.MemberOfAsync();
        var own = (await garden.SaveAsync(member, Garden.Line(Flora.Smooth, 1))).ChangeId!.Value;
        (await garden.Undo.UndoAsync(own, other)).ShouldHaveSingleItem().Message.ShouldContain("not yours to undo");
        (await garden.Undo.UndoAsync(own, Garden.Visitor)).ShouldHaveSingleItem();
        (await garden.Undo.UndoAsync(own, member)).ShouldBeEmpty();
        (await garden.SightingsAsync()).ShouldBeEmpty();
    }

    [Fact]
    public async Task An_organiser_does_not_give_back_a_consent_that_a_household_withdrew()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv", "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A,N-1,41.5,-88.5,100,yes\n"));
        var member = await garden.MemberOfAsync("N-1");
        var (yard, _) = (await YardAsync(garden), 0);
        (await garden.Keeping.ConsentAsync(yard.Id, new Consents(false, false, false), member)).ShouldBeEmpty();
        var withdrawn = await NewestAsync(garden);
        (await garden.Undo.UndoAsync(withdrawn, Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("only the household");
        (await YardAsync(garden)).Shared.ShouldBeFalse();
        (await garden.Undo.UndoAsync(withdrawn, member)).ShouldBeEmpty();
        (await YardAsync(garden)).Shared.ShouldBeTrue();
    }

    [Fact]
    public async Task A_yard_taken_out_comes_back_whole_from_history()
    {
        using var garden = await Garden.WithOneYardAsync();
        var member = await garden.MemberOfAsync("N-1");
        await garden.SaveAsync(member, Garden.Line(Flora.Smooth, 1), Garden.Line(Flora.Bergamot, 2));
        var before = await StateAsync(garden);
        var (yard, _) = await garden.BedAsync();
        (await garden.Keeping.TakeOutAsync(yard.Id, Garden.Visitor)).ShouldHaveSingleItem();
        (await garden.Keeping.TakeOutAsync(yard.Id, member)).ShouldBeEmpty();
        (await garden.SightingsAsync()).ShouldBeEmpty();
        (await garden.Yards.ListAsync(Garden.Organiser)).ShouldBeEmpty();
        (await garden.Undo.UndoAsync(await NewestAsync(garden), member)).ShouldBeEmpty();
        (await StateAsync(garden)).ShouldBe(before);
    }

    [Fact]
    public async Task Rules_are_undone_by_organisers_but_roles_only_by_administrators()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await new SaveRules(garden.Database, garden.Neighbourhood).SaveAsync(
            GroupRules.Default with { Season = GroupRules.Default.Season with { Norm = 5 } }, Garden.Organiser)).ShouldBeEmpty();
        (await garden.Undo.UndoAsync(await NewestAsync(garden), Garden.Organiser)).ShouldBeEmpty();
        await garden.MemberOfAsync();
        await using var db = await garden.Database.CreateDbContextAsync();
        (await db.Members.SingleAsync()).Role = Role.Organiser;
        var promoted = await db.SaveAsync(ChangeNote.OfProgram(1, "gave a role"));
        (await garden.Undo.UndoAsync(promoted, Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("Only administrators");
        (await garden.Undo.UndoAsync(promoted, Garden.Organiser with { Role = Role.Administrator })).ShouldBeEmpty();
    }

    [Fact]
    public async Task History_is_read_by_organisers_whole_and_by_members_as_far_as_it_is_theirs()
    {
        using var garden = await Garden.WithOneYardAsync();
        var member = await garden.MemberOfAsync("N-1");
        await garden.SaveAsync(member, Garden.Line(Flora.Smooth, 1));
        var history = new HistoryQueries(garden.Database, garden.Clock);
        (await history.PageAsync(Garden.Visitor, null)).ShouldBeEmpty();
        var own = (await history.PageAsync(member, null)).ShouldHaveSingleItem();
        (own.Who, own.What).ShouldBe(("a member", "recorded 1 planting in N-1, front"));
        (await history.PageAsync(Garden.Organiser, null)).Count.ShouldBeGreaterThan(2);
        (await history.ValuesAsync(own.Id, Garden.Visitor)).ShouldBeEmpty();
        (await history.ValuesAsync(own.Id, Garden.Organiser)).ShouldHaveSingleItem()
            .ShouldBe(new AlteredValue("planting in N-1", "added", "", "", ""));
    }

    private static async Task<Storage.Places.Yard> YardAsync(Garden garden)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        return await db.Yards.AsNoTracking().SingleAsync();
    }

    private static async Task<long> NewestAsync(Garden garden)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        return await db.Changes.MaxAsync(c => c.Id);
    }

    /// <summary>Every row of the record with all it holds, versions aside.</summary>
    private static async Task<List<string>> StateAsync(Garden garden)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        var rows = new List<object>();
        rows.AddRange(await db.Streets.ToListAsync());
        rows.AddRange(await db.Blocks.ToListAsync());
        rows.AddRange(await db.Yards.ToListAsync());
        rows.AddRange(await db.Beds.ToListAsync());
        rows.AddRange(await db.Sightings.ToListAsync());
        return [.. rows.Select(r => $"{r.GetType().Name} {AuditTrail.HashOf(db.Entry(r))}").Order(StringComparer.Ordinal)];
    }

    private sealed class FarAhead(int days) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => base.GetUtcNow().AddDays(days);
    }
}
