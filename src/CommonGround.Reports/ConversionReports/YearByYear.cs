using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Year by year what to do, in full, and what failure looks like.</summary>
internal static class YearByYear
{
    public static IReadOnlyList<Flow> Flows(ConversionReport report, Typesetter set, double width)
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
