using CommonGround.Ecology.Taxa;
using CommonGround.Ecology.Water;
using CommonGround.Planning.Water;

namespace CommonGround.Planning.Tests.Water;

public class WaterComparisonsTests
{
    private const double Latitude = 38.63;

    [Fact(DisplayName = "July by hand: 31 days of FAO-56 check ET-012 (5.5294 mm on July 15 at 38.63° N) less what 62 mm of rain leaves")]
    public void July_is_what_the_hand_finds()
    {
        var water = WaterComparisons.Of(Ground.Request(), Latitude, Ground.Year(21.5, 32)).Comparison.ShouldNotBeNull();
        // Over July ET₀ changes little and bends down: the month is within 2 % of 31 times its middle day.
        var rain = 62 * (125 - (0.2 * 62)) / 125; // 55.85 mm
        var reference = 31 * 5.5294;
        water.LawnByMonth[6].ShouldBe(100 * ((0.8 * reference) - rain), 0.02 * 100 * 0.8 * reference);
        water.PlantingByMonth[6].ShouldBe(100 * Math.Max(0, (0.3 * reference) - rain), 0.02 * 100 * 0.3 * reference);
        water.RainMillimetres.ShouldBe(730, 1e-9);
        water.Method.ShouldBe("Hargreaves");
        water.Assumptions.ShouldContain(a => a.Contains("January 1, 2025 to December 31, 2025", StringComparison.Ordinal));
    }

    [Fact]
    public void The_months_add_up_to_the_year_and_the_range_holds_the_middle()
    {
        var water = WaterComparisons.Of(Ground.Request(), Latitude, Ground.Year()).Comparison.ShouldNotBeNull();
        water.LawnByMonth.Count.ShouldBe(12);
        water.LawnByMonth.Sum().ShouldBe(water.LawnLitres.Mid, 1e-6);
        water.PlantingByMonth.Sum().ShouldBe(water.PlantingLitres.Mid, 1e-6);
        foreach (var spread in new[] { water.LawnLitres, water.PlantingLitres })
        {
            (spread.Low <= spread.Mid && spread.Mid <= spread.High).ShouldBeTrue();
        }

        water.PlantingLitres.Mid.ShouldBeLessThan(water.LawnLitres.Mid);
    }

    [Fact]
    public void Twice_the_ground_asks_for_twice_the_water_and_shade_for_less()
    {
        var year = Ground.Year();
        var one = WaterComparisons.Of(Ground.Request(100), Latitude, year).Comparison!;
        var two = WaterComparisons.Of(Ground.Request(200), Latitude, year).Comparison!;
        var shade = WaterComparisons.Of(Ground.Request(light: Light.Shade), Latitude, year).Comparison!;
        two.LawnLitres.Mid.ShouldBe(2 * one.LawnLitres.Mid, 1e-6);
        shade.LawnLitres.Mid.ShouldBeLessThan(one.LawnLitres.Mid);
        shade.Assumptions.ShouldContain(a => a.Contains("0.6 for shade", StringComparison.Ordinal));
        one.Assumptions.ShouldNotContain(a => a.Contains("for shade", StringComparison.Ordinal));
    }

    [Fact]
    public void Months_too_cold_to_grow_need_no_water()
    {
        var water = WaterComparisons.Of(Ground.Request(), Latitude,
            Ground.Year(rain: 0, change: d => d.Date.Month is 12 or 1 or 2 ? d with { TminC = -5, TmaxC = 10 } : d)).Comparison!;
        foreach (var month in new[] { 11, 0, 1 })
        {
            water.LawnByMonth[month].ShouldBe(0);
        }

        water.LawnByMonth[2].ShouldBeGreaterThan(0);
    }

    [Fact]
    public void Fewer_than_330_days_of_temperatures_give_no_figure_but_say_how_many_there_are()
    {
        var answer = WaterComparisons.Of(Ground.Request(), Latitude, Ground.Year(change: d => d.Date.Day <= 26 || d.Date.Month == 12 ? d
            : d with { TmaxC = null }));
        answer.Comparison.ShouldBeNull();
        var known = Enumerable.Range(0, 365).Select(i => new DateOnly(2025, 1, 1).AddDays(i)).Count(d => d.Day <= 26 || d.Month == 12);
        answer.Problems.ShouldHaveSingleItem()
            .ShouldBe($"The weather has temperatures for {known} days of its last year; a year’s water needs at least 330.");
        WaterComparisons.Of(Ground.Request(), Latitude, []).Problems.ShouldNotBeEmpty();
    }

    [Fact]
    public void A_few_missing_days_are_filled_from_their_month_and_said_so()
    {
        var whole = WaterComparisons.Of(Ground.Request(), Latitude, Ground.Year()).Comparison!;
        var gaps = WaterComparisons.Of(Ground.Request(), Latitude, Ground.Year(change: d => d.Date is { Month: 7, Day: > 10 and <= 17 }
            ? null : d)).Comparison!;
        gaps.RainMillimetres.ShouldBe(whole.RainMillimetres, 1e-9);
        gaps.ReferenceMillimetres.ShouldBe(whole.ReferenceMillimetres, 0.5);
        gaps.Assumptions.ShouldContain("7 days without temperatures were given the mean of the month’s other days.");
        whole.Assumptions.ShouldNotContain(a => a.Contains("without temperatures", StringComparison.Ordinal));
    }

    [Fact]
    public void A_month_with_hardly_a_day_is_not_guessed()
    {
        var answer = WaterComparisons.Of(Ground.Request(), Latitude, Ground.Year(change: d => d.Date is { Month: 7, Day: > 5 } ? null : d));
        answer.Comparison.ShouldBeNull();
        answer.Problems.ShouldContain("The weather has temperatures for only 5 days of July; 15 are needed to fill the rest of it.");
    }

    [Theory]
    [InlineData(54, 75)] // every day of the year 54–75 °F: a mean above 35
    [InlineData(20, 97)]
    public void Fahrenheit_is_not_taken_for_Celsius(double tmin, double tmax)
    {
        var answer = WaterComparisons.Of(Ground.Request(), Latitude, Ground.Year(tmin, tmax));
        answer.Comparison.ShouldBeNull();
        answer.Problems.ShouldHaveSingleItem().ShouldContain("look like degrees Fahrenheit");
    }

    [Fact]
    public void One_day_above_60_degrees_is_enough_to_doubt_the_unit()
    {
        var answer = WaterComparisons.Of(Ground.Request(), Latitude,
            Ground.Year(change: d => d.Date == new DateOnly(2025, 7, 4) ? d with { TmaxC = 95 } : d));
        answer.Problems.ShouldHaveSingleItem()
            .ShouldStartWith("These temperatures look like degrees Fahrenheit: July 4, 2025 has a highest of 95.");
    }

    [Fact]
    public void A_year_of_50_degrees_mean_is_refused_even_where_no_day_passes_60()
    {
        WaterComparisons.Of(Ground.Request(), Latitude, Ground.Year(40, 58)).Problems.ShouldHaveSingleItem().ShouldContain("Fahrenheit");
        WaterComparisons.Of(Ground.Request(), Latitude, Ground.Year(20, 40)).Problems.ShouldBeEmpty();
    }

    [Fact]
    public void Days_that_cannot_be_are_named()
    {
        var turned = Ground.Year(change: d => d.Date == new DateOnly(2025, 5, 3) ? d with { TminC = 30 } : d);
        WaterComparisons.Of(Ground.Request(), Latitude, turned).Problems.ShouldHaveSingleItem()
            .ShouldStartWith("On May 3, 2025 the lowest");
        var flood = Ground.Year(change: d => d.Date == new DateOnly(2025, 5, 3) ? d with { RainMm = -2 } : d);
        WaterComparisons.Of(Ground.Request(), Latitude, flood).Problems.ShouldHaveSingleItem()
            .ShouldStartWith("The rain of May 3, 2025 is -2 mm");
        WaterComparisons.Of(Ground.Request(), 70, Ground.Year()).Problems.ShouldHaveSingleItem().ShouldContain("latitude");
    }

    [Fact]
    public void The_order_of_days_is_irrelevant_the_last_year_counts_and_a_later_entry_of_a_day_holds()
    {
        var year = Ground.Year();
        var expected = WaterComparisons.Of(Ground.Request(), Latitude, year).Comparison!;
        IReadOnlyList<DailyWeather> messy = [.. Ground.Year(25, 35).Select(d => d with { Date = d.Date.AddYears(-1) }),
            new(new DateOnly(2025, 7, 1), 30, 45, 80), .. year.Reverse()];
        WaterComparisons.Of(Ground.Request(), Latitude, messy).Comparison!.LawnLitres.ShouldBe(expected.LawnLitres);
    }

    [Fact]
    public void A_full_station_and_an_altitude_give_Penman_Monteith()
    {
        var year = Ground.Year(change: d => d with
        {
            HumidityMinPercent = 50,
            HumidityMaxPercent = 85,
            WindMetresPerSecond = 2,
            SunshineHours = 6
        });
        var full = WaterComparisons.Of(Ground.Request(), Latitude, year, 150).Comparison!;
        full.Method.ShouldBe("Penman–Monteith");
        var july = Enumerable.Range(182, 31).Sum(j => ReferenceEvapotranspiration.PenmanMonteith(new StationDay(12, 24, 50, 85, 2, 6),
            Latitude, 150, j));
        full.LawnByMonth[6].ShouldBe(100 * ((0.8 * july) - LandscapeWater.EffectiveRain(62)), 1e-6);
        WaterComparisons.Of(Ground.Request(), Latitude, year).Comparison!.Method.ShouldBe("Hargreaves");
    }
}
