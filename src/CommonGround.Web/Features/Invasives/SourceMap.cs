using CommonGround.Ecology.Invasives;
using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Streets;

namespace CommonGround.Web.Features.Invasives;

/// <summary>The streets with the greatest sources as numbers; blocks that receive much stand out.</summary>
internal static class SourceMap
{
    private const double Radius = 10;

    /// <summary>Null where no block has a shape.</summary>
    public static Chart? Draw(LoadedCommunity loaded, IReadOnlyList<BlockShapeOnMap> shapes, IReadOnlyList<SourceLine> sources,
        int? receiver,
        double width)
    {
        var matrix = loaded.Matrix;
        if (shapes.Count == 0)
        {
            return null;
        }

        var map = new MapProjection([.. shapes.SelectMany(s => s.Points), .. sources.Select(s => (s.Source.Longitude, s.Source.Latitude))],
            width, 18, 18, 18, 18);
        var pressure = InvasivePressure.OfAllBlocks(matrix, loaded.Rules.Pressure);
        var worst = pressure.OrderDescending().ElementAtOrDefault(Math.Max(0, (pressure.Length / 3) - 1));
        var marks = new List<Mark>();
        foreach (var shape in shapes.OrderBy(s => pressure[s.Block]))
        {
            var points = shape.Points.Select(p => map.At(p.Longitude, p.Latitude)).ToList();
            if (pressure[shape.Block] >= worst && pressure[shape.Block] > 0)
            {
                marks.Add(new PathMark("plan-yearly", points, Closed: false));
                continue;
            }

            marks.AddRange(points.Zip(points.Skip(1), (from, to) => new LineMark("g-tick", from.X, from.Y, to.X, to.Y)));
        }

        if (receiver is { } block)
        {
            var (x, y) = map.At(matrix.Blocks[block].Longitude, matrix.Blocks[block].Latitude);
            foreach (var source in sources.Take(5))
            {
                var from = map.At(source.Source.Longitude, source.Source.Latitude);
                marks.Add(new LineMark("g-gap", from.X, from.Y, x, y));
            }

            marks.Add(new CircleMark("level", x, y, 8));
        }

        foreach (var (index, source) in sources.Index().Reverse())
        {
            var (x, y) = map.At(source.Source.Longitude, source.Source.Latitude);
            marks.Add(new CircleMark("st-on", x, y, Radius));
            marks.Add(new TextMark("on-bar", x, y + 4.5, $"{index + 1}", Anchor.Middle));
        }

        return new Chart(map.Width, map.Height, "Map of the sources: " + string.Join("; ", sources.Select((s, i) =>
            $"{i + 1} {s.Plant} at {s.Place}")), marks);
    }
}
