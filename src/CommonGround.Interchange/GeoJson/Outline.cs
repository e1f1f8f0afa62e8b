using System.Globalization;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Valid;

namespace CommonGround.Interchange.GeoJson;

/// <summary>Whether rings of positions enclose an area: OGC Simple Feature Access 06-103r4, 6.1.11.1, which RFC 7946 (3.1.6) builds
/// on.</summary>
internal static class Outline
{
    private static readonly GeometryFactory Plane = new();

    /// <summary>What is wrong with an outline and its holes, where, and how to correct it; null when nothing is.</summary>
    /// <param name="rings">Closed rings of four or more positions, the outline first.</param>
    public static (string What, string Place, string HowToCorrect)? FaultOf(IReadOnlyList<IReadOnlyList<GeoPoint>> rings)
    {
        var east = rings[0][0].Longitude;
        // Measured from the first corner, so that a block on the 180th meridian is not torn apart.
        var parts = rings.Select(r => Plane.CreateLinearRing([.. r.Select(p => new Coordinate(Wrap(p.Longitude - east), p.Latitude))]))
            .ToList();
        if (new IsValidOp(Plane.CreatePolygon(parts[0], [.. parts.Skip(1)])).ValidationError is not { } error)
        {
            return null;
        }

        var place = error.Coordinate is { } at
            ? string.Create(CultureInfo.InvariantCulture, $"[{Math.Round(Wrap(at.X + east), 6)},{Math.Round(at.Y, 6)}]") : "";
        return error.ErrorType switch
        {
            TopologyValidationErrors.SelfIntersection or TopologyValidationErrors.RingSelfIntersection =>
                ("The outline crosses or touches itself here.", place,
                    "Move the corners near this position so that the outline goes round the block once, like a fence."),
            TopologyValidationErrors.HoleOutsideShell => ("A hole lies outside the outline.", place,
                "Take the hole out, or draw it inside the block."),
            TopologyValidationErrors.NestedHoles or TopologyValidationErrors.DuplicateRings
                or TopologyValidationErrors.DisconnectedInteriors =>
                ("Holes of this outline overlap or cut it in pieces.", place, "Draw each hole apart from the others, inside the block."),
            _ => ("The outline encloses no area.", place, "Draw the block's corners one after the other; three different ones at least."),
        };
    }

    private static double Wrap(double longitude) => longitude > 180 ? longitude - 360 : longitude < -180 ? longitude + 360 : longitude;
}
