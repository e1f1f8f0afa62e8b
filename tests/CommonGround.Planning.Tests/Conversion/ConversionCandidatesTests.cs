using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

public class ConversionCandidatesTests
{
    private static readonly CatalogueTaxon Good = InventedFlora.Forb("Bonus");

    public static TheoryData<WhyNot, CatalogueTaxon, ConversionRequest> LeftOut() => new()
    {
        { WhyNot.NotNative, Good with { Nativity = Nativity.Introduced }, Any },
        { WhyNot.ImpactRank, Good with { ImpactRank = ImpactRank.Low }, Any },
        { WhyNot.WrongForm, Good with { LifeForm = LifeForm.Tree }, Any },
        { WhyNot.WrongForm, Good with { LifeForm = LifeForm.Vine }, Any },
        { WhyNot.WrongForm, Good with { LifeForm = LifeForm.Turf }, Any },
        { WhyNot.ComesByItself, Good with { C = 1 }, Any },
        { WhyNot.LightUnknown, Good with { Light = [] }, Any },
        { WhyNot.LightUnsuited, Good with { Light = [Light.Shade] }, Any },
        { WhyNot.MoistureUnknown, Good with { Moisture = [] }, Any },
        { WhyNot.MoistureUnsuited, Good with { Moisture = [Moisture.Wet] }, Any },
        { WhyNot.Toxic, Good with { Toxicity = "sap" }, Any with { KeepToxicOut = true } },
        { WhyNot.HeightUnknown, Good with { HeightMaxMetres = null }, Any with { TallestMetres = 1 } },
        { WhyNot.TooTall, Good with { HeightMaxMetres = 1.01 }, Any with { TallestMetres = 1 } },
        { WhyNot.TooTallForLook, Good with { HeightMaxMetres = 1.21 }, Any with { Look = Look.Ordered } },
        { WhyNot.ShrubNotForLook, Good with { LifeForm = LifeForm.Shrub }, Any with { Look = Look.EdgeFriendly } },
        { WhyNot.ShrubIsNoSeed, Good with { LifeForm = LifeForm.Shrub }, Any with { Method = Method.Seed } },
        { WhyNot.NoSeedCount, Good with { SeedsPerGram = null }, Any with { Method = Method.Seed } },
        { WhyNot.NoSpacing, Good with { SpacingMetres = null }, Any with { Method = Method.Plugs } },
        { WhyNot.NoSpacing, Good with { SpacingMetres = null, SeedsPerGram = null }, Any },
        { WhyNot.Never, Good, Any with { Never = ["Bonus"] } },
    };

    private static ConversionRequest Any => InventedFlora.Request();

    [Theory]
    [MemberData(nameof(LeftOut), DisableDiscoveryEnumeration = true)]
    public void A_taxon_that_does_not_suit_is_left_out_for_exactly_that_reason(WhyNot why, CatalogueTaxon taxon, ConversionRequest request)
    {
        var found = ConversionCandidates.Of(request, [taxon], InventedFlora.Prices);
        found.Suitable.ShouldBeEmpty();
        found.LeftOut.ShouldHaveSingleItem().Reasons.ShouldBe([why]);
        found.InWords().ShouldBe(["1 taxon: " + ConversionCandidates.Words(why)]);
    }

    [Fact]
    public void Unknown_conservatism_unknown_height_without_a_limit_and_toxicity_nobody_minds_are_no_obstacle()
    {
        CatalogueTaxon[] catalogue = [Good with { C = null }, Good with { ScientificName = "B", HeightMaxMetres = null }, Good with { ScientificName = "C", Toxicity = "sap" }];
        ConversionCandidates.Of(Any, catalogue, InventedFlora.Prices).LeftOut.ShouldBeEmpty();
    }

    [Fact]
    public void A_common_plant_comes_in_when_it_is_asked_for() =>
        ConversionCandidates.Of(Any with { MustHave = ["Bonus"] }, [Good with { C = 0 }], InventedFlora.Prices).Suitable.ShouldHaveSingleItem();

    [Fact]
    public void Mixed_takes_the_form_its_rule_says()
    {
        PlantedAs Form(CatalogueTaxon taxon, PriceTable? prices = null) => ConversionCandidates.Of(Any, [taxon], prices ?? InventedFlora.Prices).Suitable.Single().As;
        Form(Good).ShouldBe(PlantedAs.Seed);
        Form(Good with { C = 8 }).ShouldBe(PlantedAs.Plug);
        Form(Good with { C = 8, SpacingMetres = null }).ShouldBe(PlantedAs.Seed);
        Form(Good with { SeedsPerGram = null }).ShouldBe(PlantedAs.Plug);
        Form(Good with { LifeForm = LifeForm.Shrub }).ShouldBe(PlantedAs.Plug);
        Form(Good, new PriceTable { PlugEach = 0.01 }).ShouldBe(PlantedAs.Plug);
    }

    [Fact]
    public void The_groups_own_price_goes_before_the_default()
    {
        var prices = new PriceTable { Taxa = new Dictionary<string, TaxonPrice> { ["Bonus"] = new(2, null) } };
        var sown = ConversionCandidates.Of(Any with { Method = Method.Seed }, [Good], prices).Suitable.Single();
        (sown.CostPerSquareMetre, sown.PriceEstimated).ShouldBe((0.86, false));
        var planted = ConversionCandidates.Of(Any with { Method = Method.Plugs }, [Good], prices).Suitable.Single();
        planted.CostPerSquareMetre.ShouldBe(2.8 / (0.866 * 0.35 * 0.35), 1e-9);
        planted.PriceEstimated.ShouldBeTrue();
        ConversionCandidates.Of(Any, [Good with { LifeForm = LifeForm.Shrub }], prices).Suitable.Single().CostPerSquareMetre.ShouldBe(24 / (0.866 * 0.35 * 0.35), 1e-9);
    }
}
