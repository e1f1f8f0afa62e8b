using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Sites;

public class CommunityMeasuresTests
{
    private static readonly Season s_season = Season.Default;
    private static readonly PressureConvention s_convention = PressureConvention.Default;

    [Property(MaxTest = 25)]
    public void The_batch_path_equals_the_plain_path_for_every_kind_of_site(int seed)
    {
        var matrix = Neighbourhood.Of(seed, tentative: seed % 2 == 0);
        AllLike(CommunityMeasures.OfYards(matrix, s_season, s_convention), matrix.Yards.Count,
            i => CommunityMeasures.OfYard(matrix, i, s_season, s_convention));
        AllLike(CommunityMeasures.OfBlocks(matrix, s_season, s_convention), matrix.Blocks.Count,
            i => CommunityMeasures.OfBlock(matrix, i, s_season, s_convention));
        AllLike(CommunityMeasures.OfStreets(matrix, s_season, s_convention), matrix.Streets.Count,
            i => CommunityMeasures.OfStreet(matrix, i, s_season, s_convention));
        CommunityMeasures.OfNeighbourhood(matrix, s_season, s_convention).ShouldMeasureLike(SiteMeasures.Of(
            CommunityMeasures.CommunityOfNeighbourhood(matrix), matrix.Taxa, s_season,
                InvasivePressure.OfNeighbourhood(matrix, s_convention)));
    }

    [Property(MaxTest = 25)]
    public void The_order_of_rows_never_matters(int seed)
    {
        var matrix = Neighbourhood.Of(seed);
        var random = new Random(seed);
        YardCommunity[] yards = [.. matrix.Yards.Select(y => y with { Presences = Shuffled(y.Presences, random) })];
        var shuffled = matrix with { Yards = Shuffled(yards, random), Infestations = Shuffled([.. matrix.Infestations], random) };
        AllLike(CommunityMeasures.OfBlocks(shuffled, s_season, s_convention), matrix.Blocks.Count,
            i => CommunityMeasures.OfBlocks(matrix, s_season, s_convention)[i]);
        AllLike(CommunityMeasures.OfStreets(shuffled, s_season, s_convention), matrix.Streets.Count,
            i => CommunityMeasures.OfStreets(matrix, s_season, s_convention)[i]);
        CommunityMeasures.OfBlocksWithoutPressure(shuffled, s_season).Select(m => m.Shannon)
            .ShouldBe(CommunityMeasures.OfBlocksWithoutPressure(matrix, s_season).Select(m => m.Shannon));
    }

    [Property(MaxTest = 40)]
    public void Adding_a_yard_never_lowers_the_richness_of_its_street(int seed)
    {
        var matrix = Neighbourhood.Of(seed);
        var added = Neighbourhood.Of(seed + 1).Yards[0] with { YardId = 5000 };
        var street = matrix.Blocks[added.Block].Street;
        var before = CommunityMeasures.OfStreet(matrix, street, s_season, s_convention);
        var after = CommunityMeasures.OfStreet(matrix.With(added), street, s_season, s_convention);
        after.Richness.ShouldBeGreaterThanOrEqualTo(before.Richness);
        after.NativeRichness.ShouldBeGreaterThanOrEqualTo(before.NativeRichness);
        after.Yards.ShouldBe(before.Yards + 1);
    }

    [Property(MaxTest = 25)]
    public void Scaling_all_covers_changes_no_share_and_scales_every_area(int seed)
    {
        var matrix = Neighbourhood.Of(seed);
        var scaled = matrix with
        {
            Yards = [.. matrix.Yards.Select(y => y with { Presences =
                [.. y.Presences.Select(p => new Presence(p.Taxon, 4 * p.CoverSquareMetres, 4 * p.CertainSquareMetres))] })],
        };
        foreach (var (a, e) in CommunityMeasures.OfBlocksWithoutPressure(scaled, s_season)
            .Zip(CommunityMeasures.OfBlocksWithoutPressure(matrix, s_season)))
        {
            a.Shannon.ShouldBe(e.Shannon);
            a.Evenness.ShouldBe(e.Evenness);
            (a.Evenness ?? 1).ShouldBeInRange(0, 1);
            a.CoverWeightedMeanC.ShouldBe(e.CoverWeightedMeanC);
            a.Gaps.ShouldBe(e.Gaps);
            a.Bloom.HalfMonths.Select(h => h.AreaSquareMetres).ShouldBe(e.Bloom.HalfMonths.Select(h => 4 * h.AreaSquareMetres));
        }
    }

    [Property(MaxTest = 25)]
    public void A_replaced_yard_measures_like_a_rebuilt_matrix(int seed)
    {
        var matrix = Neighbourhood.Of(seed);
        _ = CommunityMeasures.OfStreets(matrix, s_season, s_convention);
        var random = new Random(seed);
        var old = matrix.Yards[random.Next(matrix.Yards.Count)];
        var changed = Neighbourhood.Of(seed + 1).Yards[3] with
        {
            YardId = old.YardId,
            Block = random.Next(2) == 0 ? old.Block
            : random.Next(matrix.Blocks.Count)
        };
        var updated = matrix.With(changed);
        var rebuilt = matrix with { Yards = [.. matrix.Yards.Select(y => y.YardId == old.YardId ? changed : y)] };
        AllLike(CommunityMeasures.OfStreets(updated, s_season, s_convention), matrix.Streets.Count,
            i => CommunityMeasures.OfStreets(rebuilt, s_season, s_convention)[i]);
        AllLike(CommunityMeasures.OfBlocks(updated, s_season, s_convention), matrix.Blocks.Count,
            i => CommunityMeasures.OfBlocks(rebuilt, s_season, s_convention)[i]);
        matrix.Yards[matrix.PositionOf(old.YardId)!.Value].ShouldBe(old);
    }

    [Fact]
    public void Every_yard_is_found_by_its_block_its_street_and_its_id()
    {
        var matrix = Neighbourhood.Of(7);
        for (var y = 0; y < matrix.Yards.Count; y++)
        {
            var yard = matrix.Yards[y];
            matrix.PositionOf(yard.YardId).ShouldBe(y);
            matrix.YardsOfBlock(yard.Block).ShouldContain(y);
            matrix.YardsOfStreet(matrix.Blocks[yard.Block].Street).ShouldContain(y);
        }

        Enumerable.Range(0, matrix.Blocks.Count).Sum(b => matrix.YardsOfBlock(b).Count).ShouldBe(matrix.Yards.Count);
        Enumerable.Range(0, matrix.Streets.Count).Sum(s => matrix.BlocksOfStreet(s).Count).ShouldBe(matrix.Blocks.Count);
        matrix.PositionOf(-5).ShouldBeNull();
    }

    [Fact]
    public void A_yard_with_two_rows_or_a_taxon_listed_twice_is_refused()
    {
        var matrix = Neighbourhood.Of(3);
        var yard = matrix.Yards[0];
        var doubled = matrix with { Yards = [yard, yard] };
        Should.Throw<ArgumentException>(() => CommunityMeasures.OfBlocks(doubled, s_season, s_convention));
        var twice = Neighbourhood.Yard(1, 0, new Presence(2, 1, 1), new Presence(2, 3, 3));
        var listed = matrix with { Yards = [twice] };
        Should.Throw<ArgumentException>(() => CommunityMeasures.OfYard(listed, 0, s_season, s_convention));
        Should.Throw<AggregateException>(() => CommunityMeasures.OfYards(listed, s_season, s_convention)).InnerException
            .ShouldBeOfType<ArgumentException>();
    }

    private static T[] Shuffled<T>(IReadOnlyList<T> items, Random random)
    {
        T[] shuffled = [.. items];
        random.Shuffle(shuffled);
        return shuffled;
    }

    private static void AllLike(IReadOnlyList<SiteMeasures> actual, int count, Func<int, SiteMeasures> expected)
    {
        actual.Count.ShouldBe(count);
        for (var i = 0; i < count; i++)
        {
            actual[i].ShouldMeasureLike(expected(i));
        }
    }
}
