namespace CommonGround.Ecology.Phenology;

/// <summary>Hopkins' bioclimatic law: how much later spring comes to a place than to another.</summary>
/// <remarks>
/// Four days later per degree north, per five degrees east and per 400 ft (121.92 m) up; the reverse in autumn. A rough rule for
/// temperate North America, not a forecast. Source: Hopkins (1918, 1919); see docs/measures.md#hopkins-law.
/// </remarks>
public static class HopkinsLaw
{
    private const double DaysPerStep = 4;
    private const double DegreesEastPerStep = 5;
    private const double MetresUpPerStep = 121.92;
    private const double DaysPerHalfMonth = 365.25 / HalfMonth.Count;

    /// <summary>First half-month whose bloom counts as autumn: 16 August, our late season. Bloom that starts then comes earlier, not
    /// later.</summary>
    public const int AutumnFrom = 15;

    /// <summary>Days later in spring: 4·(Δlatitude + Δlongitude/5 + Δelevation/121.92).</summary>
    /// <param name="degreesNorth">Latitude here minus latitude there, degrees.</param>
    /// <param name="degreesEast">Longitude here minus longitude there, degrees.</param>
    /// <param name="metresUp">Elevation here minus elevation there, m.</param>
    /// <returns>Days; negative is earlier. In autumn the sign turns round.</returns>
    /// <remarks>Source: Hopkins (1919); see docs/measures.md#hopkins-law.</remarks>
    public static double DaysLaterInSpring(double degreesNorth, double degreesEast, double metresUp) =>
        DaysPerStep * (degreesNorth + (degreesEast / DegreesEastPerStep) + (metresUp / MetresUpPerStep));

    /// <summary>A bloom window moved from the catalogue's reference place to here.</summary>
    /// <param name="window">At the reference place.</param>
    /// <param name="daysLaterInSpring">From <see cref="DaysLaterInSpring"/>, days.</param>
    /// <returns>The window moved by whole half-months of 15.22 days, the nearest number; it keeps its length.</returns>
    /// <remarks>Later when it starts before 16 August, earlier when it starts from then on: our convention. See
    /// docs/measures.md#hopkins-law.</remarks>
    public static BloomWindow Shift(BloomWindow window, double daysLaterInSpring) =>
        window.Shifted(window.Start < AutumnFrom ? HalfMonths(daysLaterInSpring) : HalfMonths(-daysLaterInSpring));

    /// <summary>Whole half-months nearest to a number of days.</summary>
    internal static int HalfMonths(double days) => (int)Math.Round(days / DaysPerHalfMonth, MidpointRounding.AwayFromZero);
}
