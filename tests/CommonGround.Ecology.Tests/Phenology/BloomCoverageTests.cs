using System.Text.Json;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.Phenology;

public class BloomCoverageTests
{
    private static readonly FloweringTaxon s_allSeason = new(true, new BloomWindow(6, 19), 0.5, 2);

    [Fact]
    public void The_worked_example_of_eight_taxa_comes_out()
    {
        var (input, expected) = CheckFile.WorkedExample("bloom-coverage");
        var taxa = input.GetProperty("taxa").EnumerateArray().ToList();
        var bloom = BloomCoverage.Of(taxa.Select(Taxon), Season.Default);
        bloom.HalfMonths.Select(h => (double)h.N).ShouldBe(expected.Numbers("n"));
        bloom.HalfMonths.Select(h => h.AreaSquareMetres).ShouldBe(expected.Numbers("areaSquareMetres"), 1e-12);
        bloom.HalfMonths.Select(h => h.Support).ShouldBe(expected.Numbers("support"), 1e-12);
        bloom.TaxaWithoutPollinatorValue.ShouldBe((int)expected.Number("taxaWithoutPollinatorValue"));
        SharesAndGapsAre(bloom, expected);

        var certain = BloomCoverage.Of(taxa.Where(t => !t.GetProperty("tentative").GetBoolean()).Select(Taxon), Season.Default);
        SharesAndGapsAre(certain, expected.GetProperty("withoutTentative"));
    }

    [Fact]
    public void An_empty_site_is_one_gap_from_end_to_end()
    {
        var bloom = BloomCoverage.Of([], Season.Default);
        bloom.HalfMonths.Count.ShouldBe(24);
        bloom.HalfMonths.ShouldAllBe(h => h == default);
        bloom.CoveredShare.ShouldBe(0);
        bloom.LateSeasonCoveredShare.ShouldBe(0);
        bloom.Gaps.ShouldBe([new BloomGap(6, 19)]);
    }

    [Fact]
    public void A_season_in_flower_throughout_has_no_gap()
    {
        var bloom = BloomCoverage.Of([s_allSeason, s_allSeason, s_allSeason], Season.Default);
        bloom.CoveredShare.ShouldBe(1);
        bloom.LateSeasonCoveredShare.ShouldBe(1);
        bloom.Gaps.ShouldBeEmpty();
    }

    [Fact]
    public void Two_taxa_do_not_meet_the_norm_of_three_but_meet_a_norm_of_two()
    {
        BloomCoverage.Of([s_allSeason, s_allSeason], Season.Default).CoveredShare.ShouldBe(0);
        BloomCoverage.Of([s_allSeason, s_allSeason], Season.Default with { Norm = 2 }).CoveredShare.ShouldBe(1);
    }

    [Fact]
    public void An_unsound_season_is_refused()
    {
        Should.Throw<ArgumentException>(() => BloomCoverage.Of([], new Season(6, 24, 15, 3)));
        Should.Throw<ArgumentException>(() => BloomCoverage.Of([], new Season(6, 19, 20, 3)));
        Should.Throw<ArgumentException>(() => BloomCoverage.Of([], new Season(6, 19, 15, 0)));
    }

    private static FloweringTaxon Taxon(JsonElement t) => new(
        t.GetProperty("nativity").GetString() == "native",
        t.Optional("bloomStart") is { } start ? new BloomWindow((int)start, (int)t.Number("bloomEnd")) : null,
        t.Optional("pollinatorValue"),
        t.Number("cover"));

    private static void SharesAndGapsAre(BloomCoverage bloom, JsonElement expected)
    {
        bloom.CoveredShare.ShouldBeNear(expected.Number("coveredShare"), 1e-15, "share");
        bloom.LateSeasonCoveredShare.ShouldBeNear(expected.Number("lateSeasonCoveredShare"), 1e-15, "late");
        bloom.Gaps.ShouldBe(expected.GetProperty("gaps").EnumerateArray().Select(g => new BloomGap(g[0].GetInt32(), g[1].GetInt32())));
    }
}
