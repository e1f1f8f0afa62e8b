namespace CommonGround.Interchange.GeoJson;

/// <summary>A position in WGS 84.</summary>
/// <param name="Latitude">Degrees north, −90 to 90.</param>
/// <param name="Longitude">Degrees east, −180 to 180.</param>
public readonly record struct GeoPoint(double Latitude, double Longitude);

/// <summary>What a shape is: a place, a line along the street, or an outline.</summary>
public enum GeoKind { Point, LineString, Polygon }

/// <summary>A geometry of RFC 7946, as far as this project needs it.</summary>
/// <param name="Kind">Decides what <paramref name="Parts"/> hold.</param>
/// <param name="Parts">A point: one part of one position. A line: one part. A polygon: the closed outline, then its holes.</param>
public sealed record GeoShape(GeoKind Kind, IReadOnlyList<IReadOnlyList<GeoPoint>> Parts)
{
    public static GeoShape Point(GeoPoint at) => new(GeoKind.Point, [[at]]);

    public static GeoShape Line(IReadOnlyList<GeoPoint> points) => new(GeoKind.LineString, [points]);

    public static GeoShape Polygon(IReadOnlyList<IReadOnlyList<GeoPoint>> rings) => new(GeoKind.Polygon, rings);
}

/// <summary>A block's line or outline from streets.geojson.</summary>
/// <param name="Line">Number of the feature in its file, from 1.</param>
/// <param name="Street">Street the block belongs to.</param>
/// <param name="Block">Unique within its street.</param>
/// <param name="Shape">LineString or Polygon.</param>
public sealed record BlockShape(int Line, string Street, string Block, GeoShape Shape)
{
    /// <summary>Half the length of its line, or the centroid of its polygon.</summary>
    public GeoPoint Middle => MiddlePoint.Of(Shape);
}
