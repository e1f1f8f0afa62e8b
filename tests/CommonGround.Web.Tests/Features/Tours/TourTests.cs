using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Tours;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Hosting;
using CommonGround.Web.Layout;
using CommonGround.Web.Tests.Access;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Features.Tours;

/// <summary>A tour shows what households let guests see, on the day, and nothing of who lives there.</summary>
public sealed class TourTests(FreshSite site) : IClassFixture<FreshSite>
{
    [Fact]
    public async Task A_tour_stops_only_where_guests_are_let_in_and_a_withdrawn_consent_ends_it_at_once()
    {
        using var fellow = await site.JoinAsync(Role.Member);
        using var helper = await site.JoinAsync(Role.Organiser);
        var (household, organiser) = (await site.ViewerAsync(fellow.Email), await site.ViewerAsync(helper.Email));
        var (open, closed) = (await site.RegisterAsync(household), await site.RegisterAsync(household));
        await using var scope = site.Stand();
        var street = await StreetAsync(open.Id);
        var settings = scope.Get<YardSettings>();
        (await settings.ConsentAsync(open.Id, new(false, false, false, OnTour: true), organiser)).ShouldNotBeEmpty();
        (await settings.ConsentAsync(open.Id, new(false, false, false, OnTour: true), household)).ShouldBeEmpty();
        (await settings.TourWordsAsync(open.Id, "12 Wren Street", "", organiser)).Single().Field.ShouldBe("Directions");
        (await settings.TourWordsAsync(open.Id, "", "It began with one bergamot.", organiser)).ShouldBeEmpty();
        var key = await SetAsync(scope, street, organiser);

        using var stranger = site.Browser();
        var html = await stranger.GetStringAsync(TourFiles.Address(key));
        html.ShouldContain("It began with one bergamot.");
        html.ShouldNotContain(open.Code);
        html.ShouldNotContain(closed.Code);
        html.ShouldNotContain("12 Wren Street");
        (await stranger.GetStringAsync(TourFiles.Address(key.ToLowerInvariant()))).ShouldContain("one bergamot");
        (await stranger.GetAsync(TourFiles.Address(key) + "/steward.pdf")).IsSuccessStatusCode.ShouldBeFalse();

        (await settings.TourWordsAsync(open.Id, "12 Wren Street", "It began with one bergamot.", household)).ShouldBeEmpty();
        (await stranger.GetStringAsync(TourFiles.Address(key))).ShouldContain("12 Wren Street");
        (await settings.ConsentAsync(open.Id, new(false, false, false), organiser)).ShouldBeEmpty();
        (await stranger.GetStringAsync(TourFiles.Address(key))).ShouldNotContain("12 Wren Street");

        var id = (await scope.Get<TourQueries>().ListAsync()).Single(t => t.Key == key).Id;
        (await scope.Get<KeepTour>().EndAsync(id, organiser)).ShouldBeEmpty();
        (await stranger.GetAsync(TourFiles.Address(key))).StatusCode.ShouldBe(System.Net.HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task A_yard_that_is_taken_out_takes_its_tour_along()
    {
        using var fellow = await site.JoinAsync(Role.Member);
        using var helper = await site.JoinAsync(Role.Organiser);
        var (household, organiser) = (await site.ViewerAsync(fellow.Email), await site.ViewerAsync(helper.Email));
        var yard = await site.RegisterAsync(household);
        await using var scope = site.Stand();
        (await scope.Get<YardSettings>().ConsentAsync(yard.Id, new(false, false, false, OnTour: true), household)).ShouldBeEmpty();
        var key = await SetAsync(scope, KeepTour.YardPrefix + yard.Code, organiser);
        (await scope.Get<YardSettings>().TakeOutAsync(yard.Id, household)).ShouldBeEmpty();
        (await scope.Get<TourQueries>().ListAsync()).ShouldNotContain(t => t.Key == key);
    }

    [Fact]
    public async Task A_yard_that_is_handed_over_lets_no_guests_in_until_its_new_household_says_so()
    {
        using var fellow = await site.JoinAsync(Role.Member);
        using var heir = await site.JoinAsync(Role.Member);
        using var helper = await site.JoinAsync(Role.Organiser);
        var (household, next, organiser) = (await site.ViewerAsync(fellow.Email), await site.ViewerAsync(heir.Email),
            await site.ViewerAsync(helper.Email));
        var yard = await site.RegisterAsync(household);
        await using var scope = site.Stand();
        (await scope.Get<YardSettings>().ConsentAsync(yard.Id, new(true, false, false, OnTour: true, WouldPlant: true), household))
            .ShouldBeEmpty();
        (await scope.Get<YardSettings>().TourWordsAsync(yard.Id, "12 Wren Street", "", household)).ShouldBeEmpty();
        (await scope.Get<Web.Features.Membership.People>().GiveYardAsync(yard.Code, next.MemberId, organiser)).ShouldBeEmpty();
        var kept = await site.AskAsync(db => db.Yards.SingleAsync(y => y.Id == yard.Id));
        (kept.OnTour, kept.WouldPlant, kept.Directions, kept.Shared).ShouldBe((false, false, "", true));
    }

    [Fact]
    public async Task What_is_wrong_is_said_beside_its_field_and_nothing_is_set()
    {
        using var helper = await site.JoinAsync(Role.Organiser);
        var organiser = await site.ViewerAsync(helper.Email);
        await using var scope = site.Stand();
        var keep = scope.Get<KeepTour>();
        var (key, problems) = await keep.SaveAsync(new() { Meet = new string('x', 301) }, organiser);
        key.ShouldBeNull();
        problems.Select(p => p.Field).ShouldBe(["On", "Place", "Meet"], ignoreOrder: true);
        (await keep.SaveAsync(new() { On = Tomorrow(scope), Place = "No such street" }, organiser)).Problems.Single()
            .Field.ShouldBe("Place");
        (await keep.SaveAsync(new() { On = Tomorrow(scope).AddDays(-3), Place = "Kiln Street" }, organiser)).Problems.Single().Field
            .ShouldBe("On");
    }

    [Fact]
    public void Nothing_that_a_source_calls_harmful_is_called_worth_a_touch()
    {
        var touch = TouchFile.Read("touch.csv", File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "touch.csv")));
        touch.Count.ShouldBeGreaterThan(20);
        var plants = CatalogueFile.Read("plants.csv", File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "plants.csv"))).Taxa;
        foreach (var name in touch.Keys)
        {
            var taxon = plants.Single(t => t.ScientificName == name);
            ToxicityGrades.Of(taxon).ShouldBeEmpty(name);
            touch[name].ShouldNotContain("taste", Case.Insensitive);
            touch[name].Split(' ', '.', ',', ';', ':').ShouldNotContain("eat", name);
        }
    }

    [Fact]
    public void A_stage_seen_lately_counts_more_than_the_usual_dates_and_a_doubtful_name_is_not_shown()
    {
        // The small catalogue's columbine is poisonous and flowers April 16–June 15; its bergamot June 16–August 31.
        var (bergamot, poison) = (Flora.Named(Flora.Bergamot), Flora.Named(Flora.Columbine));
        PlantingLine Line(CatalogueTaxon taxon, int? stage, Certainty certainty, DateOnly day) => new(taxon, 2,
            Origin.Planted, certainty, "",
            stage, day, "", false);
        IReadOnlyList<SeenOnTour> On(DateOnly day, int half, params PlantingLine[] lines) => TourSights.Of(lines, half, day, 14, _ => null,
            new Dictionary<string, string> { [bergamot.ScientificName] = "rub a leaf", [poison.ScientificName] = "never" });

        On(new(2026, 7, 10), 12, Line(bergamot, null, Certainty.Certain, new(2026, 6, 1))).Single().State.ShouldBe("in flower");
        // In bud five days before, it is only worth a touch, whatever the usual dates.
        On(new(2026, 7, 10), 12, Line(bergamot, 5, Certainty.Certain, new(2026, 7, 5))).Single().State.ShouldBe("worth a touch");
        On(new(2026, 4, 10), 6, Line(bergamot, 6, Certainty.Certain, new(2026, 4, 5))).Single().State
            .ShouldBe("in flower, as seen Apr 5, 2026");
        On(new(2026, 7, 10), 12, Line(bergamot, 6, Certainty.Tentative, new(2026, 7, 5))).ShouldBeEmpty();
        On(new(2026, 5, 10), 8, Line(poison, 6, Certainty.Certain, new(2026, 5, 5))).Single().Touch.ShouldBeEmpty();
        On(new(2026, 9, 10), 16, Line(poison, 3, Certainty.Certain, new(2026, 9, 5))).ShouldBeEmpty();
        TourSights.LeaveAlone([bergamot, poison]).ShouldBe(["wild columbine (poisonous if eaten)"]);
    }

    [Fact]
    public async Task The_leaflet_and_the_stewards_sheet_are_printed_on_both_papers()
    {
        using var fellow = await site.JoinAsync(Role.Member);
        using var helper = await site.JoinAsync(Role.Organiser);
        var (household, organiser) = (await site.ViewerAsync(fellow.Email), await site.ViewerAsync(helper.Email));
        var yard = await site.RegisterAsync(household);
        await using var scope = site.Stand();
        (await scope.Get<YardSettings>().ConsentAsync(yard.Id, new(false, false, false, OnTour: true), household)).ShouldBeEmpty();
        var key = await SetAsync(scope, KeepTour.YardPrefix + yard.Code, organiser);
        foreach (var paper in new[] { "/leaflet.pdf", "/leaflet.pdf?paper=a4", "/steward.pdf", "/steward.pdf?paper=a4" })
        {
            var file = await helper.Browser.GetAsync(TourFiles.Address(key) + paper);
            file.Content.Headers.ContentType!.MediaType.ShouldBe("application/pdf", paper);
        }

        (await helper.Browser.GetAsync(TourFiles.Address(key) + "/leaflet.pdf?paper=b5")).StatusCode
            .ShouldBe(System.Net.HttpStatusCode.BadRequest);
    }

    private static DateOnly Tomorrow(AsyncServiceScope scope) => scope.Get<Web.Features.Community.GroupClock>().Today.AddDays(1);

    private static async Task<string> SetAsync(AsyncServiceScope scope, string place, CurrentUser by)
    {
        var (key, problems) = await scope.Get<KeepTour>().SaveAsync(new() { On = Tomorrow(scope), Place = place, Meet = "At ten." }, by);
        problems.ShouldBeEmpty();
        return key!;
    }

    private Task<string> StreetAsync(long yard) => site.AskAsync(db => db.Yards.Where(y => y.Id == yard)
        .SelectMany(y => db.Blocks.Where(b => b.Id == y.BlockId).SelectMany(b => db.Streets.Where(s => s.Id == b.StreetId)
            .Select(s => s.Name))).SingleAsync());
}
