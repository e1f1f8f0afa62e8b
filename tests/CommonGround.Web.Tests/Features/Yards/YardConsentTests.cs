using CommonGround.Web.Features.Yards;

namespace CommonGround.Web.Tests.Features.Yards;

public class YardConsentTests
{
    [Fact]
    public async Task Consent_withdrawn_takes_the_yard_out_of_public_figures_at_once()
    {
        using var garden = await LaidAsync();
        var member = await garden.MemberOfAsync("N-1");
        var (yard, _) = await garden.BedAsync("N-1");
        (await garden.Live.FiguresAsync(organiser: false)).Neighbourhood.Yards.ShouldBe(3);
        (await garden.Keeping.ConsentAsync(yard.Id, No, member)).ShouldBeEmpty();
        var seen = await garden.Live.FiguresAsync(organiser: false);
        (seen.Neighbourhood.Yards, seen.Neighbourhood.Richness, seen.Shown.Count).ShouldBe((0, 0, 0));
        (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood.Richness.ShouldBe(1);
        (await garden.Keeping.ConsentAsync(yard.Id, Yes, Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("Only the household itself gives consent");
        (await garden.Keeping.ConsentAsync(yard.Id, Yes, member)).ShouldBeEmpty();
        (await garden.Live.FiguresAsync(organiser: false)).Neighbourhood.Yards.ShouldBe(3);
    }

    [Fact]
    public async Task Nobody_consents_for_another_household()
    {
        using var garden = await LaidAsync();
        var other = await garden.MemberOfAsync("N-2");
        var (yard, _) = await garden.BedAsync("N-1");
        (await garden.Keeping.ConsentAsync(yard.Id, No, other)).ShouldHaveSingleItem();
        (await garden.Keeping.ConsentAsync(yard.Id, No, Garden.Visitor)).ShouldHaveSingleItem();
        (await garden.BedAsync("N-1")).Yard.Shared.ShouldBeTrue();
    }

    private static readonly Consents Yes = new(true, true, true), No = new(false, false, false);

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv", "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A,N-1,41.5,-88.5,100,yes\nNorth,A,N-2,41.5,-88.5,100,yes\nNorth,A,N-3,41.5,-88.5,100,yes\n"),
            ("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-08-01,1\n"));
        return garden;
    }
}
