using CommonGround.Ecology.Sites;
using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Streets;

namespace CommonGround.Web.Features.Invasives;

/// <summary>The streets round the stops of a work day, with their numbers; the same on page and paper.</summary>
internal static class CrewMap
{
    private const double Radius = 11, Edge = 26, Side = 132, Top = 58, Narrow = 500, NameHeight = 14, NameWidth = 110;

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

        // Names stand outside the lines, as on the map of blocks: beside their right ends and over their upper ones.
        var map = new MapProjection(around, width, Edge, Top, Side, Edge);
        if (map.Height > tallest)
        {
            // A tall part of town: as wide a piece of it as fits into the height, with more street to both sides.
            var more = (width - Edge - Side) * (1 - ((tallest - Top - Edge) / (map.Height - Top - Edge))) / 2;
            map = new MapProjection(around, width, Edge + more, Top, Side + more, Edge);
        }

        var frame = (Left: 6.0, Top: Top - 10, Right: width - Side + 10, Bottom: map.Height - 6);
        var (marks, lines) = (new List<Mark>(), new List<(int Street, LineMark Line)>());
        foreach (var shape in shapes)
        {
            var points = shape.Points.Select(p => map.At(p.Longitude, p.Latitude)).ToList();
            lines.AddRange(points.Zip(points.Skip(1)).Select(s => Cut(s.First, s.Second, frame)).OfType<LineMark>()
                .Select(l => (matrix.Blocks[shape.Block].Street, l)));
        }

        marks.AddRange(lines.Select(l => l.Line));
        marks.AddRange(Names(matrix, lines, width < Narrow));
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

    /// <summary>The names of the streets that are drawn, each at the end of its own line; one that has no room moves up.</summary>
    private static IEnumerable<TextMark> Names(CommunityMatrix matrix, List<(int Street, LineMark Line)> lines, bool narrow)
    {
        var named = new List<(double X, double Y)>();
        foreach (var street in lines.GroupBy(l => l.Street).OrderBy(g => g.Key))
        {
            var label = StreetPlan.Label(matrix.Streets[street.Key].Name, narrow,
                [.. street.SelectMany(l => new[] { (l.Line.X1, l.Line.Y1), (l.Line.X2, l.Line.Y2) })]);
            var y = label.Y;
            while (named.Exists(n => Math.Abs(n.X - label.X) < (narrow ? 0.7 : 1) * NameWidth && Math.Abs(n.Y - y) < NameHeight))
            {
                y -= NameHeight;
            }

            named.Add((label.X, y));
            yield return new TextMark("street", label.X, y, label.Name, label.Anchor == "start" ? Anchor.Start : Anchor.Middle);
        }
    }

    /// <summary>The part of a line that lies in the frame (Liang and Barsky 1984); null where none does.</summary>
    private static LineMark? Cut((double X, double Y) a, (double X, double Y) b,
        (double Left, double Top, double Right, double Bottom) frame)
    {
        double from = 0, to = 1, dx = b.X - a.X, dy = b.Y - a.Y;
        foreach (var (p, q) in new[] { (-dx, a.X - frame.Left), (dx, frame.Right - a.X), (-dy, a.Y - frame.Top),
            (dy, frame.Bottom - a.Y) })
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

        return from >= to ? null : new LineMark("ground", a.X + (from * dx), a.Y + (from * dy), a.X + (to * dx), a.Y + (to * dy));
    }
}
