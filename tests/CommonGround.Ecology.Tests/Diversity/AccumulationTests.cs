using CommonGround.Ecology.Diversity;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.Diversity;

public class AccumulationTests
{
    // vegan 2.6-4, specaccum(method = "exact"): expectation by Mao Tau, standard deviation with correlated taxa.
    [Theory(DisplayName = "The accumulation curve agrees with vegan 2.6-4, specaccum exact")]
    [InlineData("dune", 20)]
    [InlineData("BCI", 50)]
    [InlineData("mite35", 35)]
    public void The_curve_agrees_with_vegan(string dataset, int sites)
    {
        var curve = Accumulation.Curve(RichnessEstimateTests.IncidenceOf(dataset));
        var rows = CheckFile.Table("01_specaccum.csv").Where(r => r["dataset"] == dataset).ToList();
        rows.Count.ShouldBe(sites);
        curve.Count.ShouldBe(sites);
        foreach (var (point, row) in curve.Zip(rows))
        {
            point.Units.ShouldBe(int.Parse(row["sites"]));
            point.Richness.ShouldBeNear(CheckFile.Number(row["richness"]), 1e-10, row["sites"]);
            point.StandardDeviation.ShouldBe(CheckFile.Number(row["sd"]), 1e-6, row["sites"]);
        }
    }

    [Fact]
    public void The_worked_example_of_three_yards_comes_out()
    {
        var (input, expected) = CheckFile.WorkedExample("accumulation");
        var incidence = Incidence.Of([.. input.GetProperty("yards").EnumerateArray()
            .Select(y => (IReadOnlyCollection<int>)[.. y.EnumerateArray().Select(t => t.GetInt32())])]);
        var curve = Accumulation.Curve(incidence);
        foreach (var (point, richness) in curve.Zip(expected.Numbers("richness")))
        {
            point.Richness.ShouldBeNear(richness, 1e-12, $"{point.Units}");
        }

        curve[0].StandardDeviation.ShouldBeNear(expected.Number("firstStandardDeviation"), 1e-12, "first");
        curve[^1].StandardDeviation.ShouldBe(expected.Number("lastStandardDeviation"));
        RichnessEstimate.FirstOrderJackknife(incidence)!.Value.ShouldBeNear(expected.Number("jackknife"), 1e-12, "jackknife");
        RichnessEstimate.Bootstrap(incidence)!.Value.ShouldBeNear(expected.Number("bootstrap"), 1e-12, "bootstrap");
    }

    [Fact]
    public void A_single_point_equals_the_curve_there()
    {
        var incidence = RichnessEstimateTests.IncidenceOf("dune");
        Accumulation.At(incidence, 7).ShouldBe(Accumulation.Curve(incidence)[6]);
        Should.Throw<ArgumentOutOfRangeException>(() => Accumulation.At(incidence, 21));
        Should.Throw<ArgumentOutOfRangeException>(() => Accumulation.At(incidence, 0));
    }

    [Fact]
    public void No_yards_make_no_curve_and_empty_yards_a_flat_one()
    {
        Accumulation.Curve(Incidence.Of([])).ShouldBeEmpty();
        Accumulation.Curve(Incidence.Of([[], []])).ShouldBe([new(1, 0, 0), new(2, 0, 0)]);
    }
}
