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
        (await garden.Keeping.ConsentAsync(yard.Id, Yes, Garden.Organiser)).ShouldHaveSingleItem(
            ).Message.ShouldContain("Only the household itself gives consent");
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

    /// <summary>The fault: an old places file brought again switched withdrawn consent on again.</summary>
    [Fact]
    public async Task A_file_lowers_a_households_consent_and_never_raises_it_and_says_so_with_its_line()
    {
        using var garden = await LaidAsync();
        var member = await garden.MemberOfAsync("N-1");
        var (yard, _) = await garden.BedAsync("N-1");
        (await garden.Keeping.ConsentAsync(yard.Id, No, member)).ShouldBeEmpty();
        var outcome = await garden.StoreAsync(("places.csv", Places("yes")));
        var (kept, _) = await garden.BedAsync("N-1");
        (kept.Shared, kept.OnMap).ShouldBe((false, false));
        var notice = outcome.Notices.ShouldHaveSingleItem();
        (notice.File, notice.Line, notice.Column).ShouldBe(("places.csv", 2, "shared"));
        notice.ToString().ShouldContain("Ask the household to agree on its yard’s page");
        (await garden.Keeping.ConsentAsync(yard.Id, Yes, member)).ShouldBeEmpty();
        (await garden.StoreAsync(("places.csv", Places("no")))).Notices.ShouldBeEmpty();
        (await garden.BedAsync("N-1")).Yard.Shared.ShouldBeFalse();
    }

    /// <summary>The same by the page on which files are brought.</summary>
    [Fact]
    public async Task The_import_page_raises_no_households_consent_and_shows_the_notice()
    {
        using var garden = await LaidAsync();
        var member = await garden.MemberOfAsync("N-1");
        var (yard, _) = await garden.BedAsync("N-1");
        (await garden.Keeping.ConsentAsync(yard.Id, No, member)).ShouldBeEmpty();
        using var wizard = new Web.Features.Import.ImportWizard(new Web.Features.Import.ImportFiles(garden.Database, garden.Neighbourhood),
            garden.Clock);
        await wizard.AddAsync("places.csv", System.Text.Encoding.UTF8.GetBytes(Places("yes")));
        await wizard.CheckAsync(Garden.Organiser, () => { });
        wizard.Outcome!.Notices.ShouldHaveSingleItem().Line.ShouldBe(2);
        await wizard.StoreAsync(Garden.Organiser, () => { });
        (await garden.BedAsync("N-1")).Yard.Shared.ShouldBeFalse();
    }

    private static string Places(
        string shared) => $"street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A,N-1,41.5,-88.5,120,{shared}\n";

    private static readonly Consents Yes = new(true, true, true), No = new(false, false, false);

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv",
            "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A,N-1,41.5,-88.5,100,yes\nNorth,A,N-2,41.5,-88.5,100,yes\n"
                + "North,A,N-3,41.5,-88.5,100,yes\n"),
            ("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-08-01,1\n"));
        return garden;
    }
}
