using CommonGround.Ecology.Taxa;
using CommonGround.Storage.Members;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Tests.Features.Yards;

public class YardQueriesTests
{
    private const string Places =
        "street,block,yard,latitude,longitude,yard_m2,household,shared\nNorth,A to B,N-1,41.5,-88.5,100,Household 1,yes\nNorth,A to "
        + "B,N-2,41.5,-88.5,200,Household 2,no\nSouth,C to D,S-1,41.6,-88.5,300,Household 3,yes\n";

    [Fact]
    public async Task Organisers_see_every_yard_a_household_its_own_and_visitors_none_even_if_it_shares()
    {
        using var garden = await LaidAsync();
        var member = await garden.MemberOfAsync("S-1");
        async Task<string[]> SeenAsync(CurrentUser currentUser) => [.. (await garden.Yards.ListAsync(currentUser)).Select(y => y.Code)];
        (await SeenAsync(Garden.Organiser)).ShouldBe(["N-1", "N-2", "S-1"]);
        (await SeenAsync(new CurrentUser(Role.Administrator, null, "", false))).Length.ShouldBe(3);
        (await SeenAsync(member)).ShouldBe(["S-1"]);
        (await SeenAsync(Garden.Visitor)).ShouldBeEmpty();
        (await SeenAsync(new CurrentUser(Role.Visitor, member.MemberId, "", false))).ShouldBeEmpty();
        (await SeenAsync(new CurrentUser(Role.Member, null, "", false))).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_yard_opens_only_for_those_who_may_see_it_and_only_they_may_record()
    {
        using var garden = await LaidAsync();
        var member = await garden.MemberOfAsync("S-1");
        (await garden.Yards.GetAsync("S-1", member))!.Facts.Household.ShouldBe("Household 3");
        (await garden.Yards.GetAsync("N-1", member)).ShouldBeNull();
        (await garden.Yards.GetAsync("N-1", Garden.Visitor)).ShouldBeNull();
        (await garden.Yards.GetAsync("N-1", Garden.Organiser)).ShouldNotBeNull();
        (await garden.Yards.GetAsync("X-9", Garden.Organiser)).ShouldBeNull();
        (await garden.Yards.RecordableAsync(member)).Select(y => y.Code).ShouldBe(["S-1"]);
        (await garden.Yards.RecordableAsync(Garden.Visitor)).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_yard_shows_its_plantings_by_bloom_with_doubt_and_what_ended_is_gone()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2,count,certainty,growth_stage\nN-1,front,Symphyotrichum cf. "
                + "laeve,2026-08-01,,4,,5\nN-1,front,Monarda fistulosa,2025-07-01,2,,certain,6\nN-1,front,Monarda "
                + "fistulosa,2026-07-01,3,,certain,7\nN-1,front,Solidago rigida,2025-09-01,1,,certain,\nN-1,front,Solidago "
                + "rigida,2026-06-01,0,,certain,\n"),
            ("infestations.csv", "yard,scientific_name,observed_on,area_m2,cover_percent\nN-1,Alliaria petiolata,2026-05-02,4,30\n"));
        var view = (await garden.Yards.GetAsync("N-1", Garden.Organiser))!;
        var plantings = view.Beds.ShouldHaveSingleItem().Plantings;
        plantings.Select(p => (p.Taxon.ScientificName, p.CoverSquareMetres, p.Qualifier, p.Certainty, p.GrowthStage, p.CoverDerived))
            .ShouldBe(
            [(Flora.Bergamot, 3, "", Certainty.Certain, 7, false), (Flora.Smooth, 4 * 0.866 * 0.25, "cf.", Certainty.Tentative, 5, true)]);
        view.LastWalk.ShouldBe(new DateOnly(2026, 8, 1));
        view.Infestations.ShouldHaveSingleItem().CoverPercent.ShouldBe(30);
        (view.Measures.NativeRichness, view.Measures.IntroducedRichness).ShouldBe((2, 1));
        // The end of the season of 2025, when bergamot covered 2 m² and goldenrod 1 m², and today.
        view.History.Select(h => h.AsOf).ShouldBe([new DateOnly(2025, 10, 31), Garden.Today]);
        view.History[0].CoverSquareMetres.ShouldBe(3);
        view.History[0].Measures.NativeRichness.ShouldBe(2);
        view.History[1].CoverSquareMetres.ShouldBe(3 + (4 * 0.866 * 0.25) + (4 * 0.3), 1e-12);
    }

    [Fact]
    public async Task The_list_tells_each_yards_place_beds_taxa_cover_and_last_walk()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Symphyotrichum laeve,2026-08-01,2\nN-1,back,Symphyotrichum "
                + "laeve,2026-07-01,1\n"));
        var line = (await garden.Yards.ListAsync(Garden.Organiser))[0];
        (line.Street, line.Block, line.Beds, line.NativeTaxa, line.CoverSquareMetres, line.LastWalk,
            line.Shared).ShouldBe(("North", "A to B", 2, 1, 3, new DateOnly(2026, 8, 1), true));
    }

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv", Places));
        return garden;
    }
}
