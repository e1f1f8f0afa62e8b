namespace CommonGround.Interchange.GeoJson;

/// <summary>The one position that stands for a shape.</summary>
public static class MiddlePoint
{
    private const double Degree = Math.PI / 180;

    /// <summary>A point itself; of a line the place at half its great-circle length; of a polygon its centroid, holes taken out.</summary>
    public static GeoPoint Of(GeoShape shape)
    {
        ArgumentNullException.ThrowIfNull(shape);
        return shape.Kind switch
        {
            GeoKind.Point => shape.Parts[0][0],
            GeoKind.LineString => OfLine(shape.Parts[0]),
            _ => OfPolygon(shape.Parts),
        };
    }

    private static GeoPoint OfLine(IReadOnlyList<GeoPoint> line)
    {
        var total = 0.0;
        for (var i = 1; i < line.Count; i++) total += Angle(line[i - 1], line[i]);
        var left = total / 2;
        for (var i = 1; i < line.Count; i++)
        {
            var step = Angle(line[i - 1], line[i]);
            if (step > 0 && left <= step) return Between(line[i - 1], line[i], left / step, step);
            left -= step;
        }
        return line[0];
    }

    /// <summary>Angle at the earth's centre, radians (haversine).</summary>
    private static double Angle(GeoPoint a, GeoPoint b)
    {
        var (south, north) = (a.Latitude * Degree, b.Latitude * Degree);
        var (up, across) = (Math.Sin((north - south) / 2), Math.Sin((b.Longitude - a.Longitude) * Degree / 2));
        return 2 * Math.Asin(Math.Min(1, Math.Sqrt((up * up) + (Math.Cos(south) * Math.Cos(north) * across * across))));
    }

    /// <summary>The place at a share of the great circle from one point to another.</summary>
    private static GeoPoint Between(GeoPoint a, GeoPoint b, double share, double angle)
    {
        if (Math.PI - angle < 1e-9) return a;
        var (fromA, fromB) = (Math.Sin((1 - share) * angle) / Math.Sin(angle), Math.Sin(share * angle) / Math.Sin(angle));
        var (ax, ay, az) = Vector(a);
        var (bx, by, bz) = Vector(b);
        var (x, y, z) = ((fromA * ax) + (fromB * bx), (fromA * ay) + (fromB * by), (fromA * az) + (fromB * bz));
        return new GeoPoint(Math.Atan2(z, Math.Sqrt((x * x) + (y * y))) / Degree, Math.Atan2(y, x) / Degree);
    }

    private static (double X, double Y, double Z) Vector(GeoPoint point)
    {
        var (latitude, longitude) = (point.Latitude * Degree, point.Longitude * Degree);
        return (Math.Cos(latitude) * Math.Cos(longitude), Math.Cos(latitude) * Math.Sin(longitude), Math.Sin(latitude));
    }

    /// <summary>Area-weighted centroid in longitude and latitude as plane coordinates (a block is small), measured from the first
    /// corner.</summary>
    private static GeoPoint OfPolygon(IReadOnlyList<IReadOnlyList<GeoPoint>> rings)
    {
        var origin = rings[0][0];
        var (area, x, y) = (0.0, 0.0, 0.0);
        for (var r = 0; r < rings.Count; r++)
        {
            var (ringArea, ringX, ringY) = Moments(rings[r], origin);
            // Outlines count up and holes down, whichever way round they are written.
            var sign = (ringArea < 0 ? -1 : 1) * (r == 0 ? 1 : -1);
            area += sign * ringArea;
            x += sign * ringX;
            y += sign * ringY;
        }
        if (Math.Abs(area) < 1e-18) return OfLine(rings[0]);
        return new GeoPoint(origin.Latitude + (y / (3 * area)), Wrap(origin.Longitude + (x / (3 * area))));
    }

    private static (double Area, double X, double Y) Moments(IReadOnlyList<GeoPoint> ring, GeoPoint origin)
    {
        var (area, x, y) = (0.0, 0.0, 0.0);
        for (var i = 1; i < ring.Count; i++)
        {
            var (ax, ay) = (Wrap(ring[i - 1].Longitude - origin.Longitude), ring[i - 1].Latitude - origin.Latitude);
            var (bx, by) = (Wrap(ring[i].Longitude - origin.Longitude), ring[i].Latitude - origin.Latitude);
            var cross = (ax * by) - (bx * ay);
            area += cross;
            x += (ax + bx) * cross;
            y += (ay + by) * cross;
        }
        return (area, x, y);
    }

    private static double Wrap(double longitude) => longitude > 180 ? longitude - 360 : longitude < -180 ? longitude + 360 : longitude;
}
