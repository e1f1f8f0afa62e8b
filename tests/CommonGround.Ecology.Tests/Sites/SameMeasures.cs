using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.Sites;

internal static class SameMeasures
{
    public static void ShouldMeasureLike(this SiteMeasures actual, SiteMeasures expected, double relative = 1e-12)
    {
        (actual.Yards, actual.Richness, actual.NativeRichness, actual.IntroducedRichness, actual.WithoutC)
            .ShouldBe((expected.Yards, expected.Richness, expected.NativeRichness, expected.IntroducedRichness, expected.WithoutC));
        foreach (var (name, a, e) in Values(actual).Zip(Values(expected), (x, y) => (x.Name, x.Value, y.Value)))
        {
            a.ShouldBeNear(e, relative, name);
        }

        actual.Bloom.ShouldBloomLike(expected.Bloom, relative);
        actual.BloomWithoutTentative.ShouldBloomLike(expected.BloomWithoutTentative, relative);
    }

    private static void ShouldBloomLike(this BloomCoverage actual, BloomCoverage expected, double relative)
    {
        actual.CoveredShare.ShouldBe(expected.CoveredShare);
        actual.LateSeasonCoveredShare.ShouldBe(expected.LateSeasonCoveredShare);
        actual.Gaps.ShouldBe(expected.Gaps);
        actual.TaxaWithoutPollinatorValue.ShouldBe(expected.TaxaWithoutPollinatorValue);
        foreach (var (a, e) in actual.HalfMonths.Zip(expected.HalfMonths))
        {
            a.N.ShouldBe(e.N);
            a.AreaSquareMetres.ShouldBeNear(e.AreaSquareMetres, relative, "area");
            a.Support.ShouldBeNear(e.Support, relative, "support");
        }
    }

    private static IEnumerable<(string Name, double? Value)> Values(SiteMeasures m) =>
    [
        ("shannon", m.Shannon), ("simpson", m.Simpson), ("inverse simpson", m.InverseSimpson), ("evenness", m.Evenness),
        ("hill0", m.Hill0), ("hill1", m.Hill1), ("hill2", m.Hill2), ("chao2", m.Chao2), ("chao2 se", m.Chao2StandardError),
        ("mean C", m.MeanC), ("native mean C", m.NativeMeanC), ("fqi", m.Fqi), ("native fqi", m.NativeFqi), ("adjusted fqi", m.AdjustedFqi),
        ("cover-weighted mean C", m.CoverWeightedMeanC), ("pressure", m.InvasivePressureSquareMetres),
    ];
}
