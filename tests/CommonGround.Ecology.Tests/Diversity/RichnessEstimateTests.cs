using CommonGround.Ecology.Diversity;
using CommonGround.Ecology.Tests.Published;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Diversity;

public class RichnessEstimateTests
{
    // vegan 2.6-4, function specpool, with and without its small-sample factor (Oksanen et al. 2022).
    [Theory(DisplayName = "Chao2, jackknife and bootstrap agree with vegan 2.6-4, specpool")]
    [InlineData("dune")]
    [InlineData("BCI")]
    [InlineData("mite35")]
    public void Pool_estimates_agree_with_vegan(string dataset)
    {
        var incidence = IncidenceOf(dataset);
        foreach (var row in CheckFile.Table("01_specpool.csv").Where(r => r["dataset"] == dataset))
        {
            var chao2 = row["smallsample"] == "TRUE"
                ? Chao2Estimate.Of(incidence.Holding.ToArray(), incidence.Units)
                : Chao2Estimate.WithoutSmallSampleFactor(incidence.Holding.ToArray(), incidence.Units);
            chao2!.Observed.ShouldBe(int.Parse(row["Species"]));
            chao2.Value.ShouldBeNear(CheckFile.Number(row["chao"]), 1e-10, "chao");
            chao2.StandardError.ShouldBeNear(CheckFile.Number(row["chao.se"]), 1e-10, "chao se");
            var jackknife = RichnessEstimate.FirstOrderJackknife(incidence)!;
            jackknife.Value.ShouldBeNear(CheckFile.Number(row["jack1"]), 1e-10, "jack1");
            jackknife.StandardError.ShouldBeNear(CheckFile.Number(row["jack1.se"]), 1e-10, "jack1 se");
            var bootstrap = RichnessEstimate.Bootstrap(incidence)!;
            bootstrap.Value.ShouldBeNear(CheckFile.Number(row["boot"]), 1e-10, "boot");
            bootstrap.StandardError.ShouldBeNear(CheckFile.Number(row["boot.se"]), 1e-9, "boot se");
        }
    }

    [Fact(DisplayName = "BCI pool estimates as printed in the vegan diversity vignette, section 6.1 (check DV-001)")]
    public void Pool_estimates_agree_with_the_printed_vignette()
    {
        var (_, expected) = CheckFile.Check("01_diversity.json", "DV-001");
        var incidence = IncidenceOf("BCI");
        var chao2 = Chao2Estimate.Of(incidence.Holding.ToArray(), incidence.Units)!;
        chao2.Value.ShouldBe(expected.Number("chao"), 6e-5);
        chao2.StandardError.ShouldBe(expected.Number("chaoSe"), 6e-5);
        RichnessEstimate.FirstOrderJackknife(incidence)!.Value.ShouldBe(expected.Number("jack1"), 6e-5);
        RichnessEstimate.FirstOrderJackknife(incidence)!.StandardError.ShouldBe(expected.Number("jack1Se"), 6e-5);
        RichnessEstimate.Bootstrap(incidence)!.Value.ShouldBe(expected.Number("boot"), 6e-5);
        RichnessEstimate.Bootstrap(incidence)!.StandardError.ShouldBe(expected.Number("bootSe"), 6e-5);
    }

    [Fact]
    public void The_worked_example_of_four_yards_comes_out()
    {
        var (input, expected) = CheckFile.WorkedExample("chao2");
        var chao2 = Chao2Estimate.Of([.. input.Numbers("yardsHolding").Select(n => (int)n)], (int)input.Number("yards"))!;
        chao2.Observed.ShouldBe((int)expected.Number("observed"));
        chao2.Value.ShouldBeNear(expected.Number("chao2"), 1e-12, "value");
        chao2.Variance.ShouldBeNear(expected.Number("variance"), 1e-12, "variance");
        chao2.StandardError.ShouldBeNear(expected.Number("standardError"), 1e-12, "se");
        chao2.Lower.ShouldBeNear(expected.Number("lower"), 1e-12, "lower");
        chao2.Upper.ShouldBeNear(expected.Number("upper"), 1e-12, "upper");
    }

    // Without taxa met twice the bias-corrected form S + A·Q1(Q1−1)/2 applies (Chao 1987; Gotelli & Colwell 2011): 3 + (4/5)·3·2/2 = 5.4.
    [Fact]
    public void Without_taxa_met_twice_the_bias_corrected_form_is_used() =>
        Chao2Estimate.Of([1, 1, 1], 5)!.Value.ShouldBe(5.4, 1e-12);

    [Fact]
    public void One_yard_or_nothing_met_gives_no_estimate()
    {
        Chao2Estimate.Of([1, 1], 1).ShouldBeNull();
        Chao2Estimate.Of([], 4).ShouldBeNull();
        Chao2Estimate.Of([0, 0], 4).ShouldBeNull();
        Chao2Estimate.WithoutSmallSampleFactor([1], 1).ShouldBeNull();
        RichnessEstimate.FirstOrderJackknife(Incidence.Of([[1]])).ShouldBeNull();
        RichnessEstimate.Bootstrap(Incidence.Of([[], []])).ShouldBeNull();
    }

    [Fact]
    public void A_taxon_in_more_yards_than_there_are_is_refused() =>
        Should.Throw<ArgumentOutOfRangeException>(() => Chao2Estimate.Of([5], 4));

    [Property]
    public void Estimates_are_never_below_what_was_met_and_the_interval_holds_them(int seed)
    {
        var random = new Random(seed);
        var units = random.Next(2, 30);
        int[] holding = [.. Enumerable.Range(0, random.Next(1, 50)).Select(_ => random.Next(1, units + 1))];
        var chao2 = Chao2Estimate.Of(holding, units)!;
        chao2.Value.ShouldBeGreaterThanOrEqualTo(holding.Length);
        chao2.Lower.ShouldBeInRange(holding.Length, chao2.Value);
        chao2.Upper.ShouldBeGreaterThanOrEqualTo(chao2.Value);
        double.IsFinite(chao2.Upper).ShouldBeTrue();
    }

    internal static Incidence IncidenceOf(string dataset) => Incidence.Of(
        [.. CheckFile.Community(dataset).Select(r => (IReadOnlyCollection<int>)[.. Enumerable.Range(0, r.Abundances.Length)
            .Where(i => r.Abundances[i] > 0)])]);
}
