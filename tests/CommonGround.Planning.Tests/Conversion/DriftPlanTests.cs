using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

public class DriftPlanTests
{
    private static readonly PlanPoint[] Trapeze = [new(1, 0.5), new(7, 0.2), new(6.2, 4), new(2, 3.4)];
    private static readonly PlanPoint[] Corner = [new(0, 0), new(8, 0), new(8, 3), new(3, 3), new(3, 7), new(0, 7)];

    public static TheoryData<string> Beds => [.. Asked.Keys];

    private static Dictionary<string, ConversionRequest> Asked { get; } = new(StringComparer.Ordinal)
    {
        ["tiny 2"] = QuarryFlora.Request(2),
        ["small 6"] = QuarryFlora.Request(6),
        ["bed 12"] = QuarryFlora.Request(12),
        ["drawn bed"] = Drawn(Trapeze),
        ["round a corner"] = Drawn(Corner),
        ["two beds"] = QuarryFlora.Request(20) with { Areas = [new("left", 12, []), new("right", 8, [])] },
        ["band 60"] = QuarryFlora.Request(60),
        ["shade 40"] = QuarryFlora.Request(40, Light.Shade),
        ["wet 50"] = QuarryFlora.Request(50, moisture: Moisture.Wet),
        ["plugs 90"] = QuarryFlora.Request(90) with { Method = Method.Plugs },
    };

    [Theory]
    [MemberData(nameof(Beds))]
    public void Every_plug_is_inside_the_bed_the_numbers_match_and_drifts_never_overlap(string bed)
    {
        var (mix, plans) = Planned(bed);
        plans.Count.ShouldBe(mix.Areas.Count(a => a.Taxa.Any(t => t.Plugs > 0)));
        foreach (var plan in plans)
        {
            // The shopping list of the area, kind by kind.
            var list = mix.Areas.Single(a => a.Area == plan.Area).Taxa.Where(t => t.Plugs > 0).ToDictionary(t => t.Taxon.ScientificName,
                t => t.Plugs, StringComparer.Ordinal);
            plan.Drifts.GroupBy(d => d.Taxon.Taxon.ScientificName).ToDictionary(g => g.Key, g => g.Sum(d => d.Plugs.Count),
                StringComparer.Ordinal).ShouldBe(list, ignoreOrder: true);
            var plugs = plan.Drifts.SelectMany(d => d.Plugs).ToList();
            plugs.ShouldAllBe(p => Inside(plan.Bed, p));
            foreach (var (one, other) in plugs.SelectMany((p, i) => plugs.Skip(i + 1).Select(q => (p, q))))
            {
                Apart(one, other).ShouldBeGreaterThan(plan.SpacingMetres * 0.99);
            }

            foreach (var drift in plan.Drifts)
            {
                drift.Plugs.ShouldAllBe(p => drift.Outlines.Any(o => Inside(o, p)));
            }

            // On a lattice of its own, finer than the drifts, no point lies in two of them.
            var (low, high) = (new PlanPoint(plan.Bed.Min(p => p.East), plan.Bed.Min(p => p.North)),
                new PlanPoint(plan.Bed.Max(p => p.East), plan.Bed.Max(p => p.North)));
            for (var east = low.East + 0.013; east < high.East; east += 0.061)
            {
                for (var north = low.North + 0.017; north < high.North; north += 0.061)
                {
                    plan.Drifts.Count(d => d.Outlines.Count(o => Inside(o, new(east, north))) % 2 == 1).ShouldBeLessThanOrEqualTo(1);
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Beds))]
    public void Low_ones_stand_at_the_kerb(string bed)
    {
        foreach (var plan in Planned(bed).Plans)
        {
            // A band is at most five rows deep; nothing taller stands farther in front of something lower than that.
            var band = 5 * 0.8660254 * plan.SpacingMetres;
            foreach (var tall in plan.Drifts)
            {
                foreach (var low in plan.Drifts.Where(d => DriftOrder.Height(d.Taxon) < DriftOrder.Height(tall.Taxon)))
                {
                    (low.Plugs.Max(p => p.North) - tall.Plugs.Min(p => p.North)).ShouldBeLessThanOrEqualTo((2 * band) + 1e-9);
                }
            }

            var heights = plan.Drifts.SelectMany(d => d.Plugs.Select(p => (p.North, Height: DriftOrder.Height(d.Taxon))))
                .OrderBy(p => p.North).ToList();
            if (plan.BandMetres is not null)
            {
                // A band along the walk is two rows of plants that all stay low (docs/measures.md#mix).
                heights.ShouldAllBe(h => h.Height <= 0.9);
                continue;
            }

            heights.Take(heights.Count / 3).Average(h => h.Height)
                .ShouldBeLessThanOrEqualTo(heights.TakeLast(heights.Count / 3).Average(h => h.Height));
        }
    }

    [Fact]
    public void Beside_a_sowing_the_plugs_stand_in_a_band_a_metre_deep()
    {
        var plan = Planned("band 60").Plans.Single();
        plan.BandMetres.ShouldBe(1);
        plan.Drifts.SelectMany(d => d.Plugs).ShouldAllBe(p => p.North <= 1);
        plan.Assumed.ShouldBeTrue();
        Planned("drawn bed").Plans.Single().Assumed.ShouldBeFalse();
    }

    [Fact]
    public void Larger_ground_and_seed_alone_have_no_plan_of_plugs_but_passes_that_hold_all_seed()
    {
        foreach (var request in new[] { QuarryFlora.Request(150), QuarryFlora.Request(60) with { Method = Method.Seed },
            QuarryFlora.Request(150) with { Look = Look.EdgeFriendly } })
        {
            var mix = Mix(request);
            DriftPlan.Of(request, mix).ShouldBeEmpty();
            SowingPass.Of(request, mix).SelectMany(p => p.Taxa).Select(t => t.Taxon.ScientificName).Order(StringComparer.Ordinal)
                .ShouldBe(mix.Taxa.Where(t => t.SeedsPerSquareMetre > 0).Select(t => t.Taxon.ScientificName).Order(StringComparer.Ordinal));
        }
    }

    [Fact]
    public void The_same_request_gives_the_same_plan()
    {
        static string Written(string bed) => string.Join(' ',
            Planned(bed).Plans.SelectMany(p => p.Drifts)
                .SelectMany(d => d.Plugs.Select(p => $"{d.Taxon.Taxon.ScientificName} {p.East:R} {p.North:R}")));
        Written("bed 12").ShouldBe(Written("bed 12"));
    }

    private static ConversionRequest Drawn(PlanPoint[] outline)
    {
        var area = Math.Abs(outline.Zip([.. outline.Skip(1), outline[0]])
            .Sum(e => (e.First.East * e.Second.North) - (e.Second.East * e.First.North))) / 2;
        return QuarryFlora.Request(Math.Round(area, 1)) with
        {
            Areas = [new("drawn", Math.Round(area, 1), outline)],
            Method = Method.Plugs
        };
    }

    private static (ConversionMix Mix, IReadOnlyList<DriftPlan> Plans) Planned(string bed)
    {
        var mix = Mix(Asked[bed]);
        return (mix, DriftPlan.Of(Asked[bed], mix));
    }

    private static ConversionMix Mix(ConversionRequest request) => ConversionPlanner.Solve(request, QuarryFlora.Around, QuarryFlora.Prices,
        Effort.Quick).Mix.ShouldNotBeNull();

    private static double Apart(PlanPoint a, PlanPoint b) => Math.Sqrt(Math.Pow(a.East - b.East, 2) + Math.Pow(a.North - b.North, 2));

    /// <summary>Winding number, so that the check does not share the program's own rule.</summary>
    private static bool Inside(IReadOnlyList<PlanPoint> corners, PlanPoint p)
    {
        var turns = 0.0;
        for (var i = 0; i < corners.Count; i++)
        {
            var (a, b) = (corners[i], corners[(i + 1) % corners.Count]);
            turns += Math.Atan2(((a.East - p.East) * (b.North - p.North)) - ((a.North - p.North) * (b.East - p.East)),
                ((a.East - p.East) * (b.East - p.East)) + ((a.North - p.North) * (b.North - p.North)));
        }

        return Math.Abs(turns) > Math.PI;
    }
}
