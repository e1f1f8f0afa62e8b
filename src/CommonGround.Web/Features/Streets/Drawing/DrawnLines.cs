using CommonGround.Interchange.GeoJson;

namespace CommonGround.Web.Features.Streets;

/// <summary>Lengths and crossings of lines a few kilometres long, in the plane that touches the earth there.</summary>
/// <remarks>A degree of latitude is taken as 111,195 m, the mean over a sphere of 6,371 km (the mean radius of the IUGG).</remarks>
public static class DrawnLines
{
    private const double MetresPerDegree = 6_371_000 * Math.PI / 180;

    public static double Metres(GeoPoint a, GeoPoint b)
    {
        var (east, north) = Way(a, b);
        return Math.Sqrt((east * east) + (north * north));
    }

    public static double Metres(IReadOnlyList<GeoPoint> line) => line.Zip(line.Skip(1), Metres).Sum();

    /// <summary>The place so many metres further.</summary>
    public static GeoPoint Moved(GeoPoint from, double north, double east) => new(from.Latitude + (north / MetresPerDegree),
        from.Longitude + (east / (MetresPerDegree * Narrowing(from))));

    /// <summary>Metres to the east and to the north.</summary>
    public static (double East, double North) Way(GeoPoint from, GeoPoint to) =>
        ((to.Longitude - from.Longitude) * MetresPerDegree * Narrowing(from), (to.Latitude - from.Latitude) * MetresPerDegree);

    /// <summary>The nearest place of a line: which of its parts it lies on, and how far off.</summary>
    public static (GeoPoint At, int Part, double Metres) Nearest(IReadOnlyList<GeoPoint> line, GeoPoint to)
    {
        var best = (At: line[0], Part: 0, Metres: double.PositiveInfinity);
        for (var i = 0; i + 1 < line.Count; i++)
        {
            var (along, way) = (Way(line[i], line[i + 1]), Way(line[i], to));
            var square = (along.East * along.East) + (along.North * along.North);
            var share = square == 0 ? 0 : Math.Clamp(((way.East * along.East) + (way.North * along.North)) / square, 0, 1);
            var at = Between(line[i], line[i + 1], share);
            if (Metres(at, to) is var metres && metres < best.Metres)
            {
                best = (at, i, metres);
            }
        }

        return best;
    }

    /// <summary>The place so far along a line, and which of its parts it lies on.</summary>
    public static (GeoPoint At, int Part) Along(IReadOnlyList<GeoPoint> line, double metres)
    {
        for (var i = 0; i + 1 < line.Count; i++)
        {
            var step = Metres(line[i], line[i + 1]);
            if (metres <= step && step > 0)
            {
                return (Between(line[i], line[i + 1], metres / step), i);
            }

            metres -= step;
        }

        return (line[^1], Math.Max(0, line.Count - 2));
    }

    /// <summary>Where two straight ways cross, both ends left out; null where they do not.</summary>
    public static (GeoPoint At, double Share)? Crossing(GeoPoint from, GeoPoint to, GeoPoint a, GeoPoint b)
    {
        var (r, s, q) = (Way(from, to), Way(from, b), Way(from, a));
        var along = (East: s.East - q.East, North: s.North - q.North);
        var turn = (r.East * along.North) - (r.North * along.East);
        if (Math.Abs(turn) < 1e-9)
        {
            return null;
        }

        var share = ((q.East * along.North) - (q.North * along.East)) / turn;
        var other = ((q.East * r.North) - (q.North * r.East)) / turn;
        return share is > 0 and < 1 && other is >= 0 and <= 1 ? (Between(from, to, share), share) : null;
    }

    /// <summary>The place a few metres to one side of a line.</summary>
    /// <param name="left">Seen in the line's direction.</param>
    public static GeoPoint Beside(IReadOnlyList<GeoPoint> line, double along, double off, bool left)
    {
        var (at, part) = Along(line, along);
        var way = Way(line[part], line[part + 1]);
        var length = Math.Max(1e-6, Math.Sqrt((way.East * way.East) + (way.North * way.North)));
        var side = left ? 1 : -1;
        return Moved(at, side * off * way.East / length, -side * off * way.North / length);
    }

    private static GeoPoint Between(GeoPoint a, GeoPoint b, double share) => new(a.Latitude + ((b.Latitude - a.Latitude) * share),
        a.Longitude + ((b.Longitude - a.Longitude) * share));

    private static double Narrowing(GeoPoint at) => Math.Max(1e-3, Math.Cos(at.Latitude * Math.PI / 180));
}
