using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Planning.Water;

namespace CommonGround.Planning.Tests.Water;

public class RunoffComparisonsTests
{
    [Fact(DisplayName = "Good lawn on soil C is 74, meadow 71, and a three-inch rain sheds 0.908 in of it (TR-55, table 2-2 and eq. 2-3; "
        + "checks RO-A03, RO-C01 and RO-003)")]
    public void Lawn_and_meadow_take_the_published_numbers()
    {
        var runoff = RunoffComparisons.Of(Ground.Request(), []);
        runoff.CurveBefore.ShouldBe(new Spread(74, 74, 79));
        runoff.CurveAfter.ShouldBe(new Spread(65, 71, 74));
        var storm = runoff.Storms.Single(s => s.Name == "a three-inch rain");
        storm.RainMillimetres.ShouldBe(76.2);
        (storm.BeforeMillimetres.Mid / 25.4).ShouldBe(0.908234, 1e-5);
        storm.AfterMillimetres.Mid.ShouldBeLessThan(storm.BeforeMillimetres.Mid);
        runoff.Storms.Select(s => s.RainMillimetres).ShouldBe([25.4, 50.8, 76.2, 101.6]);
        runoff.Assumptions.ShouldContain(a => a.Contains("soil group C", StringComparison.Ordinal)
            && a.Contains("71 (65–74)", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(PresentCover.ThinTurf, 69)]
    [InlineData(PresentCover.Weeds, 69)]
    [InlineData(PresentCover.BareSoil, 86)]
    [InlineData(PresentCover.Shrubs, 56)]
    public void Present_cover_decides_the_number_before(PresentCover cover, double curve) =>
        RunoffComparisons.Of(Ground.Request(cover: cover, soil: SoilGroup.B), []).CurveBefore.Mid.ShouldBe(curve);

    [Fact]
    public void Good_cover_sheds_least_and_poor_most_on_every_soil()
    {
        foreach (var soil in Enum.GetValues<SoilGroup>())
        {
            foreach (var cover in Enum.GetValues<PresentCover>())
            {
                var runoff = RunoffComparisons.Of(Ground.Request(cover: cover, soil: soil), Ground.Year(rain: 40));
                foreach (var spread in runoff.Storms.SelectMany(s => new[] { s.BeforeMillimetres, s.AfterMillimetres })
                    .Concat([runoff.CurveBefore, runoff.CurveAfter, runoff.YearBeforeLitres!.Value, runoff.YearAfterLitres!.Value]))
                {
                    (spread.Low <= spread.Mid && spread.Mid <= spread.High).ShouldBeTrue($"{cover} on {soil}: {spread}");
                }
            }
        }
    }

    [Fact(DisplayName = "A year by hand: ten days of three inches on 100 m² of lawn, soil C, shed 10 × 0.908234 in × 25.4 × 100 litres")]
    public void A_year_adds_its_days()
    {
        var days = Ground.Year(change: d => d with { RainMm = d.Date.Day == 1 && d.Date.Month <= 10 ? 76.2 : 0 });
        var runoff = RunoffComparisons.Of(Ground.Request(), days);
        runoff.YearBeforeLitres!.Value.Mid.ShouldBe(10 * 0.908234 * 25.4 * 100, 1);
        runoff.YearAfterLitres!.Value.Mid.ShouldBeLessThan(runoff.YearBeforeLitres.Value.Mid);
        // 345 of 365 days known: the year is scaled up by what is missing.
        var fewer = RunoffComparisons.Of(Ground.Request(), [.. days.Where(d => d.Date.Month != 11 || d.Date.Day > 20)]);
        fewer.YearBeforeLitres!.Value.Mid.ShouldBe(10 * 0.908234 * 25.4 * 100 * 365 / 345, 1);
        fewer.Assumptions.ShouldContain("20 days without a figure were taken as like the others.");
    }

    [Fact]
    public void Too_few_days_of_rain_give_storms_but_no_year()
    {
        var runoff = RunoffComparisons.Of(Ground.Request(), Ground.Year(change: d => d.Date.Month < 11 ? d : null));
        runoff.YearBeforeLitres.ShouldBeNull();
        runoff.YearAfterLitres.ShouldBeNull();
        runoff.Assumptions.ShouldContain("No year’s runoff: it needs 330 days of rain records, and there are 304 that can be used.");
    }

    [Fact]
    public void A_steep_yard_is_told_that_the_tables_are_for_gentle_slopes()
    {
        RunoffComparisons.Of(Ground.Request() with { SlopePercent = 12 },
            []).Assumptions.ShouldContain(a => a.Contains("at 12 %", StringComparison.Ordinal));
        RunoffComparisons.Of(Ground.Request() with { SlopePercent = 2 },
            []).Assumptions.ShouldNotContain(a => a.Contains("slopes", StringComparison.Ordinal));
    }
}
