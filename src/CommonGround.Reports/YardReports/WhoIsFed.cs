using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;

namespace CommonGround.Reports.YardReports;

/// <summary>Who finds food in the yard: sentences, one picture, and what would feed most more.</summary>
internal static class WhoIsFed
{
    public static IReadOnlyList<Flow> Flows(YardReport report, Typesetter set, double width)
    {
        var fed = report.Visitors;
        if (fed.Flowering == 0) return [];
        var flows = new List<Flow>
        {
            Prose.H2(set, width, fed.Support.Bees == 0 ? "Who finds food here"
                : $"Who finds food here: {Wording.Count(fed.Support.Bees, "kind of bee", "kinds of bees")}"),
            Prose.Body(set,
                width, $"{VisitorWords.Feeds(fed.Support, fed.Flowering)} {VisitorWords.Thinnest(fed.Support, report.Season)} "
                    + $"{VisitorWords.Specialists(fed.Support)}"),
        };
        if (fed.Support.Visitors > 0)
        {
            var picture = Picture.Of(VisitorWords.Picture($"Who comes to the plants of yard {report.YardCode}", fed, report.Season,
                Picture.DesignWidth(width)), width);
            flows.Add(picture with { SpaceBefore = 4 });
            flows.Add(Prose.Small(set, width, $"{VisitorWords.Drawn(fed.Plants.Count)}{VisitorWords.Key}"));
        }

        if (fed.Additions.Count > 0)
        {
            flows.Add(Prose.H3(set, width, "These would feed the most besides, in this order"));
            flows.Add(new Table([new("Plant", 50), new("What it adds", 90)],
                [.. fed.Additions.Select(a => new Row([new Cell(Plantings.Name(a.Taxon)), Cell.Of(VisitorWords.Adds(a))]))],
                    new TableSpacing(11, 2.2)).Lay(set, width) with
            { SpaceBefore = 4 });
        }

        flows.Add(Prose.Small(set, width, $"{VisitorWords.Effort} {VisitorWords.Known(fed.Support)}"));
        return flows;
    }
}
