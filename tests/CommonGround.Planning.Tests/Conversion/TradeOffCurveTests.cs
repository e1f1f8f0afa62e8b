using CommonGround.Planning.Conversion;
using FsCheck.Xunit;

namespace CommonGround.Planning.Tests.Conversion;

public class TradeOffCurveTests
{
    [Property(MaxTest = 4)]
    public void At_least_five_plans_rise_in_cost_and_none_is_worse_than_another(int seed)
    {
        var random = new Random(seed);
        var catalogue = InventedFlora.Any(random, 60);
        var around = InventedFlora.Around(catalogue);
        var curve = TradeOffCurve.Of(InventedFlora.Request() with { Budget = 100 }, around, InventedFlora.Prices);
        curve.Count.ShouldBeGreaterThanOrEqualTo(5);
        foreach (var (one, other) in curve.SelectMany(a => curve.Where(b => b != a).Select(b => (a, b))))
        {
            (one.Cost <= other.Cost && one.CoveredHalves >= other.CoveredHalves && one.Support >= other.Support).ShouldBeFalse();
        }

        curve.Select(t => t.Cost).ShouldBeInOrder();
        random.Shuffle(catalogue);
        TradeOffCurve.Of(InventedFlora.Request(), InventedFlora.Around(catalogue), InventedFlora.Prices).Select(t => (t.Cost, t.Support)).ShouldBe(curve.Select(t => (t.Cost, t.Support)));

        // The ends: nothing is cheaper than the first, nothing without a budget supports more than the last.
        ConversionPlanner.Solve(InventedFlora.Request() with { Budget = curve[0].Cost - 0.1 }, around, InventedFlora.Prices).Mix.ShouldBeNull();
        ConversionPlanner.Solve(InventedFlora.Request(), around, InventedFlora.Prices).Mix!.Cost.ShouldBe(curve[^1].Cost, 1e-9);
    }

    [Fact]
    public void Where_there_is_no_plan_there_is_no_curve() =>
        TradeOffCurve.Of(InventedFlora.Request() with { FewestTaxa = 20 }, InventedFlora.Around(InventedFlora.Plain()), InventedFlora.Prices).ShouldBeEmpty();
}
