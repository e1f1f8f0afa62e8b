namespace CommonGround.Interchange.GeoJson;

/// <summary>Sense checks of positions.</summary>
public static class GeoPoints
{
    /// <summary>What is said of a place south of the equator, and how it is corrected.</summary>
    public const string South =
        "This lies south of the equator; bloom windows and seasons here are those of the northern half of the earth, so every figure "
        + "would be half a year out.";

    public const string MendSouth =
        "Write latitudes of the north without a minus sign, such as 41.5. Gardens in the southern half of the earth cannot be kept here.";

    /// <summary>No street of houses lies beyond this latitude, but swapped coordinates of the Americas often do.</summary>
    private const double HighestStreet = 79;

    public static bool InRange(double latitude, double longitude) => latitude is >= -90 and <= 90 && longitude is >= -180 and <= 180;

    public static bool LooksSwapped(double latitude, double longitude) => Math.Abs(latitude) > HighestStreet
        && Math.Abs(longitude) <= HighestStreet;
}
