using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>One page to hang up: month by month, the time before and the first three years, a box before each job.</summary>
internal static class HangingCalendar
{
    private const double CodeWidth = 62;
    private static readonly string[] s_months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

    public static IReadOnlyList<Flow> Flows(ConversionReport report, Typesetter set, Sheet sheet)
    {
        var steps = report.Plan.Calendar;
        if (steps.Count == 0) return [];
        var width = sheet.TextWidth;
        List<Flow> head =
        [
            Prose.Section(set, width, "To hang up: month by month") with { StartsPage = true },
            Prose.Small(set, width, "Each job stands in the month it begins in. Months are for an ordinary year; the ground and the "
                + "weather decide. How each is done: “Year by year, step by step”, further on.", keepWithNext: true),
        ];
        IReadOnlyList<Flow> foot = [Foot(report, set, width) with { SpaceBefore = 10 }];
        var table = Table(steps, report, padding: 1.5);
        var spare = sheet.TextHeight - head.Concat(foot).Sum(f => f.SpaceBefore + f.Height) - table.Lay(set, width).Height - 12;
        // Rows share what the page has left, so that there is room to write.
        var padding = 1.5 + Math.Clamp(spare / (2 * table.Rows.Count), 0, 9);
        return [.. head, Table(steps, report, padding).Lay(set, width) with { SpaceBefore = 4 }, .. foot];
    }

    private static Table Table(IReadOnlyList<CalendarStep> steps, ConversionReport report, double padding)
    {
        var work = report.Plan.Work.Years.Select(y => y.Sum()).ToList();
        string Hours(int year) => work.Count == 0 ? "" : $"{PlanWording.Hours(work[Math.Min(year, work.Count) - 1])} hours";
        var rows = Enumerable.Range(1, 12).Select(m => new Row([Cell.Of(s_months[m - 1], Faces.H3.At(11)),
            .. Enumerable.Range(0, 4).Select(y => Job([.. steps.Where(s => s.FromMonth == m && Column(s.Year) == y)]))]))
            .Append(new Row([Cell.Of(""), Cell.Of("counted in the first year", Faces.Small.At(8.5)),
                .. Enumerable.Range(1, 3).Select(y => Cell.Of(Hours(y), Faces.DataStrong))]));
        return new Table([new("", 9), new("The year before", 32), new("First year, 20__", 33), new("Second year", 31),
            new("Third year and after", 31)], [.. rows], new TableSpacing(10, padding));
    }

    /// <summary>Year 4 and after stands with the third.</summary>
    private static int Column(int year) => Math.Min(year, 3);

    private static Cell Job(IReadOnlyList<CalendarStep> steps)
    {
        var jobs = steps.Select(s => Words(s)).Where(w => w.Length > 0).Distinct(StringComparer.Ordinal).ToList();
        return jobs.Count == 0 ? new Cell([new Run("", Faces.Data)])
            : new Cell([.. jobs.Select(j => new Run(j, Faces.Data.At(8.5)))], Tick: true) { Apart = true };
    }

    private static string Words(CalendarStep step)
    {
        var words = step.Short.Length > 0 ? step.Short : step.Do.Split(['.', ':', ';'])[0];
        return Wording.Capital(words) + (step.ToMonth > step.FromMonth ? $" (to {s_months[step.ToMonth - 1]})" : "")
            + (step.Year == 4 ? ", from year 4" : "");
    }

    private static Flow Foot(ConversionReport report, Typesetter set, double width)
    {
        var left = width - CodeWidth - Columns.Gap;
        IReadOnlyList<Flow> lines = [Prose.Body(set, left, "Your organiser: ______________________    Telephone: ______________________"),
            Prose.Small(set, left, "Before any digging call 811 (in the United States; elsewhere the utility locating service)."
                + (report.PlanAddress.Length > 0 ? $" This plan on screen: {Broken(set, report.PlanAddress, left)}" : ""))];
        return report.PlanAddress.Length == 0 ? Columns.Lay(lines, left, [Prose.Small(set, CodeWidth, "")])
            : Columns.Lay(lines, left, [Picture.Of(QrChart.Draw(report.PlanAddress, $"the page of the plan for yard {report.YardCode}"),
                CodeWidth)]);
    }

    /// <summary>An address breaks after its slashes, not inside a word; the code itself holds it whole.</summary>
    private static string Broken(Typesetter set, string address, double width)
    {
        var text = new System.Text.StringBuilder();
        double x = 0;
        foreach (var part in address.Replace("https://", "", StringComparison.Ordinal).Split('/').Select((p, i) => i == 0 ? p : "/" + p))
        {
            var wide = set.Width(part, Faces.Small);
            if (x > 0 && x + wide > width)
            {
                text.Append(' ');
                x = 0;
            }

            text.Append(part);
            x += wide;
        }

        return text.ToString();
    }
}
