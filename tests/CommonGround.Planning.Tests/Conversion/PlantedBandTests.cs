using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>Seed is reckoned for the ground that is sown: the planted band along the walk is mulched and weeded.</summary>
public sealed class PlantedBandTests
{
    [Fact]
    public void Seed_is_weighed_for_the_ground_behind_the_band()
    {
        var request = QuarryFlora.Request(132);
        var mix = QuarryFlora.Solve(request, Effort.Quick).Mix.ShouldNotBeNull();
        var plugs = mix.Taxa.Sum(t => t.Plugs);
        plugs.ShouldBeGreaterThan(0);
        // By hand: a rectangle twice as wide as deep, 16.25 m by 8.12 m; the band is a metre deep, or more where plugs would crowd.
        var wide = 2 * Math.Sqrt(132 / 2.0);
        var depth = Math.Max(1, plugs * Math.Sqrt(3) / 2 * 0.28 * 0.28 / wide);
        var sown = 132 - (wide * depth);
        foreach (var taxon in mix.Taxa.Where(t => t.SeedsPerSquareMetre > 0))
        {
            taxon.PlsGrams.ShouldBe(taxon.SeedsPerSquareMetre * sown / taxon.Taxon.SeedsPerGram!.Value, 1e-6);
        }

        mix.Cost.ShouldBe(mix.Taxa.Sum(t => t.Cost), 1e-9);
    }

    [Fact]
    public void The_money_that_the_seed_behind_the_band_costs_is_enough_for_it()
    {
        var request = QuarryFlora.Request(132);
        var mix = QuarryFlora.Solve(request, Effort.Quick).Mix.ShouldNotBeNull();
        // To the cent, and one cent a taxon for rounding up: with seed reckoned for the band too it was some dollars short.
        var again = QuarryFlora.Solve(request with
        {
            Budget = mix.Cost + (0.01 * mix.Taxa.Count),
            LockedAmounts = mix.Taxa.ToDictionary(t => t.Taxon.ScientificName, t => t.Amount, StringComparer.Ordinal),
        }, Effort.Quick);
        again.Mix.ShouldNotBeNull().Cost.ShouldBe(mix.Cost, 1e-6);
    }

    [Fact]
    public void A_bands_ground_is_cut_from_the_beds_own_outline()
    {
        // A triangle 10 m wide at the walk and 10 m deep, 50 m²: its first metre holds 10 · 1 − 0.5 = 9.5 m².
        var request = QuarryFlora.Request(50) with { Areas = [new("front", 50, [new(0, 0), new(10, 0), new(0, 10)])] };
        PlantedBand.SquareMetres(request, Method.Mixed, 30, sown: true).ShouldBe(9.5, 1e-9);
        // A narrow bed has at most half of it planted; no band without seed, without plugs, in shade or on wet ground.
        var narrow = request with { Areas = [new("strip", 3, [new(0, 0), new(3, 0), new(3, 1), new(0, 1)])] };
        PlantedBand.SquareMetres(narrow, Method.Mixed, 30, sown: true).ShouldBe(1.5, 1e-9);
        PlantedBand.SquareMetres(request, Method.Mixed, 30, sown: false).ShouldBe(0);
        PlantedBand.SquareMetres(request, Method.Mixed, 0, sown: true).ShouldBe(0);
        PlantedBand.SquareMetres(request with { Light = Light.Shade }, Method.Mixed, 30, sown: true).ShouldBe(0);
        PlantedBand.SquareMetres(request with { Moisture = Moisture.Wet }, Method.Mixed, 30, sown: true).ShouldBe(0);
        PlantedBand.SquareMetres(request, Method.Seed, 30, sown: true).ShouldBe(0);
    }
}
