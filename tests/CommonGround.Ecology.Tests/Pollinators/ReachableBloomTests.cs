using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Ecology.Tests.Published;
using CommonGround.Ecology.Tests.Sites;
using FsCheck.Xunit;

namespace CommonGround.Ecology.Tests.Pollinators;

public class ReachableBloomTests
{
    [Fact(DisplayName = "The worked example comes out: exponential weighting as in Lonsdorf et al. 2009, range by Greenleaf et al. 2007")]
    public void The_worked_example_of_three_yards_comes_out()
    {
        var (input, expected) = CheckFile.WorkedExample("reachable-bloom");
        var alpha = 1000 * ForagingRange.TypicalHomingKilometres(input.Number("interTegularMillimetres"));
        alpha.ShouldBeNear(expected.Number("alphaMetres"), 1e-12, "alpha");
        YardCommunity[] yards = [.. input.GetProperty("yards").EnumerateArray().Select((y, i) =>
            new YardCommunity(i, 0, y.Number("latitude"), y.Number("longitude"), true,
                [new(0, y.Number("floweringSquareMetres"), 0), new(1, 50, 50)]))];
        CatalogueTaxon[] taxa =
        [
            Neighbourhood.Native(bloom: new BloomWindow(10, 12)),
            new() { ScientificName = "Planta aliena", Nativity = Nativity.Introduced, Bloom = new BloomWindow(10, 12) },
        ];
        var point = input.Numbers("point");
        var matrix = new CommunityMatrix(new(2026, 7, 1), taxa, [new(1, "S")], [new(1, "B", 0, point[0], point[1])], yards, []);
        ReachableBloom.At(matrix, point[0], point[1], 11, alpha).ShouldBeNear(expected.Number("reachableSquareMetres"), 1e-9,
            "at the point");
        ReachableBloom.OfAllBlocks(matrix, 11, alpha)[0].ShouldBeNear(expected.Number("reachableSquareMetres"), 1e-9, "at the block");
        ReachableBloom.OfAllBlocks(matrix, 13, alpha)[0].ShouldBe(0);
    }

    [Property(MaxTest = 25)]
    public void The_fast_sums_equal_the_plain_double_loop(int seed)
    {
        var matrix = Neighbourhood.Of(seed, yards: 300);
        var alpha = 20 + (1000 * new Random(seed).NextDouble());
        var t = Math.Abs(seed % HalfMonth.Count);
        var fast = ReachableBloom.OfAllBlocks(matrix, t, alpha);
        for (var b = 0; b < matrix.Blocks.Count; b++)
        {
            var block = matrix.Blocks[b];
            var plain = Enumerable.Range(0, matrix.Yards.Count).Sum(y => ReachableBloom.FloweringSquareMetres(matrix, y, t)
                * Math.Exp(-GreatCircle.Metres(block.Latitude, block.Longitude, matrix.Yards[y].Latitude, matrix.Yards[y].Longitude)
                / alpha));
            Math.Abs(fast[b] - plain).ShouldBeLessThanOrEqualTo((1e-9 * plain) + 1e-12);
        }
    }

    [Fact]
    public void Distances_across_the_globe_are_exact_too()
    {
        var far = new YardCommunity(2, 0, -33, 151, true, [new(0, 5, 5)]);
        var near = new YardCommunity(1, 0, 52, 13.5, true, [new(0, 3, 3)]);
        var matrix = new CommunityMatrix(new(2026, 7, 1), [Neighbourhood.Native(bloom: new BloomWindow(0, 23))], [new(1, "S")],
            [new(1, "B", 0, 52, 13)], [near, far], []);
        const double alpha = 4_000_000;
        var plain = (3 * Math.Exp(-GreatCircle.Metres(52, 13, 52, 13.5) / alpha))
            + (5 * Math.Exp(-GreatCircle.Metres(52, 13, -33, 151) / alpha));
        ReachableBloom.OfAllBlocks(matrix, 0, alpha)[0].ShouldBeNear(plain, 1e-10, "far and near");
    }

    [Fact]
    public void A_flight_distance_of_nothing_or_a_half_month_beyond_the_year_is_refused()
    {
        var matrix = Neighbourhood.Of(1);
        Should.Throw<ArgumentOutOfRangeException>(() => ReachableBloom.OfAllBlocks(matrix, 3, 0));
        Should.Throw<ArgumentOutOfRangeException>(() => ReachableBloom.OfAllBlocks(matrix, 24, 100));
    }
}
