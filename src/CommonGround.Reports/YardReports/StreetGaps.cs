using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;

namespace CommonGround.Reports.YardReports;

/// <summary>What the street lacks beside the yard, and which plants would help first.</summary>
internal static class StreetGaps
{
    public static IReadOnlyList<Flow> Flows(YardReport report, Typesetter set, double width, int now)
    {
        var flows = new List<Flow> { Prose.H2(set, width, Heading(report)), Prose.Small(set, width, Figures(report), keepWithNext: true) };
        var lines = new List<(string, IReadOnlyList<int>)> { ("This yard", Wording.InFlower(report.Measures.Bloom)) };
        if (report.Street.MayBeShown)
        {
            lines.Add((report.Street.Name, Wording.InFlower(report.Street.Measures.Bloom)));
        }

        flows.Add(Picture.Of(SeasonPairChart.Draw("Season lines, native species in flower by half-month", lines, report.Season, now,
            Picture.DesignWidth(width)), width));
        if (report.Suggestions.Count == 0)
        {
            flows.Add(Prose.Body(set, width, report.Measures.Gaps.Count == 0 ? "The yard has no gap, so nothing is suggested here."
                : "No plant of the catalogue that suits this ground flowers in the gaps, so nothing is suggested here."));
            return flows;
        }

        flows.Add(Prose.H3(set, width, "First suggestions for this yard"));
        flows.Add(Prose.Small(set, width,
            "Native plants that suit the ground and flower in the yard’s gaps, chosen one after the other. “Helps” counts the half-months "
                + "of a gap it flowers in; “closes” those that reach the norm once it and the plants above it grow. A plain ranking, not "
                + "a planting plan.", keepWithNext: true));
        flows.Add(Suggestions(report, now).Lay(set, width) with { SpaceBefore = 4 });
        return flows;
    }

    private static string Heading(YardReport report)
    {
        var street = report.Street;
        if (!street.MayBeShown)
        {
            return "What this yard lacks";
        }

        var gaps = street.Measures.Gaps;
        return gaps.Count switch
        {
            0 => $"{street.Name} flowers all season",
            <= 2 => $"What {street.Name} lacks: flowers {Wording.Runs(gaps)}",
            _ => $"What {street.Name} lacks: flowers in {gaps.Sum(g => g.To - g.From + 1)} half-months",
        };
    }

    private static string Figures(YardReport report)
    {
        var street = report.Street;
        var stops = $"A filled stop is a half-month with {Wording.Count(report.Season.Norm)} or more native species in flower; an open "
            + $"stop is a gap.";
        if (!street.MayBeShown)
        {
            return $"{stops} {street.Name} has fewer than {Wording.Count(ReportStreet.YardsToShow)} yards in the record; its figures "
                + $"would give away a neighbour’s and are not printed.";
        }

        var here = report.Measures.Gaps.Count == 0 ? "The yard has no gap." : $"The yard’s gaps: {Wording.Runs(report.Measures.Gaps)}.";
        return $"{street.Name}: {Wording.Count(street.Measures.Yards, "yard", "yards")} on "
            + $"{Wording.Count(street.Blocks, "block", "blocks")}, {street.Measures.NativeRichness} native species, as of "
            + $"{Wording.Date(report.AsOf)}. {here} {stops}";
    }

    private static Table Suggestions(YardReport report, int now)
    {
        return new Table(
            [new("Plant", 32), new("In flower", 18), new("Helps, closes", 15), new($"Height, {Wording.HeightUnit(report.Units)}", 12.5),
                new("Ground", 25), new("Who comes to it", 30), new("Caution", 12.5)],
            [.. report.Suggestions.Select(s => new Row([
                new Cell(Plantings.Name(s.Taxon)),
                new Cell([new Run(Wording.Window(s.Taxon), Faces.Data)], s.Taxon.Bloom is { } window
                    ? SmallCharts.Window(window, s.Taxon.FlowerColour, report.Season, now) : null),
                Cell.Of($"{s.Helps.Count}, {s.Closes.Count}"),
                Cell.Of(Wording.HeightFigures(s.Taxon, report.Units)),
                Cell.Of($"{string.Join(", ", s.Taxon.Light.Select(Wording.Of))}; {string.Join(", ", s.Taxon.Moisture.Select(Wording.Of))}"),
                Cell.Of(Wording.Visitors(s.Taxon.PollinatorGroups)),
                Cell.Of(s.Taxon.Toxicity.Length > 0 ? s.Taxon.Toxicity : s.Taxon.Caution.Length > 0 ? "see Care and law" : "none found"),
            ]))], new TableSpacing(11, 2.2));
    }
}
