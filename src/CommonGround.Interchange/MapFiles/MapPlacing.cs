using System.Globalization;
using CommonGround.Interchange.GeoJson;

namespace CommonGround.Interchange.MapFiles;

/// <summary>How the numbers of a layer become places.</summary>
public enum PlacingKind { Degrees, Swapped, Plane, Unknown }

/// <summary>How the numbers of a layer become places, and why it is thought so.</summary>
/// <param name="System">Where <paramref name="Kind"/> is a plane.</param>
/// <param name="Said">A sentence or two for who brought the file.</param>
/// <param name="Likely">Plane systems that may be meant, the one nearest to the group first; empty where the file is in degrees.</param>
public sealed record MapPlacing(PlacingKind Kind, PlaneSystem? System, string Said,
    IReadOnlyList<(PlaneSystem System, double Kilometres)> Likely)
{
    /// <summary>A layer that lies further than this from the group is doubted, km.</summary>
    public const double NearKilometres = 100;

    /// <summary>Looks at the numbers, at what the file says of itself and at where the group is.</summary>
    /// <param name="near">The group's place, or null where it is not known.</param>
    public static MapPlacing Of(MapLayer layer, MapProjections projections, GeoPoint? near)
    {
        ArgumentNullException.ThrowIfNull(layer);
        ArgumentNullException.ThrowIfNull(projections);
        var points = layer.Features.SelectMany(f => f.Points).ToList();
        var middle = new MapPosition((points.Min(p => p.X) + points.Max(p => p.X)) / 2, (points.Min(p => p.Y) + points.Max(p => p.Y)) / 2);
        var degrees = points.TrueForAll(p => Math.Abs(p.X) <= 180 && Math.Abs(p.Y) <= 180);
        if (degrees)
        {
            return OfDegrees(points, middle, near);
        }

        if (projections.Named(layer.System) is { } named)
        {
            return new(PlacingKind.Plane, named, $"The file is drawn in {Told(named)}, as it says itself.", []);
        }

        var likely = Candidates(middle, projections, near);
        var range = string.Create(CultureInfo.InvariantCulture,
            $"These numbers are not degrees: they run from {points.Min(p => p.X):#,0} to {points.Max(p => p.X):#,0} and from "
            + $"{points.Min(p => p.Y):#,0} to {points.Max(p => p.Y):#,0}, and the file does not say what they are.");
        if (near is null || likely.Count == 0)
        {
            return new(PlacingKind.Unknown, null, range + (near is null
                ? " Say where the group is first, or choose the coordinate system." : " Choose the coordinate system."), likely);
        }

        var (best, kilometres) = likely[0];
        return new(PlacingKind.Plane, best, $"{range} They look like {Words(best)}: with it they lie {Distance(kilometres)} from the "
            + "group’s place. Look at the map below before you agree.", likely);
    }

    /// <summary>The places of a feature's positions; null where one has no place.</summary>
    public Func<MapPosition, GeoPoint?> Way() => Kind switch
    {
        PlacingKind.Degrees => p => GeoPoints.InRange(p.Y, p.X) ? new GeoPoint(p.Y, p.X) : null,
        PlacingKind.Swapped => p => GeoPoints.InRange(p.X, p.Y) ? new GeoPoint(p.X, p.Y) : null,
        PlacingKind.Plane => MapProjections.ToDegrees(System!),
        _ => _ => null,
    };

    private static MapPlacing OfDegrees(List<MapPosition> points, MapPosition middle, GeoPoint? near)
    {
        var (asWritten, swapped) = (new GeoPoint(middle.Y, middle.X), new GeoPoint(middle.X, middle.Y));
        var impossible = points.Exists(p => Math.Abs(p.Y) > 90) || GeoPoints.LooksSwapped(middle.Y, middle.X);
        if (impossible || (near is { } here && Kilometres(swapped, here) < NearKilometres && Kilometres(asWritten, here) > NearKilometres))
        {
            return new(PlacingKind.Swapped, null, "Longitude and latitude are swapped in this file: it is read the other way round.", []);
        }

        return new(PlacingKind.Degrees, null, near is { } group && Kilometres(asWritten, group) is > NearKilometres and var far
            ? $"These are degrees, but they lie {Distance(far)} from the group’s place. Is it the right file?"
            : "These are degrees, as they should be.", []);
    }

    private static List<(PlaneSystem System, double Kilometres)> Candidates(MapPosition middle, MapProjections projections, GeoPoint? near)
    {
        var found = new List<(PlaneSystem System, double Kilometres)>();
        foreach (var system in projections.Known)
        {
            if (MapProjections.ToDegrees(system)(middle) is { } at && (system.Area is not { } area || (at.Longitude >= area.West - 1
                && at.Longitude <= area.East + 1 && at.Latitude >= area.South - 1 && at.Latitude <= area.North + 1)))
            {
                found.Add((system, near is { } here ? Kilometres(at, here) : 0));
            }
        }

        return near is null ? found : [.. found.Where(f => f.Kilometres < NearKilometres).OrderBy(f => f.Kilometres)];
    }

    private static string Words(PlaneSystem system) => system.Name.Contains("UTM", StringComparison.Ordinal)
        || system.Code == MapProjections.WebMercator.Code ? $"metres of {system.Name}"
        : $"{(system.Unit == "metre" ? "metres" : "feet")} of a state plane ({system.Name})";

    private static string Told(PlaneSystem system) => $"{system.Name}, in {(system.Unit == "metre" ? "metres" : "feet")}";

    private static string Distance(double kilometres) => string.Create(CultureInfo.InvariantCulture,
        $"{kilometres:0.#} km");

    private static double Kilometres(GeoPoint a, GeoPoint b)
    {
        var (north, east) = ((b.Latitude - a.Latitude) * Math.PI / 180, (b.Longitude - a.Longitude) * Math.PI / 180);
        var half = Math.Pow(Math.Sin(north / 2), 2)
            + (Math.Cos(a.Latitude * Math.PI / 180) * Math.Cos(b.Latitude * Math.PI / 180) * Math.Pow(Math.Sin(east / 2), 2));
        return 2 * 6371 * Math.Asin(Math.Min(1, Math.Sqrt(half)));
    }
}
