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
                foreach (var cover in Enum.GetValues<PresentCover>())
                {
                    ways.Add(start, method, cover);
                }
            }
        }

        return ways;
    }

    [Theory]
    [MemberData(nameof(Ways))]
    public void Every_way_to_start_has_steps_in_order_with_the_usual_cautions(StartSeason start, Method method, PresentCover cover)
    {
        var steps = ConversionCalendar.For(InventedFlora.Request() with
        {
            Start = start,
            Method = method,
            PresentCover = cover,
            SlopePercent = 20
        });
        // The ways to clear the ground are choices in an order of their own.
        steps.Where(s => !s.Do.StartsWith("Choice", StringComparison.Ordinal)).Select(s => (s.Year * 12) + s.FromMonth).ShouldBeInOrder();
        steps.Where(s => s.Do.StartsWith("Choice", StringComparison.Ordinal)).Select(s => s.Do.Split(',')[0])
            .ShouldBe(cover is PresentCover.BareSoil or PresentCover.Shrubs or PresentCover.FlowerBed ? []
            : ["Choice one", "Choice two", "Choice three"]);
        steps.ShouldAllBe(s => s.FromMonth >= 1 && s.FromMonth <= s.ToMonth && s.ToMonth <= 12 && s.Year >= 0 && s.Year <= 4);
        steps.Select(s => s.Year).Distinct().ShouldBe([0, 1, 2, 3, 4]);
        steps[0].Caution.ShouldContain("utility locating service");
        steps.Where(s => s.Do.Contains("herbicide", StringComparison.Ordinal))
            .ShouldAllBe(s => s.Caution.Contains("label", StringComparison.Ordinal)
            && s.Caution.Contains("licensed", StringComparison.Ordinal));
        steps.Single(s => s.Caution.Contains("Fire", StringComparison.Ordinal)).Caution.ShouldContain("permit, a trained crew");
        steps.Any(s => s.Do.Contains("sow half lengthwise", StringComparison.Ordinal)).ShouldBe(method != Method.Plugs);
        steps.Any(s => s.Do.StartsWith("Plant plugs", StringComparison.Ordinal)).ShouldBe(method != Method.Seed);
        steps.ShouldAllBe(s => !s.Do.Contains('[') && !s.Expect.Contains('['));
        steps.Any(s => s.Do.Contains("smother", StringComparison.Ordinal)).ShouldBe(cover is PresentCover.GoodTurf or PresentCover.ThinTurf
            or PresentCover.Weeds);
        if (method != Method.Plugs)
        {
            var cut = steps.Single(s => s.Do.Contains("cut it back to 15–20 cm, every three to four weeks", StringComparison.Ordinal));
            cut.Do.ShouldContain("30 cm");
            cut.Expect.ShouldStartWith("Year one looks like weeds.");
        }
    }

    [Fact]
    public void Seed_and_plugs_go_in_when_the_start_says()
    {
        (int, int) When(StartSeason start, string what) => ConversionCalendar.For(InventedFlora.Request() with { Start = start })
            .Where(s => s.Do.Contains(what, StringComparison.Ordinal)).Select(s => (s.Year, s.FromMonth)).First();
        When(StartSeason.DormantSowing, "sow half").ShouldBe((0, 11));
        When(StartSeason.Spring, "sow half").ShouldBe((1, 5));
        When(StartSeason.EarlyAutumn, "Plant plugs").ShouldBe((0, 9));
        When(StartSeason.Spring, "Plant plugs").ShouldBe((1, 5));
    }

    [Fact]
    public void Measures_come_in_the_readers_units_and_no_other()
    {
        var request = InventedFlora.Request();
        ConversionCalendar.For(request, customary: true).ShouldAllBe(s => !s.Do.Contains(" cm", StringComparison.Ordinal)
            && !s.Do.Contains(" mm", StringComparison.Ordinal) && !s.Do.Contains("square metre", StringComparison.Ordinal));
        ConversionCalendar.For(request).ShouldAllBe(s => !s.Do.Contains(" in]", StringComparison.Ordinal)
            && !s.Do.Contains("square f", StringComparison.Ordinal) && !s.Do.Contains("ounce", StringComparison.Ordinal));
    }

    [Fact]
    public void Hard_weeds_take_two_seasons_and_a_spring_sowing_chills_its_seed()
    {
        ConversionCalendar.For(InventedFlora.Request() with { PresentCover = PresentCover.Weeds })
            .ShouldContain(s => s.Do.Contains("two whole seasons", StringComparison.Ordinal));
        var request = QuarryFlora.Request(132) with { Start = StartSeason.Spring };
        var mix = ConversionPlanner.Solve(request, QuarryFlora.Around, QuarryFlora.Prices, Effort.Quick).Mix.ShouldNotBeNull();
        var care = ConversionCalendar.For(request, mix).Single(s => s.Do.StartsWith("Seed that wants something first",
            StringComparison.Ordinal)).Do;
        care.ShouldContain("60 days");
        care.ShouldContain("inoculant");
        var legume = mix.Taxa.First(t => t.Traits.Role == Ecology.Taxa.MixRole.Legume && t.SeedsPerSquareMetre > 0);
        care.ShouldContain(legume.Taxon.DisplayName);
        // The winter chills what is sown before it.
        SeedCare.Of(mix.Taxa, StartSeason.DormantSowing).ShouldAllBe(n => !n.What.StartsWith("chill", StringComparison.Ordinal));
        Setbacks.Of(mix, customary: true).ShouldContain(s => s.Remedy.Contains("6 in", StringComparison.Ordinal));
    }
}
