using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>Mixes made from the catalogue that comes with the program.</summary>
public class RealCatalogueTests
{
    private static readonly IReadOnlyList<CatalogueTaxon> Catalogue = [.. CatalogueFile.Read("plants.csv", File.ReadAllBytes(Path.Combine(Repository.Root(), "seed-data", "plants.csv"))).Taxa];

    [Theory]
    [InlineData(Light.FullSun, Moisture.Dry, Look.Naturalistic)]
    [InlineData(Light.FullSun, Moisture.Medium, Look.Ordered)]
    [InlineData(Light.FullSun, Moisture.Moist, Look.EdgeFriendly)]
    [InlineData(Light.PartShade, Moisture.Medium, Look.Naturalistic)]
    public void A_mix_of_seed_keeps_to_the_norms_of_seeding(Light light, Moisture moisture, Look look)
    {
        var request = InventedFlora.Request(80) with { Light = light, Moisture = moisture, Look = look, Method = Method.Seed, SlopePercent = 10 };
        var mix = ConversionPlanner.Solve(request, InventedFlora.Around(Catalogue, 2), InventedFlora.Prices).Mix.ShouldNotBeNull();
        mix.Quality.ProvenBest.ShouldBeTrue();
        // SD-013 of shared/checks/05_seeding.json: 40–60 pure live seeds a square foot (common guidance in state NRCS notes, from memory).
        SeedRate.PerSquareFoot(mix.Taxa.Sum(t => t.SeedsPerSquareMetre)).ShouldBeInRange(39.9, 60);
        // A pound or two to some twenty pounds an acre is what such mixes weigh (common practice).
        SeedRate.PoundsPerAcre(mix.Taxa.Sum(t => t.PlsGrams) / 80).ShouldBeInRange(0.5, 25);
        mix.Taxa.ShouldAllBe(t => t.Taxon.Nativity == Nativity.Native && t.Taxon.Light.Contains(light) && t.Taxon.Moisture.Contains(moisture));
        mix.InFlower.Skip(6).Take(14).Count(n => n >= 3).ShouldBe(mix.Quality.CoveredHalves);
        mix.Quality.CoveredHalves.ShouldBeGreaterThanOrEqualTo(10);
    }

    [Fact]
    public void Every_taxon_of_the_catalogue_is_either_offered_or_left_out_with_a_reason()
    {
        var found = ConversionCandidates.Of(InventedFlora.Request(), Catalogue, InventedFlora.Prices);
        (found.Suitable.Count + found.LeftOut.Count).ShouldBe(Catalogue.Count);
        found.LeftOut.ShouldAllBe(l => l.Reasons.Count > 0);
        found.Suitable.Count.ShouldBeGreaterThan(100);
        found.InWords().Sum(w => int.Parse(w.Split(' ')[0])).ShouldBe(found.LeftOut.Count);
    }
}
