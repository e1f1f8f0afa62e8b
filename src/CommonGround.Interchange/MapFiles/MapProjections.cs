using System.Globalization;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.GeoJson;
using CsvHelper;
using ProjNet.CoordinateSystems;
using ProjNet.CoordinateSystems.Transformations;

namespace CommonGround.Interchange.MapFiles;

/// <summary>A plane coordinate system that a town may have drawn its map in.</summary>
/// <param name="Code">In the EPSG dataset; 0 for one that a file describes itself.</param>
/// <param name="Unit">"metre", "US survey foot" or "foot".</param>
/// <param name="Text">Its description as WKT.</param>
public sealed record PlaneSystem(int Code, string Name, string Unit, string Text)
{
    /// <summary>Where it may be used, degrees: west, south, east, north; null where unknown.</summary>
    public (double West, double South, double East, double North)? Area { get; init; }
}

/// <summary>Turns plane coordinates into degrees.</summary>
/// <remarks>NAD 83, WGS 84 and ETRS 89 are taken as one: they lie within two metres of each other in North America and Europe.</remarks>
public sealed class MapProjections
{
    private const double EarthRadiusMetres = 6_378_137; // WGS 84 semi-major axis, which Web Mercator takes for a sphere
    private const int WebMercatorCode = 3857;
    private static readonly int[] WebMercatorCodes = [WebMercatorCode, 900913, 102100, 102113, 3785];

    /// <summary>Web Mercator, which files saved from a web map use.</summary>
    public static PlaneSystem WebMercator { get; } = new(WebMercatorCode, "Web Mercator", "metre", "") { Area = (-180, -85, 180, 85) };

    private MapProjections(IReadOnlyList<PlaneSystem> known) => Known = known;

    /// <summary>State planes and UTM zones of the United States, and Web Mercator.</summary>
    public IReadOnlyList<PlaneSystem> Known { get; }

    /// <param name="table">seed-data/projections.csv.</param>
    public static MapProjections Read(TextReader table)
    {
        using var csv = new CsvReader(table, CultureInfo.InvariantCulture);
        var known = new List<PlaneSystem> { WebMercator };
        csv.Read();
        csv.ReadHeader();
        while (csv.Read())
        {
            known.Add(new PlaneSystem(csv.GetField<int>(0), csv.GetField(1)!, csv.GetField(2)!, csv.GetField(7)!)
            {
                Area = (csv.GetField<double>(3), csv.GetField<double>(4), csv.GetField<double>(5), csv.GetField<double>(6)),
            });
        }

        return new MapProjections(known);
    }

    /// <summary>The system a file names, by its code or its own description; null where it names none or one that is not
    /// known.</summary>
    public PlaneSystem? Named(string system)
    {
        ArgumentNullException.ThrowIfNull(system);
        if (system.Contains('[', StringComparison.Ordinal))
        {
            return system.Contains("Mercator_Auxiliary_Sphere", StringComparison.OrdinalIgnoreCase)
                || system.Contains("Pseudo-Mercator", StringComparison.OrdinalIgnoreCase) ? WebMercator : Described(system);
        }

        return CodeIn(system) is not { } code ? null : WebMercatorCodes.Contains(code) ? WebMercator
            : Known.FirstOrDefault(k => k.Code == code);
    }

    /// <summary>Whether a file says that its numbers are degrees.</summary>
    public static bool IsDegrees(string system)
    {
        ArgumentNullException.ThrowIfNull(system);
        return system.Contains("CRS84", StringComparison.OrdinalIgnoreCase) || CodeIn(system) is 4326 or 4269 or 4258
            || (system.StartsWith("GEOGCS", StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>The way from a system's coordinates to degrees; the answer is null where a position has no place in it.</summary>
    public static Func<MapPosition, GeoPoint?> ToDegrees(PlaneSystem system)
    {
        ArgumentNullException.ThrowIfNull(system);
        if (system.Code == WebMercatorCode)
        {
            return at => Sound(at.X / EarthRadiusMetres * 180 / Math.PI,
                ((2 * Math.Atan(Math.Exp(at.Y / EarthRadiusMetres))) - (Math.PI / 2)) * 180 / Math.PI);
        }

        var plane = (ProjectedCoordinateSystem)new CoordinateSystemFactory().CreateFromWkt(system.Text);
        var way = new CoordinateTransformationFactory().CreateFromCoordinateSystems(plane, plane.GeographicCoordinateSystem).MathTransform;
        return at =>
        {
            var (longitude, latitude) = way.Transform(at.X, at.Y);
            return Sound(longitude, latitude);
        };
    }

    private static GeoPoint? Sound(double longitude, double latitude) => double.IsFinite(longitude) && double.IsFinite(latitude)
        && GeoPoints.InRange(latitude, longitude) ? new GeoPoint(latitude, longitude) : null;

    /// <summary>A description that the library reads and can compute with.</summary>
    private static PlaneSystem? Described(string text)
    {
        try
        {
            if (new CoordinateSystemFactory().CreateFromWkt(text) is not ProjectedCoordinateSystem plane)
            {
                return null;
            }

            var metres = plane.LinearUnit.MetersPerUnit;
            var system = new PlaneSystem(0, plane.Name.Replace('_', ' '), Math.Abs(metres - 1) < 1e-9 ? "metre"
                : Math.Abs(metres - 0.3048) < 1e-8 ? "foot" : "US survey foot", text);
            _ = ToDegrees(system)(new MapPosition(0, 0));
            return system;
        }
        catch (SystemException)
        {
            // The library says in many ways that it does not know a description: then the person is asked.
            return null;
        }
    }

    private static int? CodeIn(string system) => system.Contains("EPSG", StringComparison.OrdinalIgnoreCase)
        && int.TryParse(system.Split(':')[^1], NumberStyles.None, CultureInfo.InvariantCulture, out var code) ? code : null;
}
