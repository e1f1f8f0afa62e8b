using System.Text.Json;
using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Sites;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Streets;

namespace CommonGround.Web.Tests.Features.Community;

/// <summary>
/// No public figure gives a position away. The attacker keeps every figure from before and after a change and fits the exact laws of
/// pressure and reachable bloom (weight · e^(−distance/scale)) to the differences, with weight and place unknown: trilateration by least
/// squares, as in navigation by ranges.
/// </summary>
public class PublicViewTests
{
    private const double MetresPerDegree = 6_371_008.8 * Math.PI / 180, Latitude = 41.87, Longitude = -88.56;
    private static readonly double Metres = MetresPerDegree * Math.Cos(Latitude * Math.PI / 180);

    [Fact]
    public void An_attacker_with_all_figures_before_and_after_each_of_fifty_histories_ends_no_nearer_than_the_block()
    {
        var (fromExact, fromPublic, middles) = (new List<double>(), new List<double>(), new List<double>());
        for (var seed = 0; seed < 50; seed++)
        {
            var chance = new Random(seed);
            var before = Neighbourhood(chance);
            for (var step = 0; step < 4; step++)
            {
                var (after, yard) = Changed(before, chance, step);
                if (yard is { } hidden)
                {
                    var block = after.Blocks[hidden.Block];
                    middles.Add(Apart(hidden, (block.Latitude, block.Longitude)));
                    fromExact.Add(Apart(hidden, Located(Exact(before), Exact(after))));
                    fromPublic.Add(Apart(hidden, Located(Public(before), Public(after))));
                }

                before = after;
            }
        }

        fromExact.Count.ShouldBeGreaterThan(90);
        // The attack works: on figures from exact places, in full precision, it finds nearly every yard to a metre.
        fromExact.Count(m => m < 1).ShouldBeGreaterThan(fromExact.Count * 9 / 10);
        // On the public ones it does no better than naming the block's middle, in the middle of the field and at its best.
        Median(fromPublic).ShouldBeGreaterThanOrEqualTo(Median(middles) * 0.9);
        fromPublic.Min().ShouldBeGreaterThanOrEqualTo(middles.Min() * 0.5);
        fromPublic.Count(m => m < 5).ShouldBeLessThanOrEqualTo(middles.Count(m => m < 5) + 1);
    }

    /// <summary>The attacker's bound, whatever the attack: had every yard lain anywhere else in its block, the public would have been told
    /// the very same.</summary>
    [Fact]
    public void Every_public_figure_of_fifty_histories_is_the_same_to_the_last_bit_wherever_in_their_blocks_the_yards_lie()
    {
        for (var seed = 0; seed < 50; seed++)
        {
            var (chance, elsewhere) = (new Random(seed), new Random(-seed - 1));
            var matrix = Neighbourhood(chance);
            for (var step = 0; step < 4; step++)
            {
                var moved = matrix.Yards.ToDictionary(y => y.YardId, y => (Latitude: y.Latitude + (elsewhere.NextDouble() / 1000),
                    Longitude: y.Longitude + (elsewhere.NextDouble() / 1000)));
                var other = matrix with
                {
                    Yards = [.. matrix.Yards.Select(y => y with { Latitude = moved[y.YardId].Latitude,
                        Longitude = moved[y.YardId].Longitude })],
                    Infestations = [.. matrix.Infestations.Select(i => i with { Latitude = moved[i.YardId!.Value].Latitude,
                        Longitude = moved[i.YardId!.Value].Longitude })],
                };
                Told(other).ShouldBe(Told(matrix), $"seed {seed}, step {step}");
                Figures.Of(other, sharedOnly: false).Blocks[0].InvasivePressureSquareMetres.ShouldNotBe(Figures.Of(matrix,
                    sharedOnly: false).Blocks[0].InvasivePressureSquareMetres);
                (matrix, _) = Changed(matrix, chance, step);
            }
        }
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(12.3456, 12)]
    [InlineData(0.098765, 0.099)]
    [InlineData(99.6, 100)]
    [InlineData(123456, 120000)]
    [InlineData(3.55e-9, 3.6e-9)]
    public void Square_metres_are_told_to_two_significant_digits(double exact, double told) => PublicView.Worth(exact).ShouldBe(told);

    [Fact]
    public void A_household_reads_the_pressure_of_its_own_infestation_exactly_and_its_neighbours_from_their_blocks()
    {
        var matrix = Neighbourhood(new Random(3));
        var yard = matrix.Yards[0];
        matrix = matrix with { Infestations = [Sick(yard, 40), Sick(matrix.Yards[1], 40)] };
        var seen = Figures.Of(matrix, sharedOnly: true);
        var middle = matrix.Blocks[matrix.Yards[1].Block];
        var around = 40 * 0.5 * Math.Exp(-Apart(yard, (middle.Latitude, middle.Longitude)) / 50);
        PublicView.PressureOn(matrix, yard, seen).ShouldBe(PublicView.Worth((40 * 0.5) + around), 1e-9);
    }

    private static string Told(CommunityMatrix matrix)
    {
        var figures = Figures.Of(matrix, sharedOnly: true);
        return JsonSerializer.Serialize(new
        {
            figures.Blocks,
            figures.Streets,
            figures.Neighbourhood,
            Reach = Enumerable.Range(0, matrix.Blocks.Count).Select(b => BeeReach.From(figures, b, 12).Select(r => r.SquareMetres))
        });
    }

    private static (double[] Pressure, double[] Reach) Public(CommunityMatrix matrix)
    {
        var figures = Figures.Of(matrix, sharedOnly: true);
        return ([.. figures.Blocks.Select(b => b.InvasivePressureSquareMetres!.Value)],
            [.. Enumerable.Range(0, matrix.Blocks.Count).Select(b => BeeReach.From(figures, b, 12)[0].SquareMetres)]);
    }

    private static (double[] Pressure, double[] Reach) Exact(CommunityMatrix matrix) =>
        (InvasivePressure.OfAllBlocks(matrix, PressureConvention.Default),
            [.. matrix.Blocks.Select(b => ReachableBloom.At(matrix, b.Latitude, b.Longitude, 12, SmallBee))]);

    private static readonly double SmallBee = ForagingRange.TypicalHomingKilometres(BeeReach.Bees[0].SpanMillimetres) * 1000;

    /// <summary>Where the difference of two sets of figures fits best: of a grid over all blocks, then ever finer around the
    /// best.</summary>
    private static (double Latitude, double Longitude) Located((double[] Pressure, double[] Reach) before,
        (double[] Pressure, double[] Reach) after)
    {
        var pressed = before.Pressure.Zip(after.Pressure).Any(p => p.First != p.Second);
        var (one, two, scale) = pressed ? (before.Pressure, after.Pressure, 50.0) : (before.Reach, after.Reach, SmallBee);
        var seen = one.Zip(two).Select((p, b) => (Block: b, Change: p.Second - p.First)).Where(p => p.Change > 1e-12).ToList();
        if (seen.Count < 3)
        {
            // Too few to trilaterate: the attacker names the place where it changed most.
            var best = seen.Count == 0 ? 0 : seen.MaxBy(s => s.Change).Block;
            return Middle(best);
        }

        var (bestX, bestY, width) = (150.0, 150.0, 250.0);
        for (var round = 0; round < 24; round++)
        {
            var (fit, x0, y0) = (double.MaxValue, bestX, bestY);
            for (var i = -10; i <= 10; i++)
            {
                for (var j = -10; j <= 10; j++)
                {
                    var (x, y) = (x0 + (i * width / 10), y0 + (j * width / 10));
                    var misfit = Misfit(seen, x, y, scale);
                    (fit, bestX, bestY) = misfit < fit ? (misfit, x, y) : (fit, bestX, bestY);
                }
            }

            width *= 0.45;
        }

        return At(bestX, bestY);
    }

    /// <summary>Squares of what is left of the logarithms of the changes, the weight at its best.</summary>
    private static double Misfit(List<(int Block, double Change)> seen, double x, double y, double scale)
    {
        var place = At(x, y);
        var left = seen.ConvertAll(s =>
        {
            var middle = Middle(s.Block);
            return Math.Log(s.Change) + (GreatCircleMetres(place, middle) / scale);
        });
        var mean = left.Average();
        return left.Sum(l => (l - mean) * (l - mean));
    }

    /// <summary>Three streets of three blocks, 100 m apart, each of four to six yards up to 45 m from its middle.</summary>
    private static CommunityMatrix Neighbourhood(Random chance)
    {
        var blocks = Enumerable.Range(0, 9).Select(b => new BlockSite(b + 1, $"Block {b}", b / 3, Middle(b).Latitude, Middle(b).Longitude))
            .ToList();
        var yards = Enumerable.Range(0, 9).SelectMany(b => Enumerable.Range(0, chance.Next(4, 7)).Select(_ => b)).Select((b, i) =>
        {
            var place = At((b % 3 * 100) + Off(chance), (b / 3 * 100) + Off(chance));
            return new YardCommunity(i + 1, b, place.Latitude, place.Longitude, true, [new Presence(2, 1 + chance.Next(20), 1)]);
        }).ToList();
        return new CommunityMatrix(Garden.Today, Flora.All, [new(1, "First"), new(2, "Second"), new(3, "Third")], blocks, yards,
            [.. yards.Take(6).Select(y => Sick(y, 5 + chance.Next(30)))]);
    }

    private static double Off(Random chance) => (8 + (chance.NextDouble() * 37)) * (chance.Next(2) == 0 ? 1 : -1);

    /// <summary>One thing happens: an infestation, a planting, or a household's consent, which no attack needs.</summary>
    private static (CommunityMatrix Matrix, YardCommunity? Yard) Changed(CommunityMatrix matrix, Random chance, int step)
    {
        var sharing = matrix.Yards.Where(y => y.Shared && matrix.Infestations.All(i => i.YardId != y.YardId)).ToList();
        var yard = sharing[chance.Next(sharing.Count)];
        return (step % 3) switch
        {
            0 => (matrix with { Infestations = [.. matrix.Infestations, Sick(yard, 10 + chance.Next(60))] }, yard),
            1 => (matrix.With(yard with
            {
                Presences = [yard.Presences[0] with { CoverSquareMetres = yard.Presences[0].CoverSquareMetres + 5
                + chance.Next(40) }]
            }), yard),
            _ => (matrix with { Yards = [.. matrix.Yards.Select(y => y with { Shared = y.Block != yard.Block || y.YardId % 2 == 0 })] },
                null),
        };
    }

    private static Infestation Sick(YardCommunity yard, double area) => new(6, yard.Latitude, yard.Longitude, area, 0.5, 6, yard.YardId,
        yard.Block);

    private static (double Latitude, double Longitude) Middle(int block) => At(block % 3 * 100, block / 3 * 100);

    private static (double Latitude, double Longitude) At(double east, double north) => (Latitude + (north / MetresPerDegree),
        Longitude + (east / Metres));

    private static double Apart(YardCommunity yard, (double Latitude, double Longitude) place) =>
        GreatCircleMetres((yard.Latitude, yard.Longitude), place);

    private static double GreatCircleMetres((double Latitude, double Longitude) one, (double Latitude, double Longitude) other)
    {
        var (a, b) = (one.Latitude * Math.PI / 180, other.Latitude * Math.PI / 180);
        var half = Math.Pow(Math.Sin((a - b) / 2), 2) + (Math.Cos(a) * Math.Cos(b)
            * Math.Pow(Math.Sin((one.Longitude - other.Longitude) * Math.PI / 360), 2));
        return 2 * 6_371_008.8 * Math.Asin(Math.Sqrt(half));
    }

    private static double Median(List<double> values) => values.Order().ElementAt(values.Count / 2);
}
