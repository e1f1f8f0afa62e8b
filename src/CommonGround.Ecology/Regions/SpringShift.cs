using CommonGround.Ecology.Phenology;

namespace CommonGround.Ecology.Regions;

/// <summary>
/// How much later spring comes at one place than at another, and what that does to a bloom window: Hopkins' bioclimatic law. An estimate:
/// expect two weeks either way, and more in a dry year.
/// </summary>
/// <remarks>
/// Hopkins 1918–1920: four days later per degree north, per five degrees of longitude eastward and per 400 ft of height, in spring. Read in
/// a quotation of Hopkins 1919; titles from memory. That the shift fades out in summer and turns by a quarter in autumn is this project's
/// own convention, after Pearson 2019 (Int. J. Biometeorology, doi 10.1007/s00484-019-01679-0, abstract read): autumn composites answer to
/// the length of the day.
/// </remarks>
public static class SpringShift
{
    /// <summary>Latitude of the catalogue's bloom windows, degrees north: northern Illinois.</summary>
    public const double ReferenceLatitude = 41.87;

    /// <summary>Their longitude, degrees west.</summary>
    public const double ReferenceLongitudeWest = 88.56;

    /// <summary>Their height above the sea, m.</summary>
    public const double ReferenceElevationMetres = 240;

    /// <summary>No shift is larger, days; this project's own convention.</summary>
    public const double MostDays = 30;

    /// <summary>Days in half a month.</summary>
    private const double HalfMonthDays = 15.2;

    /// <summary>How many days later spring comes than in northern Illinois; negative is earlier; not capped.</summary>
    /// <param name="latitude">Degrees north.</param>
    /// <param name="longitudeWest">Degrees west.</param>
    /// <param name="elevationMetres">Height above the sea, m.</param>
    public static double Days(double latitude, double longitudeWest, double elevationMetres) =>
        (4 * (latitude - ReferenceLatitude)) + (0.8 * (ReferenceLongitudeWest - longitudeWest))
            + (4 * (elevationMetres - ReferenceElevationMetres) / 121.92);

    /// <summary>Whole half-months of a shift, halves away from zero, after the cap.</summary>
    public static int HalfMonths(double days) => (int)Math.Round(Math.Clamp(days, -MostDays, MostDays) / HalfMonthDays,
        MidpointRounding.AwayFromZero);

    /// <summary>A bloom window at another place: each end moves by itself, wholly in spring, fading out by August, a quarter the other way
    /// in autumn.</summary>
    /// <param name="window">The window where it was observed.</param>
    /// <param name="days">How much later spring comes, days.</param>
    /// <returns>A window whose end is never before its start; one that wraps past December keeps wrapping.</returns>
    public static BloomWindow Shifted(BloomWindow window, double days)
    {
        var wraps = window.End < window.Start;
        var start = Math.Clamp(window.Start + HalfMonths(days * Share(window.Start)), 0, HalfMonth.Count - 1);
        var end = Math.Clamp(window.End + HalfMonths(days * Share(window.End)), 0, HalfMonth.Count - 1);
        return new BloomWindow(start, wraps ? Math.Min(end, start) : Math.Max(end, start));
    }

    private static double Share(int halfMonth) => halfMonth switch
    {
        <= 11 => 1,
        12 => 2 / 3.0,
        13 => 1 / 3.0,
        14 => 0,
        _ => -0.25,
    };
}
