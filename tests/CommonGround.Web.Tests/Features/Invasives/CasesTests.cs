using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Invasives;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Invasives;

public class CasesTests
{
    private const string Places =
        "street,block,yard,latitude,longitude,yard_m2,lawn_m2\nNorth,A to B,N-1,41.5,-88.5,100,60\nNorth,A to B,N-2,41.5,-88.5,100,60\n";

    private static readonly CaseAt s_at = new("N-1", 0, Flora.Mustard);

    private static InfestationDraft Seen(double area, int month = 5, int day = 2, int year = 2026) =>
        new() { SeenOn = new(year, month, day), AreaSquareMetres = area, CoverPercent = 50, GrowthStage = 6 };

    private static TreatmentDraft Done(ControlMethod method, int month, int day) =>
        new() { TreatedOn = new(2026, month, day), Method = method, PersonHours = 1.5, Who = "walker 3" };

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv", Places));
        return garden;
    }

    [Fact]
    public async Task What_is_reported_becomes_a_case_and_counts_in_the_pressure()
    {
        using var garden = await LaidAsync();
        (await garden.Report.SaveAsync(s_at, Seen(4) with { Certainty = Certainty.Probable }, Garden.Organiser)).ShouldBeEmpty();
        var line = (await garden.Cases.ListAsync(Garden.Organiser)).ShouldHaveSingleItem();
        (line.Place, line.AreaSquareMetres, line.CoverPercent, line.Certainty, line.Standing.State)
            .ShouldBe(("N-1", 4, 50, Certainty.Probable, CaseState.Open));
        line.Standing.IsOverdue.ShouldBeTrue(); // Its spring window ended on June 15.
        (await garden.Live.NowAsync()).Infestations.ShouldHaveSingleItem().AreaSquareMetres.ShouldBe(4);
    }

    [Fact]
    public async Task Found_no_more_it_rests_and_found_again_it_opens()
    {
        using var garden = await LaidAsync();
        await garden.Report.SaveAsync(s_at, Seen(4, year: 2025), Garden.Organiser);
        (await garden.Report.SaveAsync(s_at, Seen(0), Garden.Organiser)).ShouldBeEmpty();
        var resting = (await garden.Cases.GetAsync(s_at, Garden.Organiser))!.Line.Standing;
        (resting.State, resting.ManagersUntil, resting.SeedUntil).ShouldBe((CaseState.Resting, 2035, 2062));
        (await garden.Live.NowAsync()).Infestations.ShouldBeEmpty();
        await garden.Report.SaveAsync(s_at, Seen(1, 8, 1), Garden.Organiser);
        (await garden.Cases.GetAsync(s_at, Garden.Organiser))!.Line.Standing.State.ShouldBe(CaseState.Open);
    }

    [Fact]
    public async Task Reported_and_treated_to_nothing_on_one_day_it_stays_and_is_looked_at_each_year()
    {
        using var garden = await LaidAsync();
        await garden.Report.SaveAsync(s_at, Seen(4), Garden.Organiser);
        (await garden.Treat.SaveAsync(s_at, Done(ControlMethod.Pull, 5, 2) with { LeftSquareMetres = 0 }, Garden.Organiser))
            .ShouldBeEmpty();
        var view = (await garden.Cases.GetAsync(s_at, Garden.Organiser))!;
        (view.Line.AreaSquareMetres, view.Line.Standing.State, view.Line.Standing.LastFound, view.Line.Standing.DueFrom)
            .ShouldBe((0, CaseState.Resting, new DateOnly(2026, 5, 2), new DateOnly(2027, 4, 16)));
        view.Events.Count.ShouldBe(3); // Seen, treated, and gone: none is lost.
        (await garden.Cases.ListAsync(Garden.Organiser)).ShouldHaveSingleItem().Standing.State.ShouldBe(CaseState.Resting);
        (await garden.Live.NowAsync()).Infestations.ShouldBeEmpty();
        // Said again of the same day, what is left changes; what was seen before does not.
        (await garden.Treat.SaveAsync(s_at, Done(ControlMethod.Pull, 5, 2) with { LeftSquareMetres = 1 }, Garden.Organiser))
            .ShouldBeEmpty();
        (await garden.Cases.GetAsync(s_at, Garden.Organiser))!.Line.AreaSquareMetres.ShouldBe(1);
    }

    [Fact]
    public async Task Seen_and_looked_at_again_in_vain_on_one_day_it_rests()
    {
        using var garden = await LaidAsync();
        await garden.Report.SaveAsync(s_at, Seen(4), Garden.Organiser);
        (await garden.Report.SaveAsync(s_at, Seen(0), Garden.Organiser)).ShouldBeEmpty();
        (await garden.Cases.GetAsync(s_at, Garden.Organiser))!.Line.Standing.State.ShouldBe(CaseState.Resting);
    }

    [Fact]
    public async Task A_report_is_refused_in_words_and_stores_nothing()
    {
        using var garden = await LaidAsync();
        (await garden.Report.SaveAsync(s_at, Seen(400),
            Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("more than the yard");
        (await garden.Report.SaveAsync(s_at, Seen(4, 9, 1),
            Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("still to come");
        (await garden.Report.SaveAsync(s_at, Seen(0),
            Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("never been recorded");
        (await garden.Report.SaveAsync(s_at, Seen(4) with { CoverPercent = 130 }, Garden.Organiser)).ShouldHaveSingleItem().Field
            .ShouldBe(nameof(InfestationDraft.CoverPercent));
        (await garden.Report.SaveAsync(new("X-9", 0, Flora.Mustard), Seen(4), Garden.Organiser)).ShouldHaveSingleItem();
        (await garden.Report.SaveAsync(new("", 999, Flora.Mustard), Seen(4), Garden.Organiser)).ShouldHaveSingleItem().Message
            .ShouldContain("no such place");
        (await garden.Cases.ListAsync(Garden.Organiser)).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_treatment_comes_after_its_infestation_and_says_what_was_left()
    {
        using var garden = await LaidAsync();
        (await garden.Treat.SaveAsync(s_at, Done(ControlMethod.Pull, 5, 10), Garden.Organiser)).ShouldHaveSingleItem().Message
            .ShouldContain("Record it first");
        await garden.Report.SaveAsync(s_at, Seen(4), Garden.Organiser);
        (await garden.Treat.SaveAsync(s_at, Done(ControlMethod.Pull, 4, 10), Garden.Organiser)).ShouldHaveSingleItem().Message
            .ShouldContain("May 2, 2026");
        (await garden.Treat.SaveAsync(s_at, Done(ControlMethod.Pull, 5, 10) with { LeftSquareMetres = 0.5 }, Garden.Organiser))
            .ShouldBeEmpty();
        var view = (await garden.Cases.GetAsync(s_at, Garden.Organiser))!;
        view.Line.AreaSquareMetres.ShouldBe(0.5);
        (view.Line.Standing.DueFrom, view.Line.Standing.IsOverdue).ShouldBe((new DateOnly(2026, 9, 16), false));
        view.Events.Select(e => e.On).ShouldBe([new DateOnly(2026, 5, 10), new(2026, 5, 10), new(2026, 5, 2)]);
    }

    [Fact]
    public async Task A_herbicide_is_written_down_only_with_label_and_qualification()
    {
        using var garden = await LaidAsync();
        await garden.Report.SaveAsync(s_at, Seen(4), Garden.Organiser);
        var draft = Done(ControlMethod.Herbicide, 5, 10);
        (await garden.Treat.SaveAsync(s_at, draft, Garden.Organiser)).Select(p => p.Field)
            .ShouldBe([nameof(draft.LabelFollowed), nameof(draft.Qualification)]);
        (await garden.Treat.SaveAsync(s_at, draft with { LabelFollowed = true, Qualification = "licensed applicator" }, Garden.Organiser))
            .ShouldBeEmpty();
    }

    [Fact]
    public async Task Two_people_closing_one_case_the_second_hears_who_and_why()
    {
        using var garden = await LaidAsync();
        await garden.Report.SaveAsync(s_at, Seen(4), Garden.Organiser);
        (await garden.CaseSteps.CloseAsync(s_at, "", Garden.Organiser)).ShouldHaveSingleItem().Field.ShouldBe("reason");
        (await garden.CaseSteps.CloseAsync(s_at, "paved over", Garden.Organiser)).ShouldBeEmpty();
        var second = (await garden.CaseSteps.CloseAsync(s_at, "gone", Garden.Organiser)).ShouldHaveSingleItem().Message;
        second.ShouldContain("an organiser closed this case already");
        second.ShouldContain("paved over");
        (await garden.Cases.ListAsync(Garden.Organiser)).ShouldBeEmpty();
        (await garden.CaseSteps.MoveAsync(s_at, new(2026, 10, 1), "", Garden.Organiser)).ShouldHaveSingleItem();
        (await garden.CaseSteps.OpenAsync(s_at, "", Garden.Organiser)).ShouldBeEmpty();
        (await garden.CaseSteps.MoveAsync(s_at, new(2026, 10, 1), "nobody free", Garden.Organiser)).ShouldBeEmpty();
        (await garden.Cases.GetAsync(s_at, Garden.Organiser))!.Line.Standing.DueFrom.ShouldBe(new DateOnly(2026, 10, 1));
    }

    [Fact]
    public async Task Everything_can_be_undone()
    {
        using var garden = await LaidAsync();
        await garden.Report.SaveAsync(s_at, Seen(4), Garden.Organiser);
        await garden.Treat.SaveAsync(s_at, Done(ControlMethod.Pull, 5, 10) with { LeftSquareMetres = 1 }, Garden.Organiser);
        await garden.CaseSteps.CloseAsync(s_at, "paved over", Garden.Organiser);
        await using var db = await garden.Database.CreateDbContextAsync();
        foreach (var change in await db.Changes.OrderByDescending(c => c.Id).Take(3).Select(c => c.Id).ToListAsync())
        {
            (await garden.Undo.UndoAsync(change, Garden.Organiser)).ShouldBeEmpty();
        }

        (await db.Infestations.CountAsync(), await db.Treatments.CountAsync(), await db.CaseSteps.CountAsync()).ShouldBe((0, 0, 0));
    }

    [Fact]
    public async Task A_household_sees_and_keeps_the_cases_of_its_own_yard_alone()
    {
        using var garden = await LaidAsync();
        var member = await garden.MemberOfAsync("N-2");
        await garden.Report.SaveAsync(s_at, Seen(4), Garden.Organiser);
        (await garden.Cases.ListAsync(member)).ShouldBeEmpty();
        (await garden.Cases.GetAsync(s_at, member)).ShouldBeNull();
        (await garden.Report.SaveAsync(s_at, Seen(5), member)).ShouldHaveSingleItem().Message.ShouldContain("not yours");
        (await garden.Report.SaveAsync(new("N-2", 0, Flora.Mustard), Seen(5), member)).ShouldBeEmpty();
        var view = (await garden.Cases.GetAsync(new("N-2", 0, Flora.Mustard), member))!;
        view.PressureShare.ShouldBeNull(); // It would tell of the others.
        (await garden.Cases.ListAsync(new CurrentUser(Role.Visitor, null, "", false))).ShouldBeEmpty();
    }
}
