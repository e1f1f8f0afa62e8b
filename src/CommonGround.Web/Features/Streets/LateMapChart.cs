using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Features.Streets;

/// <summary>The late-season map as a chart, so that paper draws it with the same plan, classes and figures as the page.</summary>
public static class LateMapChart
{
    private const double Disc = 11, Cross = 5;

    /// <summary>Null where no block has a shape.</summary>
    /// <param name="shapes">Of the blocks.</param>
    /// <param name="street">Position of the street to mark.</param>
    public static Chart? Of(Figures figures, IReadOnlyList<BlockShapeOnMap> shapes, int street)
    {
        ArgumentNullException.ThrowIfNull(figures);
        var plan = new StreetPlan(shapes, figures.Matrix, narrow: true);
        if (plan.Projection is not { } map)
        {
            return null;
        }

        var (marks, measure) = (new List<Mark>(), MapMeasure.LateSeason(figures));
        PathMark Way(BlockShapeOnMap shape, string style) => new(style,
            [.. shape.Points.Select(p => map.At(p.Longitude, p.Latitude))], Closed: false);
        var own = figures.Matrix.BlocksOfStreet(street).ToHashSet();
        marks.AddRange(plan.Shapes.Where(s => own.Contains(s.Block)).Select(s => Way(s, "map-ring")));
        marks.AddRange(plan.Shapes.Select(s => Way(s, "map-casing")));
        foreach (var shape in plan.Shapes)
        {
            if (!figures.Shown.Contains(shape.Block))
            {
                marks.Add(Way(shape, "map-none"));
                continue;
            }

            var (site, at) = (figures.Blocks[shape.Block], plan.Middle(shape));
            var late = measure.ClassOf(site);
            marks.Add(Way(shape, $"map-cv{late}"));
            marks.Add(new CircleMark($"map-disc{late}", at.X, at.Y, Disc));
            marks.Add(new TextMark(late > 3 ? "badge-light" : "badge", at.X, at.Y + 4.5, measure.FigureOf(site), Anchor.Middle));
        }

        marks.AddRange(plan.Crossings.Select(c => new CircleMark("map-cross", c.X, c.Y, Cross)));
        marks.AddRange(plan.Labels.Select(l => new TextMark("street", l.X, l.Y, l.Name,
            l.Anchor == "start" ? Anchor.Start : Anchor.Middle)));
        var words = figures.Matrix.BlocksOfStreet(street).Select(b => figures.Shown.Contains(b)
            ? $"{figures.Matrix.Blocks[b].Name} {figures.LateCovered(figures.Blocks[b])}" : $"{figures.Matrix.Blocks[b].Name} not shown");
        return new Chart(map.Width, map.Height, $"Map of the blocks: late half-months covered, of {figures.LateHalves}. On "
            + $"{figures.Matrix.Streets[street].Name}: {string.Join("; ", words)}.", marks);
    }
}
