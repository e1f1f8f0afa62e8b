using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Tests.Invasives;

public class PressureSharesTests
{
    private static readonly CatalogueTaxon s_near = new() { ScientificName = "Near", ImpactRank = ImpactRank.High, DispersalMetres = 100 };
    private static readonly CatalogueTaxon s_far = new() { ScientificName = "Far", ImpactRank = ImpactRank.Low };

    private static CommunityMatrix Matrix(params Infestation[] infestations) => new(new(2026, 8, 19), [s_near, s_far],
        [new(1, "North")], [new(1, "A to B", 0, 41.5, -88.5)], [], infestations);

    [Fact]
    public void Two_sources_share_as_the_sum_by_hand_says()
    {
        // 20 m² of half cover at the spot, in flower: 1·10·1 = 10. 40 m² whole cover before flower, one metre per 1/111,195 degree: at
        // 25 m with a scale of 25 m: 0.3·40·0.5·e⁻¹ = 2.2073. Shares: 0.8192 and 0.1808.
        var degrees = 25 / (GreatCircle.EarthRadiusMetres * Math.PI / 180);
        var shares = PressureShares.At(Matrix(new(0, 41.5, -88.5, 20, 0.5, 6, null, 0), new(1, 41.5 + degrees, -88.5, 40, 1, 3, null, 0)),
            41.5, -88.5, PressureConvention.Default, _ => null);
        shares.Select(s => (s.Infestation, Math.Round(s.Metres, 3), Math.Round(s.Pressure, 4), Math.Round(s.Share, 4)))
            .ShouldBe([(0, 0, 10, 0.8192), (1, 25, 2.2073, 0.1808)]);
        shares.ShouldAllBe(s => s.ShareLow == s.Share || Math.Abs(s.ShareLow - s.Share) < 1e-12);
    }

    [Fact]
    public void Shares_sum_to_the_whole_and_the_sources_to_the_pressure()
    {
        var chance = new Random(20);
        var matrix = Matrix([.. Enumerable.Range(0, 60).Select(i => new Infestation(i % 2, 41.5 + (chance.NextDouble() * 0.004),
            -88.5 + (chance.NextDouble() * 0.004), 1 + (chance.NextDouble() * 50), chance.NextDouble(), null, null, 0))]);
        var shares = PressureShares.At(matrix, 41.502, -88.498, PressureConvention.Default,
            name => name == "Near" ? new Span(20, 100, 400) : null);
        shares.Sum(s => s.Share).ShouldBe(1, 1e-12);
        shares.Sum(s => s.Pressure).ShouldBe(InvasivePressure.At(matrix, 41.502, -88.498, PressureConvention.Default), 1e-9);
        shares.ShouldAllBe(s => s.ShareLow <= s.Share + 1e-12 && s.ShareHigh >= s.Share - 1e-12);
    }

    [Fact]
    public void Nothing_near_means_no_share() =>
        PressureShares.At(Matrix(new Infestation(1, 42, -88.5, 10, 1, 6, null, 0)), 41.5, -88.5, PressureConvention.Default, _ => null)
            .ShouldBeEmpty();
}
