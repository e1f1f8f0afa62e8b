using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

public class SubstitutesTests
{
    private static readonly CatalogueTaxon Wanted = InventedFlora.Forb("Deest", 8, 12);

    [Fact]
    public void The_most_alike_comes_first_and_what_differs_is_said()
    {
        CatalogueTaxon[] others =
        [
            InventedFlora.Forb("Gemina", 8, 12), InventedFlora.Forb("Serior", 9, 12), InventedFlora.Forb("Alta", 8, 12) with { HeightMaxMetres = 1.6 },
            InventedFlora.Forb("Alia", 15, 18, 0.1) with { Moisture = [Moisture.Medium, Moisture.Moist], C = 9, Toxicity = "sap" },
        ];
        var found = For(others, 10);
        found.Select(s => s.Taxon.ScientificName).ShouldBe(["Gemina", "Serior", "Alta", "Alia"]);
        found[0].Differs.ShouldBeEmpty();
        found[0].Distance.ShouldBe(0);
        found[1].Differs.ShouldBe(["starts to flower half a month later"]);
        found[2].Differs.ShouldBe(["0.8 m taller"]);
        found[3].Differs.ShouldBe(
        [
            "starts to flower 3 and a half months later", "stops flowering 3 months later", "grows in medium or moist soil", "fewer kinds of visitors",
            "planted as plugs instead of sown", "has a toxicity note: read its caution first",
        ]);
        For(others, 2).Count.ShouldBe(2);
    }

    [Fact]
    public void Grasses_taxa_of_the_mix_and_taxa_that_do_not_suit_stand_in_for_no_flower()
    {
        For([InventedFlora.Grass("Gramen"), InventedFlora.Forb("Umbrosa") with { Light = [Light.Shade] }, Wanted, InventedFlora.Forb("Praesens")], 5).ShouldBeEmpty();
    }

    private static IReadOnlyList<Substitute> For(CatalogueTaxon[] others, int count)
    {
        PlannedTaxon Planned(CatalogueTaxon taxon) => new(taxon, PlantedAs.Seed, 0.5, 30, 215, 1, 1, 0, 1, false, []);
        var mix = new ConversionMix([Planned(Wanted), Planned(InventedFlora.Forb("Praesens"))], [], [], 0, new(0, 14, 0, 0, 0, 0, true), []);
        return Substitutes.For(Planned(Wanted), mix, InventedFlora.Request(), InventedFlora.Around(others), InventedFlora.Prices, count);
    }
}
