using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>How much work, what more or less money would buy, and year by year what to do.</summary>
internal static class WorkAndYears
{
    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var half = (width - Columns.Gap) / 2;
        var curve = TradeOff(report, words, set, half);
        IReadOnlyList<Flow> work = curve.Count > 0
            ? [Columns.Lay(Hours(report, words, set, half), half, curve) with { SpaceBefore = 24 }]
            : Hours(report, words, set, width);
        return [.. work, .. Years(report, set, width)];
    }

    private static IReadOnlyList<Flow> Hours(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var work = report.Plan.Work;
        var sums = work.Years.Select(y => y.Sum()).ToList();
        return
        [
            Prose.H2(set, width, sums.Count == 0 ? "Hours of work"
                : $"Hours: {PlanWording.Hours(sums[0])} in the first year, {PlanWording.Hours(sums[^1])} later"),
            Prose.Small(set,
                width, $"Your own work by month, a guess from common practice; the first two years vary most. Mowing the same ground "
                    + $"takes about {PlanWording.Hours(work.LawnHoursYear.Mid)} hours a year "
                    + $"({PlanWording.Hours(work.LawnHoursYear.Low)}–{PlanWording.Hours(work.LawnHoursYear.High)}) and burns "
                    + $"{words.Fuel(work.FuelLitresYear)} of petrol.", keepWithNext: true),
            Picture.Of(HoursChart.Draw(work, Picture.DesignWidth(width)), width),
        ];
    }

    private static IReadOnlyList<Flow> TradeOff(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var plan = report.Plan;
        if (report.NoPrices || plan.TradeOffs.Count < 2)
        {
            return [];
        }

        var stops = plan.TradeOffs.Select(t => new TradeOffChart.Stop(t.Cost, t.CoveredHalves, t.Support, t.Taxa)).ToList();
        var chosen = new TradeOffChart.Stop(plan.Mix.Cost, plan.Mix.Quality.CoveredHalves, plan.Mix.Quality.Support, plan.Mix.Taxa.Count);
        return
        [
            Prose.H2(set, width, "What more or less money buys"),
            Prose.Small(set,
                width, $"{words.Prices()}Seed and plants only. Open stops: the best mix at that cost, this planting alone; filled: this "
                    + $"plan.", keepWithNext: true),
            Picture.Of(TradeOffChart.Draw(stops, chosen, report.Currency, Picture.DesignWidth(width)), width),
        ];
    }

    private static IReadOnlyList<Flow> Years(ConversionReport report, Typesetter set, double width)
    {
        var steps = report.Plan.Calendar.OrderBy(s => s.Year).ToList();
        if (steps.Count == 0)
        {
            return [];
        }

        var rows = new List<Row>();
        foreach (var year in steps.GroupBy(s => s.Year))
        {
            rows.Add(new Row([Cell.Of(CalendarStep.YearWords(year.Key), Faces.DataStrong)]));
            rows.AddRange(year.Select(s => new Row([
                new Cell([new Run(MonthsChart.Words(s.FromMonth, s.ToMonth), Faces.Data)], MonthsChart.Draw(s.FromMonth, s.ToMonth)),
                Cell.Of(s.Do),
                Cell.Of(s.Expect.Length > 0 ? s.Expect : Wording.Undefined),
                Cell.Of(s.Caution.Length > 0 ? s.Caution : Wording.Undefined, s.Caution.Length > 0 ? Faces.DataStrong : Faces.Data),
            ])));
        }

        return
        [
            Prose.Section(set, width, "Year by year, step by step"),
            Prose.Small(set, width,
                "The first summer looks like weeds: the roots are at work. Months are for an ordinary year; the ground and the weather "
                    + "decide. – nothing to add.", keepWithNext: true),
            new Table([new("When", 18), new("Do", 48), new("What to expect", 28), new("Caution", 42)], rows,
                new TableSpacing(10.75, 1.4)).Lay(set, width) with { SpaceBefore = 4 },
            Prose.H2(set, width, "What failure looks like, and what helps"),
            new Table([new("What you see", 46), new("What helps", 90)],
                [.. Setbacks.Of(report.Plan.Mix, report.Units == Units.UsCustomary)
                    .Select(s => new Row([Cell.Of(s.Looks, Faces.DataStrong), Cell.Of(s.Remedy)]))], TableSpacing.Close).Lay(set,
                    width) with
            { SpaceBefore = 4 },
        ];
    }
}
