using CommonGround.Ecology.FloristicQuality;
using CommonGround.Ecology.Taxa;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.FloristicQuality;

public class FloristicQualityTests
{
    // Formulas of Taft, Wilhelm, Ladd & Masters (1997) and, for the adjusted index, Miller & Wardrop (2006); inputs chosen, not a printed
    // site list.
    [Theory(DisplayName = "Mean C and the indices follow Taft et al. 1997 and Miller & Wardrop 2006 (checks FQ-001 to FQ-006)")]
    [InlineData("FQ-001")]
    [InlineData("FQ-002")]
    [InlineData("FQ-003")]
    [InlineData("FQ-004")]
    [InlineData("FQ-005")]
    [InlineData("FQ-006")]
    public void Mean_C_and_the_indices_follow_the_published_formulas(string id)
    {
        var (inputs, expected) = CheckFile.Check("02_floristic_quality.json", id);
        var natives = inputs.Numbers("nativeC").Select(c => new ScoredTaxon(Nativity.Native, c, 1));
        var introduced = Enumerable.Repeat(new ScoredTaxon(Nativity.Introduced, null, 1), (int)inputs.Number("adventiveCount"));
        var index = FloristicQualityIndex.Of(natives.Concat(introduced));
        index.NativeTaxa.ShouldBe((int)expected.Number("nNative"));
        (index.NativeTaxa + index.IntroducedTaxa).ShouldBe((int)expected.Number("nTotal"));
        Close(index.NativeMeanC, expected.Optional("meanCNative"));
        Close(index.MeanC, expected.Optional("meanCAll"));
        Close(index.NativeFqi, expected.Optional("fqiNative"));
        Close(index.Fqi, expected.Optional("fqiAll"));
        Close(index.AdjustedFqi, expected.Optional("adjustedFqi"));
    }

    // Common practice (e.g. Bourdaghs et al. 2006); definition from memory.
    [Theory(DisplayName = "Cover-weighted mean C is Σ C·cover / Σ cover (checks FQ-007 and FQ-008)")]
    [InlineData("FQ-007")]
    [InlineData("FQ-008")]
    public void Cover_weighted_mean_C_follows_its_definition(string id)
    {
        var (inputs, expected) = CheckFile.Check("02_floristic_quality.json", id);
        var taxa = inputs.Numbers("c").Zip(inputs.Numbers("coverPercent"), (c, cover) => new ScoredTaxon(Nativity.Native, c, cover));
        Close(FloristicQualityIndex.Of(taxa).CoverWeightedMeanC, expected.Number("coverWeightedMeanC"));
    }

    [Fact]
    public void The_worked_example_of_five_taxa_comes_out()
    {
        var (input, expected) = CheckFile.WorkedExample("floristic-quality");
        var index = FloristicQualityIndex.Of(input.GetProperty("taxa").EnumerateArray().Select(t => new ScoredTaxon(
            t.GetProperty("nativity").GetString() == "native" ? Nativity.Native : Nativity.Introduced, t.Optional("c"),
                t.Number("cover"))));
        Close(index.NativeMeanC, expected.Number("nativeMeanC"));
        Close(index.MeanC, expected.Number("meanC"));
        Close(index.NativeFqi, expected.Number("nativeFqi"));
        Close(index.Fqi, expected.Number("fqi"));
        Close(index.AdjustedFqi, expected.Number("adjustedFqi"));
        Close(index.CoverWeightedMeanC, expected.Number("coverWeightedMeanC"));
        index.WithoutC.ShouldBe((int)expected.Number("withoutC"));
    }

    [Fact]
    public void Taxa_without_a_value_and_unlisted_taxa_are_left_out_and_counted()
    {
        var index = FloristicQualityIndex.Of([new(Nativity.Native, null, 4), new(Nativity.Unknown, null, 9), new(Nativity.Native, 6, 1)]);
        index.WithoutC.ShouldBe(2);
        index.MeanC.ShouldBe(6);
        index.Fqi.ShouldBe(6);
        index.AdjustedFqi.ShouldBe(60);
        index.CoverWeightedMeanC.ShouldBe(6);
    }

    [Fact]
    public void A_C_of_an_introduced_taxon_is_not_looked_at() =>
        FloristicQualityIndex.Of([new(Nativity.Introduced, 9, 1), new(Nativity.Native, 4, 1)]).MeanC.ShouldBe(2);

    [Fact]
    public void An_empty_site_has_no_scores() =>
        FloristicQualityIndex.Of([]).ShouldBe(new(0, 0, 0, null, null, null, null, null, null));

    [Fact]
    public void A_C_above_ten_is_refused() =>
        Should.Throw<ArgumentOutOfRangeException>(() => FloristicQualityIndex.Of([new(Nativity.Native, 11, 1)]));

    private static void Close(double? actual, double? expected)
    {
        (actual is null).ShouldBe(expected is null);
        (actual ?? 0).ShouldBe(expected ?? 0, 1e-5);
    }
}
