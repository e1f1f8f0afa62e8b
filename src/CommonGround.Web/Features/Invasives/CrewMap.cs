using CommonGround.Ecology.Sites;
using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Streets;

namespace CommonGround.Web.Features.Invasives;

/// <summary>The streets round the stops of a work day, with their numbers; the same on page and paper.</summary>
internal static class CrewMap
{
    private const double Radius = 11;

    /// <summary>Null where no street near the stops has a shape.</summary>
    public static Chart? Draw(CommunityMatrix matrix, IReadOnlyList<BlockShapeOnMap> shapes, IReadOnlyList<WorkStop> stops, double width,
        double tallest)
    {
        var blocks = stops.Select(s => s.Case.Block).ToHashSet();
        var places = stops.Select((s, i) => (Number: i + 1, At: Place(matrix, s))).ToList();
        var around = shapes.Where(s => blocks.Contains(s.Block)).SelectMany(s => s.Points).Concat(places.Select(p => p.At)).ToList();
        if (places.Count == 0 || around.Count < 2 || !shapes.Any(s => blocks.Contains(s.Block)))
        {
            return null;
        }

        var map = new MapProjection(around, width, 26, 26, 26, 26);
        if (map.Height > tallest)
        {
            // A tall part of town: as wide a piece of it as fits into the height, with more street to both sides.
            var side = Math.Max(26, (width - ((width - 52) * (tallest - 52) / (map.Height - 52))) / 2);
            map = new MapProjection(around, width, side, 26, side, 26);
        }

        var marks = new List<Mark>();
        foreach (var shape in shapes)
        {
            var points = shape.Points.Select(p => map.At(p.Longitude, p.Latitude)).ToList();
            marks.AddRange(points.Zip(points.Skip(1)).Select(s => Cut(s.First, s.Second, map.Width, map.Height)).OfType<LineMark>());
        }

        var named = new List<(double X, double Y)>();
        foreach (var street in matrix.Streets.Index().Where(s => blocks.Any(b => matrix.Blocks[b].Street == s.Index)))
        {
            var shape = shapes.First(s => blocks.Contains(s.Block) && matrix.Blocks[s.Block].Street == street.Index);
            var (x, y) = map.At(shape.Points[0].Longitude, shape.Points[0].Latitude);
            (x, y) = (Math.Clamp(x + 6, 4, map.Width - 110), Math.Clamp(y - 7, 12, map.Height - 4));
            while (named.Exists(n => Math.Abs(n.X - x) < 110 && Math.Abs(n.Y - y) < 13))
            {
                y += 13;
            }

            named.Add((x, y));
            marks.Add(new TextMark("axis", x, y, street.Item.Name));
        }

        var drawn = new List<(double X, double Y)>();
        foreach (var (number, at) in places)
        {
            var (x, y) = Free(map.At(at.Longitude, at.Latitude), drawn, map.Width);
            drawn.Add((x, y));
        }

        marks.AddRange(drawn.Zip(drawn.Skip(1), (a, b) => new LineMark("g-norm", a.X, a.Y, b.X, b.Y)));
        foreach (var (index, (x, y)) in drawn.Index())
        {
            marks.Add(new CircleMark("st-on", x, y, Radius));
            marks.Add(new TextMark("on-bar", x, y + 4.5, $"{index + 1}", Anchor.Middle));
        }

        return new Chart(map.Width, map.Height, $"Map of {stops.Count} stops: "
            + string.Join("; ", stops.Select((s, i) => $"{i + 1} {s.Case.Place}, {s.Case.BlockName}")), marks);
    }

    private static (double Longitude, double Latitude) Place(CommunityMatrix matrix, WorkStop stop) =>
        stop.Case.YardId is { } id && matrix.PositionOf(id) is { } at ? (matrix.Yards[at].Longitude, matrix.Yards[at].Latitude)
            : (matrix.Blocks[stop.Case.Block].Longitude, matrix.Blocks[stop.Case.Block].Latitude);

    /// <summary>Stops of one yard stand beside each other.</summary>
    private static (double X, double Y) Free((double X, double Y) at, List<(double X, double Y)> drawn, double width)
    {
        while (drawn.Exists(d => Math.Abs(d.X - at.X) < 2 * Radius && Math.Abs(d.Y - at.Y) < 2 * Radius))
        {
            at = at.X + (3 * Radius) < width ? (at.X + (2 * Radius) + 1, at.Y) : (width - Radius - 1, at.Y + (2 * Radius) + 1);
        }

        return at;
    }

    /// <summary>The part of a line that lies on the map (Liang and Barsky 1984); null where none does.</summary>
    private static LineMark? Cut((double X, double Y) a, (double X, double Y) b, double width, double height)
    {
        double from = 0, to = 1, dx = b.X - a.X, dy = b.Y - a.Y;
        foreach (var (p, q) in new[] { (-dx, a.X), (dx, width - a.X), (-dy, a.Y), (dy, height - a.Y) })
        {
            if (p == 0)
            {
                if (q < 0)
                {
                    return null;
                }
            }
            else if (p < 0)
            {
                from = Math.Max(from, q / p);
            }
            else
            {
                to = Math.Min(to, q / p);
            }
        }

        return from > to ? null : new LineMark("ground", a.X + (from * dx), a.Y + (from * dy), a.X + (to * dx), a.Y + (to * dy));
    }
}
