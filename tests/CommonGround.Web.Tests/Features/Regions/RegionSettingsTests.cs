using CommonGround.Ecology.Regions;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Regions;
using CommonGround.Web.Features.History;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using CommonGround.Web.Tests.Access;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Regions;

/// <summary>A group says where it is, changes it, and takes it back.</summary>
public sealed class RegionSettingsTests(FreshSite site) : IClassFixture<FreshSite>
{
    private static PlaceDraft Missouri => new()
    {
        State = "MO",
        Latitude = "37.21",
        Longitude = "-93.29",
        ElevationFeet = "1,300",
        PlaceName = "Springfield"
    };

    [Fact]
    public void Values_from_the_second_table_are_named_where_a_figure_counts_them()
    {
        CatalogueTaxon Taxon(string name, bool borrowed) => Flora.Named(name) with
        {
            C = 5,
            Regional = new(borrowed ? NativityBasis.SecondTable : NativityBasis.OwnTable, "illinois", "", borrowed, null, null, true, false,
                0, null),
        };
        RegionWords.Borrowed([Taxon(Flora.Bergamot, false)]).ShouldBe("");
        RegionWords.Borrowed([Taxon(Flora.Bergamot, false), Taxon(Flora.Goldenrod, true)])
            .ShouldBe($" One value here is borrowed from the second table: {Flora.Named(Flora.Goldenrod).DisplayName}.");
    }

    [Fact]
    public async Task The_place_decides_and_undo_takes_it_back_while_the_groups_own_values_stay()
    {
        using var who = await site.JoinAsync(Role.Administrator);
        var by = await site.ViewerAsync(who.Email);
        await using (var scope = site.Stand())
        {
            (await scope.Get<PlantOverrides>().SetAsync("Monarda fistulosa", "c_value", "9", "our own botanist", null, by)).ShouldBeEmpty();
        }

        (await TaxonAsync("Vernonia baldwinii")).Nativity.ShouldNotBe(Nativity.Native);
        IReadOnlyList<RegionLine> preview;
        await using (var scope = site.Stand())
        {
            preview = await scope.Get<RegionSettings>().PreviewAsync(Missouri.Read().Place!);
            (await scope.Get<RegionSettings>().SaveAsync(Missouri, by)).ShouldBeEmpty();
        }

        preview.ShouldContain(l => l.What == "Natives and C values" && l.Then.StartsWith("Missouri 2015", StringComparison.Ordinal));
        var ironweed = await TaxonAsync("Vernonia baldwinii");
        ironweed.Nativity.ShouldBe(Nativity.Native);
        ironweed.CRegion.ShouldBe(RegionalTables.Missouri);
        (await TaxonAsync("Penstemon digitalis")).Bloom!.Value.Start.ShouldBe((await StoredAsync("Penstemon digitalis")).Bloom!.Value.Start
            - 1);
        (await TaxonAsync("Monarda fistulosa")).C.ShouldBe(9, "the group's own value stays when the region changes");

        var page = await who.Browser.GetStringAsync("/more/place");
        page.ShouldContain("Springfield, Missouri");
        page.ShouldContain("17 days earlier");
        (await who.Browser.GetStringAsync(PlantLink.To(ironweed))).ShouldContain("Native by the table of Missouri 2015");

        await using (var scope = site.Stand())
        {
            var change = await site.AskAsync(db => db.Changes.Where(c => c.What.Contains("where the group is")).MaxAsync(c => c.Id));
            (await scope.Get<UndoChange>().UndoAsync(change, by)).ShouldBeEmpty();
        }

        (await TaxonAsync("Vernonia baldwinii")).Nativity.ShouldNotBe(Nativity.Native);
        (await TaxonAsync("Monarda fistulosa")).C.ShouldBe(9);
    }

    [Theory]
    [InlineData("MO", "-93.29", "37.21", "exchanged")]
    [InlineData("MO", "93.29", "-37.21", "exchanged")]
    [InlineData("MO", "37.21", "93.29", "below 0")]
    [InlineData("KS", "37.21", "-93.29", "may lie in Missouri")]
    [InlineData("MO", "-37.21", "-93.29", "south of the equator")]
    [InlineData("", "37.21", "-93.29", "Choose the state")]
    [InlineData("MO", "north", "-93.29", "Latitude is a number")]
    [InlineData("MO", "37.21", "", "Longitude is a number")]
    public void A_slip_is_named_with_the_way_to_mend_it(string state, string latitude, string longitude, string words)
    {
        var (place, problems) = new PlaceDraft { State = state, Latitude = latitude, Longitude = longitude }.Read();
        place.ShouldBeNull();
        problems.ShouldContain(p => p.Message.Contains(words));
    }

    [Fact]
    public void A_place_outside_every_table_is_taken()
    {
        var (place, problems) = new PlaceDraft { State = "other", Latitude = "35.2", Longitude = "-80.8" }.Read();
        problems.ShouldBeEmpty();
        StateRules.TablesOf(place!).ShouldBeNull();
    }

    private async Task<CatalogueTaxon> TaxonAsync(string name)
    {
        await using var scope = site.Stand();
        return (await scope.Get<LiveCommunity>().LoadedAsync()).Matrix.Taxa.Single(t => t.ScientificName == name);
    }

    private Task<CatalogueTaxon> StoredAsync(string name) =>
        site.AskAsync(async db => (await db.Taxa.AsNoTracking().SingleAsync(t => t.ScientificName == name)).Traits);
}
