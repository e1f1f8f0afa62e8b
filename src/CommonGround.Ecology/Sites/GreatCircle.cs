namespace CommonGround.Ecology.Sites;

/// <summary>Distances over the ground on a sphere.</summary>
public static class GreatCircle
{
    /// <summary>Mean radius of the Earth, m.</summary>
    /// <remarks>R₁ of the Geodetic Reference System 1980 (Moritz 2000), rounded to 0.1 m.</remarks>
    public const double EarthRadiusMetres = 6_371_008.8;

    /// <summary>How far apart two places are, along the ground: 2R·asin √(sin²(Δφ/2) + cos φ₁ cos φ₂ sin²(Δλ/2)).</summary>
    /// <param name="latitudeA">Degrees north, −90 to 90.</param>
    /// <param name="longitudeA">Degrees east.</param>
    /// <param name="latitudeB">Degrees north, −90 to 90.</param>
    /// <param name="longitudeB">Degrees east.</param>
    /// <returns>Metres, 0 to πR. The ellipsoid's flattening is ignored: up to 0.5 % off.</returns>
    /// <remarks>Source: the haversine formula (Sinnott 1984); see docs/measures.md#distance.</remarks>
    public static double Metres(double latitudeA, double longitudeA, double latitudeB, double longitudeB)
    {
        RequireLatitude(latitudeA);
        RequireLatitude(latitudeB);
        var sinLatitude = Math.Sin(double.DegreesToRadians(latitudeB - latitudeA) / 2);
        var sinLongitude = Math.Sin(double.DegreesToRadians(longitudeB - longitudeA) / 2);
        var haversine = (sinLatitude * sinLatitude)
            + (Math.Cos(double.DegreesToRadians(latitudeA)) * Math.Cos(double.DegreesToRadians(latitudeB)) * sinLongitude * sinLongitude);
        return 2 * EarthRadiusMetres * Math.Asin(Math.Min(1, Math.Sqrt(haversine)));
    }

    internal static void RequireLatitude(double latitude)
    {
        if (!(latitude is >= -90 and <= 90))
        {
            throw new ArgumentOutOfRangeException(nameof(latitude), latitude, "A latitude is −90 to 90 degrees north.");
        }
    }
}
