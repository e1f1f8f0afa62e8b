using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Invasives;

namespace CommonGround.Web.Tests.Features.Invasives;

public class WorkDayQueriesTests
{
    private const string Places = "street,block,yard,latitude,longitude,yard_m2,lawn_m2\nNorth,A to B,N-1,41.5,-88.5,1000,60\nNorth,A to "
        + "B,N-2,41.5001,-88.5,1000,60\nNorth,B to C,N-3,41.503,-88.5,1000,60\n";

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv", Places), ("infestations.csv",
            $"yard,scientific_name,observed_on,area_m2,cover_percent,growth_stage\nN-1,{Flora.Mustard},2026-05-02,200,80,6\n"
                + $"N-2,{Flora.Mustard},2026-05-03,40,50,6\nN-3,{Flora.Mustard},2026-05-04,4,50,6\n"));
        return garden;
    }

    // Garlic mustard is pulled again from September 16 (seed-data/unwanted/control.csv).
    [Fact]
    public async Task What_removes_most_is_chosen_and_what_is_left_out_says_why()
    {
        using var garden = await LaidAsync();
        var plan = await garden.WorkDays.PlanAsync(new(new(2026, 9, 26), 1, 2, false), Garden.Organiser);
        plan.Stops.Select(s => s.Case.Place).ShouldBe(["N-2", "N-3"], ignoreOrder: true); // 200 m² at 80 % take 4.8 hours.
        plan.LeftOut.ShouldHaveSingleItem().Reason.ShouldStartWith("does not fit into the hours");
        plan.Choice.PersonHoursUsed.ShouldBeLessThanOrEqualTo(2);
        plan.OneMoreAdds.ShouldBeGreaterThanOrEqualTo(0);
        var three = await garden.WorkDays.PlanAsync(new(new(2026, 9, 26), 3, 2, false), Garden.Organiser);
        three.Stops.Select(s => s.Case.Place).ShouldContain("N-1");
        three.Choice.PressureRemoved.ShouldBeGreaterThan(plan.Choice.PressureRemoved);
    }

    [Fact]
    public async Task Out_of_season_nothing_is_chosen_and_the_reason_names_the_next_season()
    {
        using var garden = await LaidAsync();
        var plan = await garden.WorkDays.PlanAsync(new(new(2026, 8, 22), 9, 3, false), Garden.Organiser);
        plan.Stops.ShouldBeEmpty();
        plan.LeftOut.Select(l => l.Reason).Distinct().ShouldBe(["its season opens September 16"]);
    }

    [Fact]
    public async Task A_follow_up_that_is_due_goes_first_and_a_tentative_name_stays_out()
    {
        using var garden = await LaidAsync();
        await garden.Treat.SaveAsync(new("N-3", 0, Flora.Mustard),
            new() { TreatedOn = new(2026, 5, 20), Method = ControlMethod.Pull, LeftSquareMetres = 1 }, Garden.Organiser);
        await garden.Report.SaveAsync(new("N-2", 0, Flora.Mustard), new()
        {
            SeenOn = new(2026, 8, 1),
            AreaSquareMetres = 40,
            Certainty = Certainty.Tentative
        }, Garden.Organiser);
        var plan = await garden.WorkDays.PlanAsync(new(new(2026, 9, 26), 1, 1, false), Garden.Organiser);
        var stop = plan.Stops.ShouldHaveSingleItem();
        (stop.Case.Place, stop.IsRequired).ShouldBe(("N-3", true));
        plan.LeftOut.Single(l => l.Case.Place == "N-2").Reason.ShouldContain("tentative");
    }

    // A native reed, Phragmites australis subsp. americanus, exists: US Geological Survey, identification tips, 2018.
    [Fact]
    public async Task A_plant_of_two_kinds_stays_out_until_it_is_named()
    {
        using var garden = await LaidAsync();
        await using (var db = await garden.Database.CreateDbContextAsync())
        {
            db.Taxa.Add(new()
            {
                NeighbourhoodId = 1,
                Id = 99,
                ScientificName = "Phragmites australis",
                Traits = new() { ScientificName = "Phragmites australis", Nativity = Nativity.Introduced },
            });
            await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(1, "a test"));
        }

        (await garden.Report.SaveAsync(new("N-3", 0, "Phragmites australis"), new() { SeenOn = new(2026, 8, 4), AreaSquareMetres = 38 },
            Garden.Organiser)).ShouldBeEmpty();
        var plan = await garden.WorkDays.PlanAsync(new(new(2026, 8, 22), 9, 3, true), Garden.Organiser);
        plan.Stops.ShouldBeEmpty();
        var left = plan.LeftOut.Single(l => l.Case.Taxon.ScientificName == "Phragmites australis");
        left.Reason.ShouldBe("name it first: a native kind exists");
        InvasiveWords.Next(left.Case.Standing).ShouldBe("Have it named");
        InvasiveWords.Effort(left.Case).ShouldBeEmpty();
    }

    [Fact]
    public async Task Only_organisers_plan_over_everybodys_cases_and_ask_for_sources()
    {
        using var garden = await LaidAsync();
        var member = await garden.MemberOfAsync("N-1");
        await Should.ThrowAsync<InvalidOperationException>(() => garden.WorkDays.PlanAsync(new(new(2026, 9, 26), 1, 1, false), member));
        await Should.ThrowAsync<InvalidOperationException>(() => garden.Pressure.OfAllAsync(member));
        await Should.ThrowAsync<InvalidOperationException>(() => garden.Pressure.OfAllAsync(Garden.Visitor));
    }

    [Fact]
    public async Task The_sources_of_all_blocks_sum_to_the_whole_and_name_their_yards()
    {
        using var garden = await LaidAsync();
        var sources = await garden.Pressure.OfAllAsync(Garden.Organiser);
        sources.Sum(s => s.Share).ShouldBe(1, 1e-12);
        sources[0].Place.ShouldBe("N-1");
        (await garden.Pressure.OfBlockAsync(12345, Garden.Organiser)).ShouldBeNull();
    }

    [Theory]
    [InlineData("2026-08-01", 9, 3, "is past")]
    [InlineData("2026-09-26", 0, 3, "needs people")]
    [InlineData("2026-09-26", 9, 0, "Hours are above 0")]
    [InlineData("2028-09-26", 9, 3, "within a year")]
    public void A_day_that_cannot_be_is_refused_in_words(string on, int people, double hours, string words) =>
        new WorkDayWish(DateOnly.ParseExact(on, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), people, hours, false)
            .Check(Garden.Today).ShouldHaveSingleItem().Message.ShouldContain(words);
}
