using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

public class ConversionCalendarTests
{
    public static TheoryData<StartSeason, Method, PresentCover> Ways()
    {
        var ways = new TheoryData<StartSeason, Method, PresentCover>();
        foreach (var start in Enum.GetValues<StartSeason>())
        {
            foreach (var method in Enum.GetValues<Method>())
            {
                ways.Add(start, method, PresentCover.GoodTurf);
                ways.Add(start, method, PresentCover.BareSoil);
                ways.Add(start, method, PresentCover.Shrubs);
            }
        }

        return ways;
    }

    [Theory]
    [MemberData(nameof(Ways))]
    public void Every_way_to_start_has_steps_in_order_with_the_usual_cautions(StartSeason start, Method method, PresentCover cover)
    {
        var steps = ConversionCalendar.For(InventedFlora.Request() with { Start = start, Method = method, PresentCover = cover, SlopePercent = 20 });
        // The ways to clear the ground are choices in an order of their own.
        steps.Where(s => !s.Do.StartsWith("Choice", StringComparison.Ordinal)).Select(s => (s.Year * 12) + s.FromMonth).ShouldBeInOrder();
        steps.Where(s => s.Do.StartsWith("Choice", StringComparison.Ordinal)).Select(s => s.Do.Split(',')[0]).ShouldBe(cover == PresentCover.BareSoil ? [] : ["Choice one", "Choice two", "Choice three"]);
        steps.ShouldAllBe(s => s.FromMonth >= 1 && s.FromMonth <= s.ToMonth && s.ToMonth <= 12 && s.Year >= 0 && s.Year <= 3);
        steps.Select(s => s.Year).Distinct().ShouldBe([0, 1, 2, 3]);
        steps[0].Caution.ShouldContain("utility locating service");
        steps.Where(s => s.Do.Contains("herbicide", StringComparison.Ordinal)).ShouldAllBe(s => s.Caution.Contains("label", StringComparison.Ordinal) && s.Caution.Contains("licensed", StringComparison.Ordinal));
        steps.Single(s => s.Caution.Contains("Fire", StringComparison.Ordinal)).Caution.ShouldContain("permit, a trained crew");
        steps.Any(s => s.Do.Contains("sow half lengthwise", StringComparison.Ordinal)).ShouldBe(method != Method.Plugs);
        steps.Any(s => s.Do.StartsWith("Plant plugs", StringComparison.Ordinal)).ShouldBe(method != Method.Seed);
        steps.Any(s => s.Do.Contains("smother", StringComparison.Ordinal)).ShouldBe(cover != PresentCover.BareSoil);
        if (method != Method.Plugs)
        {
            var cut = steps.Single(s => s.Do.Contains("10–15 cm; about three times", StringComparison.Ordinal));
            cut.Do.ShouldContain("20–30 cm");
            cut.Expect.ShouldStartWith("Year one looks like weeds.");
        }
    }

    [Fact]
    public void Seed_and_plugs_go_in_when_the_start_says()
    {
        (int, int) When(StartSeason start, string what) => ConversionCalendar.For(InventedFlora.Request() with { Start = start })
            .Where(s => s.Do.Contains(what, StringComparison.Ordinal)).Select(s => (s.Year, s.FromMonth)).First();
        When(StartSeason.DormantSowing, "sow half").ShouldBe((0, 11));
        When(StartSeason.Spring, "sow half").ShouldBe((1, 4));
        When(StartSeason.EarlyAutumn, "Plant plugs").ShouldBe((0, 9));
        When(StartSeason.Spring, "Plant plugs").ShouldBe((1, 5));
    }
}
