using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Tests.Features.Plants;

public class PlantQueriesTests
{
    [Fact]
    public async Task An_empty_filter_of_each_kind_lists_its_plants_by_common_name()
    {
        using var garden = await Garden.LayAsync();
        (await NamesAsync(garden, new())).ShouldBe([Flora.Aromatic, Flora.Bluestem, Flora.Smooth, Flora.Goldenrod, Flora.Bergamot,
            Flora.Columbine]);
        (await NamesAsync(garden, new() { Kind = "introduced" })).ShouldBe([Flora.Mustard]);
        (await NamesAsync(garden, new() { Kind = "unwanted" })).ShouldBe([Flora.Mustard]);
        (await NamesAsync(garden, new() { Kind = "all" })).Length.ShouldBe(7);
    }

    [Fact]
    public async Task Each_condition_leaves_out_what_does_not_fit_or_is_not_known_to_fit()
    {
        using var garden = await Garden.LayAsync();
        (await NamesAsync(garden, new() { InFlower = 11 })).ShouldBe([Flora.Bergamot]);
        (await NamesAsync(garden, new() { InFlower = 0 })).ShouldBeEmpty();
        (await NamesAsync(garden, new() { Light = Light.FullSun })).ShouldBe([Flora.Aromatic]);
        (await NamesAsync(garden, new() { Moisture = Moisture.Medium })).ShouldBe([Flora.Bergamot]);
        (await NamesAsync(garden, new() { HeightUpToMetres = 0.8 })).ShouldBe([Flora.Aromatic, Flora.Columbine]);
        (await NamesAsync(garden, new() { Light = Light.Shade, InFlower = 15 })).ShouldBeEmpty();
    }

    [Fact]
    public async Task Text_finds_scientific_and_common_names_and_synonyms()
    {
        using var garden = await Garden.LayAsync();
        (await NamesAsync(garden, new() { Text = "aster laev" }))[0].ShouldBe(Flora.Smooth);
        (await NamesAsync(garden, new() { Text = "bergamot" })).ShouldBe([Flora.Bergamot]);
        (await NamesAsync(garden, new() { Text = "garlic" })).ShouldBeEmpty();
        (await NamesAsync(garden, new() { Text = "garlic", Kind = "all" })).ShouldBe([Flora.Mustard]);
    }

    [Fact]
    public async Task What_grows_here_is_counted_in_yards_blocks_and_cover_as_far_as_the_asker_may_see()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv",
            "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A,N-1,41.5,-88.5,100,yes\nNorth,A,N-2,41.5,-88.5,100,no\n"
                + "North,B,N-3,41.5,-88.5,100,no\n"),
            ("sightings.csv",
                "yard,bed,scientific_name,observed_on,cover_m2,certainty\nN-1,front,Monarda fistulosa,2026-07-01,1,certain\n"
                    + "N-2,front,Monarda fistulosa,2026-07-01,2,tentative\nN-3,front,Monarda fistulosa,2026-07-01,4,certain\n"
                    + "N-3,front,Solidago rigida,2026-07-01,1,certain\n"));
        var all = await garden.Catalogue.FindAsync(new() { GrowsHere = true }, organiser: true);
        all.Select(p => (p.Taxon.ScientificName, p.Here)).ShouldBe([(Flora.Goldenrod, new PlantHere(1, 1, 1, 0)),
            (Flora.Bergamot, new PlantHere(3, 2, 7, 2))]);
        // One sharing yard is fewer than three: the public is not told.
        (await garden.Catalogue.FindAsync(new() { GrowsHere = true }, organiser: false)).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_plants_page_is_found_by_its_address_with_its_kin()
    {
        using var garden = await Garden.LayAsync();
        var page = (await garden.Catalogue.GetAsync("symphyotrichum-laeve", organiser: false, new Units(false))).ShouldNotBeNull();
        page.Taxon.ScientificName.ShouldBe(Flora.Smooth);
        page.Kin.ShouldHaveSingleItem().ScientificName.ShouldBe(Flora.Aromatic);
        (await garden.Catalogue.GetAsync("planta-ignota", organiser: false, new Units(false))).ShouldBeNull();
    }

    private static async Task<string[]> NamesAsync(Garden garden, PlantFilter filter) =>
        [.. (await garden.Catalogue.FindAsync(filter, organiser: true)).Select(p => p.Taxon.ScientificName)];
}
