using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;

namespace CommonGround.Reports.YardReports;

/// <summary>The first page: the answer, its figures, and the bloom strip that proves it.</summary>
internal static class Summary
{
    // Height of a row of the strip, chart pixels.
    private const double Row = 18;
    private const double Closest = 16.5;

    public static IReadOnlyList<Flow> Flows(YardReport report, Typesetter set, Sheet sheet, int now)
    {
        var width = sheet.TextWidth;
        var answer = new Answer(report);
        List<Flow> flows =
        [
            Prose.H1(set, width, answer.Headline()),
            Prose.Lead(set, width, answer.Lead()),
            KeyFigures.Lay(set, width, answer.Figures()),
        ];
        var lines = Lines(report);
        if (lines.Count == 0)
        {
            // An empty strip says no more than the season line further down.
            return flows;
        }

        flows.Add(Prose.H2(set, width, "The year in this yard"));
        // The strip takes what the page has left: closer rows first, then the plants that cover most.
        var caption = Prose.Small(set, width, Caption(lines.Count, lines.Count + 1, report.Units), keepWithNext: true);
        var room = (sheet.TextHeight - flows.Sum(f => f.SpaceBefore + f.Height) - caption.SpaceBefore - caption.Height - 8) / Picture.Scale;
        room -= Strip(report, [], width, Row, now).Height;
        var row = Math.Clamp(room / lines.Count, Closest, Row);
        var shown = lines.Count * row <= room ? lines : [.. lines.OrderByDescending(l => l.AreaSquareMetres).ThenBy(l => l.Latin,
            StringComparer.Ordinal).Take(Math.Max((int)(room / row), 8))];
        flows.Add(Prose.Small(set, width, Caption(shown.Count, lines.Count, report.Units), keepWithNext: true));
        flows.Add(Picture.Of(Strip(report, shown, width, row, now), width));
        return flows;
    }

    private static Chart Strip(YardReport report, IReadOnlyList<BloomLine> lines, double width, double row, int now) =>
        BloomStripChart.Draw(
        $"Bloom strip of yard {report.YardCode}", lines, Wording.InFlower(report.Measures.Bloom),
            Wording.InFlower(report.Measures.BloomWithoutTentative),
        report.Season, now, Picture.DesignWidth(width), new BloomStripLook(row, 0.37, Wording.AreaUnit(report.Units),
            Wording.SquareMetresPerUnit(report.Units)));

    /// <summary>One line a taxon, its beds together; tentative when every record of it is.</summary>
    private static IReadOnlyList<BloomLine> Lines(YardReport report) =>
        [.. report.Beds.SelectMany(b => b.Plantings).GroupBy(p => p.Taxon.ScientificName).Select(g =>
        {
            var taxon = g.First().Taxon;
            return new BloomLine(taxon.DisplayName, taxon.ScientificName, taxon.Bloom, Wording.NoWindow(taxon), taxon.FlowerColour,
                g.Sum(p => p.CoverSquareMetres), g.All(p => p.Certainty == Certainty.Tentative));
        })];

    private static string Caption(int shown, int all, Units units)
    {
        var unit = units == Units.Metric ? "under 1, 1–3 and over 3 m²" : "under 11, 11–32 and over 32 ft²";
        var which = shown < all ? $"The {shown} plants that cover most, of {all}; the bars count all. " : "";
        return $"{which}Lines have the flower’s colour and are thicker for more ground ({unit}); dashed is tentative. Filled stop: enough "
            + $"in flower; open: a gap. Darker column: now.";
    }
}
