using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>The first page: the answer, the planting in four seasons, the yard's own photo, three figures, and its year before and
/// after.</summary>
internal static class Cover
{
    private const double PhotoWide = 150, PhotoHigh = 100;

    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, Sheet sheet)
    {
        var width = sheet.TextWidth;
        var answer = new PlanAnswer(report, words);
        List<Flow> top = [Prose.H1(set, width, answer.Headline()), .. Answer(report, set, width, answer)];
        List<Flow> rest =
        [
            KeyFigures.Lay(set, width, answer.Figures()),
            Prose.H2(set, width, "Your yard’s year, today and grown in") with { SpaceBefore = 14 },
            Prose.Small(set,
                width, $"Native kinds in flower in each half of a month. Filled: {Wording.Count(report.Plan.Request.Season.Norm)} or "
                    + $"more; open: fewer, a gap for bees.", keepWithNext: true),
            Picture.Of(Year(report, width), width) with { SpaceBefore = 4 },
        ];
        List<Flow> flows = [.. top, .. ComingYears.Flows(report, set, width, sheet.TextHeight - Tall(top) - Tall(rest) - 4), .. rest];
        // What the page has left shows the ground from above.
        var room = sheet.TextHeight - Tall(flows) - 56;
        if (room > 105)
        {
            flows.Add(Prose.H2(set, width, "The ground to plant, from above") with { SpaceBefore = 14 });
            flows.Add(Picture.Of(Sketched(report, width, Math.Min(room / Picture.Scale, 420)), width));
        }

        return flows;
    }

    private static double Tall(IEnumerable<Flow> flows) => flows.Sum(f => f.SpaceBefore + f.Height);

    /// <summary>The yard from above, with its areas.</summary>
    public static Chart Sketched(ConversionReport report, double width, double height) =>
        SketchChart.Draw($"Sketch of yard {report.YardCode}", new Sketch(report.Plan.Request.Areas, report.YardSquareMetres,
            report.YardOutline, report.Street), report.Units == Units.UsCustomary, Picture.DesignWidth(width), height);

    private static IReadOnlyList<Flow> Answer(ConversionReport report, Typesetter set, double width, PlanAnswer answer)
    {
        if (report.Photo is { } photo)
        {
            var caption = photo.Caption.Length > 0 ? $"{photo.Caption} Your yard on {Wording.Date(photo.TakenOn)}."
                : $"Your yard on {Wording.Date(photo.TakenOn)}.";
            var left = width - PhotoWide - Columns.Gap;
            if (Photograph.Of(set, PhotoWide, PhotoHigh, photo.Jpeg, caption) is { } shown)
            {
                return [Columns.Lay([Prose.Lead(set, left, answer.Lead())], left, shown)];
            }
        }

        return [Prose.Lead(set, width, answer.Lead())];
    }

    private static Chart Year(ConversionReport report, double width)
    {
        var plan = report.Plan;
        return SeasonPairChart.Draw($"Yard {report.YardCode} today and with the plan grown in",
            [("your yard today", plan.Yard.Before), ("once grown in", plan.Yard.After)], plan.Request.Season, null,
            Picture.DesignWidth(width));
    }
}
