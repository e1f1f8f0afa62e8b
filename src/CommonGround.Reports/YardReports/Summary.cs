using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;

namespace CommonGround.Reports.YardReports;

/// <summary>The first page: the answer, its figures, and the bloom strip that proves it.</summary>
internal static class Summary
{
    // Chart pixels: a row of the strip, and what the strip needs around its rows at most.
    private const double Row = 18;
    private const double Around = 172;

    public static IReadOnlyList<Flow> Flows(YardReport report, Typesetter set, Sheet sheet, int now)
    {
        var width = sheet.TextWidth;
        var answer = new Answer(report);
        List<Flow> flows =
        [
            Prose.H1(set, width, answer.Headline()),
            Prose.Lead(set, width, answer.Lead()),
            KeyFigures.Lay(set, width, answer.Figures()),
            Prose.H2(set, width, "The year in this yard"),
        ];

        var lines = Lines(report);
        var words = Prose.Small(set, width, Caption(lines.Count, lines.Count, report.Units), keepWithNext: true);
        var used = flows.Sum(f => f.SpaceBefore + f.Height) + words.Height + 13 + 20;
        var room = (int)((((sheet.TextHeight - used) / Picture.Scale) - Around) / Row);
        var shown = lines.Count <= room ? lines : [.. lines.OrderByDescending(l => l.AreaSquareMetres).ThenBy(l => l.Latin, StringComparer.Ordinal).Take(Math.Max(room, 8))];
        flows.Add(Prose.Small(set, width, Caption(shown.Count, lines.Count, report.Units), keepWithNext: true));
        var look = new BloomStripLook(Row, 0.36, Wording.AreaUnit(report.Units), Wording.SquareMetresPerUnit(report.Units));
        flows.Add(Picture.Of(BloomStripChart.Draw(
            $"Bloom strip of yard {report.YardCode}", shown, Wording.InFlower(report.Measures.Bloom), Wording.InFlower(report.Measures.BloomWithoutTentative),
            report.Season, now, Picture.DesignWidth(width), look), width));
        return flows;
    }

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
        if (all == 0)
        {
            return "Nothing is recorded yet. Each native plant you add becomes a line here, and the bars below it rise; a filled stop is a half-month with enough in flower.";
        }

        var unit = units == Units.Metric ? "under 1, 1–3 and over 3 m²" : "under 11, 11–32 and over 32 ft²";
        var which = shown < all ? $"The {shown} plants that cover most, of {all}; the bars count them all, and the table that follows has each one. " : "";
        return $"{which}A line is a plant in flower, in its flower’s colour, thicker for more ground ({unit}); dashed is tentative. Filled stops: enough in flower. Open stops: a gap. The shaded column is now.";
    }
}
