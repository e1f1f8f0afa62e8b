namespace CommonGround.Interchange.GeoJson;

/// <summary>Sense checks of positions.</summary>
internal static class GeoPoints
{
    /// <summary>No street of houses lies beyond this latitude, but swapped coordinates of the Americas often do.</summary>
    private const double HighestStreet = 79;

    public static bool InRange(double latitude, double longitude) => latitude is >= -90 and <= 90 && longitude is >= -180 and <= 180;

    public static bool LooksSwapped(double latitude, double longitude) => Math.Abs(latitude) > HighestStreet && Math.Abs(longitude) <= HighestStreet;
}
