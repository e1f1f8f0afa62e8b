using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.Phenology;

public class HalfMonthTests
{
    [Theory(DisplayName = "Half-months partition every year, leap years included (Gregorian calendar)")]
    [InlineData(2023)]
    [InlineData(2024)]
    [InlineData(1900)]
    [InlineData(2000)]
    [InlineData(9999)]
    public void Half_months_partition_every_year(int year)
    {
        var days = 0;
        for (var t = 0; t < HalfMonth.Count; t++)
        {
            var (first, last) = (HalfMonth.FirstDay(t, year), HalfMonth.LastDay(t, year));
            if (t > 0)
            {
                first.ShouldBe(HalfMonth.LastDay(t - 1, year).AddDays(1));
            }

            for (var n = first.DayNumber; n <= last.DayNumber; n++)
            {
                HalfMonth.Of(DateOnly.FromDayNumber(n)).ShouldBe(t);
                days++;
            }
        }

        days.ShouldBe(DateTime.IsLeapYear(year) ? 366 : 365);
        HalfMonth.FirstDay(0, year).ShouldBe(new DateOnly(year, 1, 1));
        HalfMonth.LastDay(23, year).ShouldBe(new DateOnly(year, 12, 31));
    }

    [Fact]
    public void The_default_season_is_April_to_October_and_late_from_the_sixteenth_of_August()
    {
        HalfMonth.FirstDay(Season.Default.First, 2026).ShouldBe(new DateOnly(2026, 4, 1));
        HalfMonth.LastDay(Season.Default.Last, 2026).ShouldBe(new DateOnly(2026, 10, 31));
        HalfMonth.FirstDay(Season.Default.LateFrom, 2026).ShouldBe(new DateOnly(2026, 8, 16));
    }

    // Norm of at least three species in flower in each part of the season: USDA FSA/NRCS pollinator practice CP42, from memory (check
    // PO-008).
    [Fact(DisplayName = "The default norm is three taxa in flower (USDA CP42, from memory, check PO-008)")]
    public void The_default_norm_is_three_taxa() =>
        Season.Default.Norm.ShouldBe((int)CheckFile.Check("06_pollinator.json", "PO-008").Expected.Number("minPerPeriod"));

    [Fact]
    public void A_half_month_beyond_the_year_is_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => HalfMonth.FirstDay(24, 2026));
        Should.Throw<ArgumentOutOfRangeException>(() => HalfMonth.LastDay(-1, 2026));
        Should.Throw<ArgumentOutOfRangeException>(() => new BloomWindow(0, 24));
    }

    [Fact]
    public void A_window_that_wraps_past_December_holds_both_sides_and_moves_whole()
    {
        var winter = new BloomWindow(22, 1);
        Enumerable.Range(0, 24).Where(winter.Contains).ShouldBe([0, 1, 22, 23]);
        winter.Shifted(3).ShouldBe(new BloomWindow(1, 4));
        new BloomWindow(1, 4).Shifted(-3).ShouldBe(winter);
    }
}
