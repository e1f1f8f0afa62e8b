using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.Sites;

public class SiteMeasuresTests
{
    private static readonly Season s_season = Season.Default;
    private static readonly PressureConvention s_convention = PressureConvention.Default;

    // The published community data taken as yards of one block: every row a yard, counts as m². Values: vegan 2.6-4.
    [Theory(DisplayName = "A block of yards with published abundances gives vegan's indices per yard and vegan's Chao2 for the block")]
    [InlineData("dune")]
    [InlineData("BCI")]
    [InlineData("mite35")]
    public void Published_communities_give_published_measures(string dataset)
    {
        var matrix = Published(dataset);
        var pool = CheckFile.Table("01_specpool.csv").Single(r => r["dataset"] == dataset && r["smallsample"] == "TRUE");
        var block = CommunityMeasures.OfBlocks(matrix, s_season, s_convention).ShouldHaveSingleItem();
        block.Richness.ShouldBe(int.Parse(pool["Species"]));
        block.Chao2.ShouldBeNear(CheckFile.Number(pool["chao"]), 1e-10, "chao2");
        block.Chao2StandardError.ShouldBeNear(CheckFile.Number(pool["chao.se"]), 1e-10, "chao2 se");
        var yards = CommunityMeasures.OfYards(matrix, s_season, s_convention);
        var rows = CheckFile.Table("01_per_site.csv").Where(r => r["dataset"] == dataset).ToList();
        rows.Count.ShouldBeGreaterThan(19);
        foreach (var row in rows)
        {
            var yard = yards[int.Parse(row["site"]) - 1];
            yard.Shannon.ShouldBeNear(CheckFile.Number(row["shannon_ln"]), 1e-12, row["site"]);
            yard.Simpson.ShouldBeNear(CheckFile.Number(row["simpson_1mD"]), 1e-12, row["site"]);
            yard.InverseSimpson.ShouldBeNear(CheckFile.Number(row["simpson_inv"]), 1e-12, row["site"]);
            yard.Evenness.ShouldBeNear(CheckFile.Number(row["pielou"]), 1e-12, row["site"]);
            yard.Hill0.ShouldBe(yard.Richness);
            yard.Hill1.ShouldBeNear(CheckFile.Number(row["hill1"]), 1e-12, row["site"]);
            yard.Hill2.ShouldBeNear(CheckFile.Number(row["hill2"]), 1e-12, row["site"]);
            yard.Chao2.ShouldBeNull();
        }
    }

    [Fact]
    public void An_empty_yard_has_richness_zero_a_season_long_gap_and_no_other_index()
    {
        var matrix = new CommunityMatrix(new(2026, 7, 1), [], [new(1, "S")], [new(1, "B", 0, 41, -91)], [Neighbourhood.Yard(1, 0)], []);
        foreach (var empty in new[] { CommunityMeasures.OfYards(matrix, s_season, s_convention)[0],
            CommunityMeasures.OfYard(matrix, 0, s_season, s_convention) })
        {
            empty.Yards.ShouldBe(1);
            empty.Richness.ShouldBe(0);
            new[] { empty.Shannon, empty.Simpson, empty.InverseSimpson, empty.Evenness, empty.Hill0, empty.Hill1, empty.Hill2, empty.Chao2,
                empty.Chao2StandardError }
                .ShouldAllBe(v => v == null);
            new[] { empty.MeanC, empty.NativeMeanC, empty.Fqi, empty.NativeFqi, empty.AdjustedFqi,
                empty.CoverWeightedMeanC }.ShouldAllBe(v => v == null);
            empty.WithoutC.ShouldBe(0);
            empty.CoveredShare.ShouldBe(0);
            empty.LateSeasonCoveredShare.ShouldBe(0);
            empty.Gaps.ShouldBe([new BloomGap(6, 19)]);
            empty.InvasivePressureSquareMetres.ShouldBe(0);
        }
    }

    [Fact]
    public void A_block_without_yards_is_an_empty_site()
    {
        var matrix = new CommunityMatrix(new(2026, 7, 1), [], [new(1, "S")], [new(1, "B", 0, 41, -91)], [], []);
        var block = CommunityMeasures.OfBlocks(matrix, s_season, s_convention)[0];
        block.Yards.ShouldBe(0);
        block.Richness.ShouldBe(0);
        block.Chao2.ShouldBeNull();
        CommunityMeasures.OfNeighbourhood(matrix, s_season, s_convention).Yards.ShouldBe(0);
    }

    [Fact]
    public void A_taxon_known_only_tentatively_counts_in_the_value_and_not_in_the_lower_edge_of_the_band()
    {
        CatalogueTaxon[] taxa = [.. Enumerable.Range(0, 3).Select(_ => Neighbourhood.Native(5, new BloomWindow(8, 9), 0.5))];
        YardCommunity yard = Neighbourhood.Yard(1, 0, new Presence(0, 2, 2), new Presence(1, 2, 1.5), new Presence(2, 4, 0));
        var matrix = new CommunityMatrix(new(2026, 7, 1), taxa, [new(1, "S")], [new(1, "B", 0, 41, -91)], [yard], []);
        foreach (var measures in new[] { CommunityMeasures.OfBlocks(matrix, s_season, s_convention)[0],
            CommunityMeasures.OfBlock(matrix, 0, s_season, s_convention) })
        {
            measures.Bloom.HalfMonths[8].ShouldBe(new BloomHalfMonth(3, 8, 4));
            measures.BloomWithoutTentative.HalfMonths[8].ShouldBe(new BloomHalfMonth(2, 3.5, 1.75));
            measures.CoveredShare.ShouldBe(2.0 / 14, 1e-15);
            measures.BloomWithoutTentative.CoveredShare.ShouldBe(0);
            measures.Richness.ShouldBe(3);
        }
    }

    [Fact]
    public void Taxa_of_unknown_nativity_are_neither_native_nor_introduced()
    {
        CatalogueTaxon[] taxa = [Neighbourhood.Native(4), new() { ScientificName = "Planta ignota" },
            new() { ScientificName = "Planta aliena", Nativity = Nativity.Introduced }];
        YardCommunity yard = Neighbourhood.Yard(1, 0, new Presence(0, 1, 1), new Presence(1, 1, 1), new Presence(2, 2, 2));
        var matrix = new CommunityMatrix(new(2026, 7, 1), taxa, [new(1, "S")], [new(1, "B", 0, 41, -91)], [yard], []);
        var measures = CommunityMeasures.OfYards(matrix, s_season, s_convention)[0];
        (measures.Richness, measures.NativeRichness, measures.IntroducedRichness, measures.WithoutC).ShouldBe((3, 1, 1, 1));
        measures.MeanC.ShouldBe(2);
        measures.CoverWeightedMeanC.ShouldBeNear(4.0 / 3, 1e-15, "weighted");
    }

    [Fact]
    public void Streets_are_compared_by_what_grows_there()
    {
        CatalogueTaxon[] taxa = [.. Enumerable.Range(0, 4).Select(_ => Neighbourhood.Native())];
        var (input, expected) = CheckFile.WorkedExample("dissimilarity");
        var matrix = new CommunityMatrix(
            new(2026, 7, 1),
            taxa,
            [new(1, "First"), new(2, "Second")],
            [new(1, "A", 0, 41, -91), new(2, "B", 1, 41, -91)],
            [Neighbourhood.Yard(1, 0, Row(input.Numbers("first"))), Neighbourhood.Yard(2, 1, Row(input.Numbers("second")))],
            []);
        var comparison = SiteComparison.Between(CommunityMeasures.CommunityOfStreet(matrix, 0),
            CommunityMeasures.CommunityOfStreet(matrix, 1));
        comparison.Sorensen.ShouldBeNear(expected.Number("sorensen"), 1e-12, "sorensen");
        comparison.Jaccard.ShouldBeNear(expected.Number("jaccard"), 1e-12, "jaccard");
        comparison.BrayCurtis.ShouldBeNear(expected.Number("brayCurtis"), 1e-12, "bray");
    }

    internal static CommunityMatrix Published(string dataset)
    {
        var community = CheckFile.Community(dataset);
        CatalogueTaxon[] taxa = [.. community[0].Abundances.Select(_ => Neighbourhood.Native())];
        YardCommunity[] yards = [.. community.Select((r, i) => Neighbourhood.Yard(i, 0, Row(r.Abundances)))];
        return new(new(2026, 7, 1), taxa, [new(1, "S")], [new(1, "B", 0, 41, -91)], yards, []);
    }

    private static Presence[] Row(double[] covers) => [.. covers.Select((c, i) => new Presence(i, c, c))
        .Where(p => p.CoverSquareMetres > 0)];
}
