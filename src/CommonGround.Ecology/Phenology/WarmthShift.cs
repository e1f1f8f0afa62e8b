namespace CommonGround.Ecology.Phenology;

/// <summary>How far ahead or behind this year's season is, judged by the warmth gathered since New Year.</summary>
/// <remarks>Plants are taken to flower at the same sum of degree-days each year: common practice. See
/// docs/measures.md#warmth-shift.</remarks>
public static class WarmthShift
{
    /// <summary>Days later this year than in the reference year for a stage reached on a given day of the reference year.</summary>
    /// <param name="referenceDegreeDays">Degree-days of each day of the reference year from 1 January, each ≥ 0.</param>
    /// <param name="degreeDays">The same of this year, by the same method and base; may stop at today.</param>
    /// <param name="referenceDayOfYear">1 to the length of the reference year.</param>
    /// <returns>
    /// Days; negative is earlier. First day whose running total reaches the reference total, minus the reference day. <c>null</c> while
    /// this
    /// year has not got there, and when the reference year had gathered nothing by then: warmth cannot date that.
    /// </returns>
    /// <remarks>See docs/measures.md#warmth-shift.</remarks>
    public static int? DaysLater(IReadOnlyList<double> referenceDegreeDays, IReadOnlyList<double> degreeDays, int referenceDayOfYear)
    {
        ArgumentNullException.ThrowIfNull(referenceDegreeDays);
        ArgumentNullException.ThrowIfNull(degreeDays);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(referenceDayOfYear);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(referenceDayOfYear, referenceDegreeDays.Count);
        double needed = 0;
        for (var day = 0; day < referenceDayOfYear; day++)
        {
            needed += Require(referenceDegreeDays[day]);
        }

        double gathered = 0;
        for (var day = 0; day < degreeDays.Count && needed > 0; day++)
        {
            gathered += Require(degreeDays[day]);
            if (gathered >= needed)
            {
                return day + 1 - referenceDayOfYear;
            }
        }

        return null;
    }

    /// <summary>A bloom window moved by this year's warmth.</summary>
    /// <param name="window">In an ordinary year at this place.</param>
    /// <param name="daysLater">From <see cref="DaysLater"/> at the window's first day; <c>null</c> leaves it alone.</param>
    /// <returns>The window moved by the nearest whole number of half-months of 15.22 days; it keeps its length.</returns>
    /// <remarks>See docs/measures.md#warmth-shift.</remarks>
    public static BloomWindow Shift(BloomWindow window, int? daysLater) =>
        daysLater is { } days ? window.Shifted(HopkinsLaw.HalfMonths(days)) : window;

    private static double Require(double degreeDays) => double.IsFinite(degreeDays) && degreeDays >= 0
        ? degreeDays
        : throw new ArgumentOutOfRangeException(nameof(degreeDays), degreeDays, "Degree-days of a day are 0 or more.");
}
