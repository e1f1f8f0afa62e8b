using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>The first page: the answer, the yard's own sketch, and its year before and after.</summary>
internal static class Cover
{
    private const double CodeWidth = 92, CodeColumn = 112;

    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, Sheet sheet)
    {
        var width = sheet.TextWidth;
        var answer = new PlanAnswer(report, words);
        List<Flow> top =
        [
            Prose.H1(set, width, answer.Headline()),
            Prose.Lead(set, width, answer.Lead()),
            KeyFigures.Lay(set, width, answer.Figures()),
            Prose.H2(set, width, "The ground to plant, from above"),
        ];
        IReadOnlyList<Flow> season =
        [
            Prose.H2(set, width, "The yard’s year, today and grown in") with { SpaceBefore = 14 },
            Prose.Small(set,
                width, $"Native species in flower in each half-month. Filled stop: {Wording.Count(report.Plan.Request.Season.Norm)} or "
                    + $"more; open: a gap.", keepWithNext: true),
            Picture.Of(Year(report, width), width) with { SpaceBefore = 4 },
        ];
        // The sketch takes what the page has left.
        var room = sheet.TextHeight - Tall(top) - Tall(season) - 12;
        return [.. top, Sketched(report, set, width, Math.Clamp(room / Picture.Scale, 205, 400)), .. season];
    }

    private static double Tall(IReadOnlyList<Flow> flows) => flows.Sum(f => f.SpaceBefore + f.Height);

    private static Flow Sketched(ConversionReport report, Typesetter set, double width, double height)
    {
        var sketch = new Sketch(report.Plan.Request.Areas, report.YardSquareMetres, report.YardOutline, report.Street);
        var left = report.PlanAddress.Length > 0 ? width - CodeColumn - Columns.Gap : width;
        var chart = SketchChart.Draw($"Sketch of yard {report.YardCode}", sketch, report.Units == Units.UsCustomary,
            Picture.DesignWidth(left), height);
        var drawn = Picture.Of(chart, left);
        if (report.PlanAddress.Length == 0)
        {
            return drawn;
        }

        IReadOnlyList<Flow> code =
        [
            Picture.Of(QrChart.Draw(report.PlanAddress, $"the page of the plan for yard {report.YardCode}"), CodeWidth),
            Prose.Small(set, CodeColumn, "This plan on screen, to change and print again:"),
            Prose.Small(set, CodeColumn, Broken(set, report.PlanAddress)),
        ];
        return Columns.Lay([drawn], left, code);
    }

    /// <summary>An address breaks after its slashes, not inside a word; the code itself holds it whole.</summary>
    private static string Broken(Typesetter set, string address)
    {
        var text = new System.Text.StringBuilder();
        double x = 0;
        foreach (var part in address.Replace("https://", "", StringComparison.Ordinal).Split('/').Select((p, i) => i == 0 ? p : "/" + p))
        {
            var wide = set.Width(part, Faces.Small);
            if (x > 0 && x + wide > CodeColumn)
            {
                text.Append(' ');
                x = 0;
            }

            text.Append(part);
            x += wide;
        }

        return text.ToString();
    }

    private static Chart Year(ConversionReport report, double width)
    {
        var plan = report.Plan;
        List<(string, IReadOnlyList<int>)> lines = [("yard today", plan.Yard.Before), ("yard, grown in", plan.Yard.After)];
        if (plan.Street is { } street)
        {
            lines.Add(($"{street.Site}, with it", street.After));
        }

        return SeasonPairChart.Draw($"Yard {report.YardCode} today and with the plan grown in", lines, plan.Request.Season, null,
            Picture.DesignWidth(width));
    }
}
