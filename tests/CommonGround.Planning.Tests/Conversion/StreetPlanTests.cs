using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

public class StreetPlanTests
{
    private static readonly StreetYard[] Yards =
    [
        new("AA-01", QuarryFlora.Request(20)), new("AA-02", QuarryFlora.Request(60, moisture: Moisture.Dry)),
            new("AA-03", QuarryFlora.Request(15, Light.PartShade)), new("AA-04", QuarryFlora.Request(80, Light.Shade)),
        new("AA-05", QuarryFlora.Request(40) with { MustHave = ["Asarum canadense"], TallestMetres = 0.05 }),
    ];

    [Fact]
    public void Every_yard_has_a_sound_mix_or_a_reason_and_together_they_keep_the_budget()
    {
        var seen = new List<StreetProgress>();
        var street = StreetPlan.Of(Yards, 1200, QuarryFlora.Around, QuarryFlora.Prices, new Listener(seen));
        street.Yards.Select(y => y.Yard).ShouldBe(Yards.Select(y => y.Yard));
        street.Cost.ShouldBeLessThanOrEqualTo(1200);
        street.Cost.ShouldBe(street.Yards.Sum(y => y.Mix?.Cost ?? 0), 1e-9);
        seen.Count.ShouldBe(Yards.Length);
        foreach (var (yard, plan) in Yards.Zip(street.Yards).Take(4))
        {
            var mix = plan.Mix.ShouldNotBeNull(string.Join(' ', plan.Why));
            MixChecks.Fails(MixMeasures.Lines(mix), yard.Request, mix.Method, thin: false).ShouldBeEmpty();
        }

        street.Yards[4].Mix.ShouldBeNull();
        street.Yards[4].Why.ShouldNotBeEmpty();
        // No yard alone feeds as many, and none can feed more than any suitable plant does.
        street.Bees.ShouldBeGreaterThan(street.Yards.Max(y => y.Mix?.Visitors.Bees ?? 0));
        street.Bees.ShouldBe(QuarryFlora.Forage.Of(street.Yards.Where(y => y.Mix is not null)
            .SelectMany(y => y.Mix!.Taxa.Select(t => t.Taxon.ScientificName))).Bees);
        street.Bees.ShouldBeLessThanOrEqualTo(street.BeesBound);
        street.Gap.ShouldBeInRange(0, 0.15);
    }

    [Fact]
    public void It_can_be_stopped_and_too_little_money_leaves_yards_out()
    {
        using var stop = new CancellationTokenSource();
        Should.Throw<OperationCanceledException>(() => StreetPlan.Of(Yards, null, QuarryFlora.Around, QuarryFlora.Prices,
            new Listener([], stop.Cancel), stop.Token));
        var poor = StreetPlan.Of(Yards[..2], 60, QuarryFlora.Around, QuarryFlora.Prices);
        poor.Cost.ShouldBeLessThanOrEqualTo(60);
        poor.Yards.ShouldContain(y => y.Mix == null);
    }

    private sealed class Listener(List<StreetProgress> seen, Action? then = null) : IProgress<StreetProgress>
    {
        public void Report(StreetProgress value)
        {
            lock (seen) seen.Add(value);
            then?.Invoke();
        }
    }
}
