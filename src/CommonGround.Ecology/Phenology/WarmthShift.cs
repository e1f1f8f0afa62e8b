namespace CommonGround.Ecology.Phenology;

/// <summary>How far ahead or behind a year's season is, judged by the warmth gathered since New Year.</summary>
/// <remarks>Plants are taken to flower at the same sum of degree-days each year: common practice. See
/// docs/measures.md#warmth-shift.</remarks>
public static class WarmthShift
{
    /// <summary>Base below which nothing grows, °C; our own convention for plants of cool springs.</summary>
    public const double BaseCelsius = 5;

    /// <summary>Days later than in the reference year for a stage reached on a given day of the reference year.</summary>
    /// <param name="referenceDegreeDays">Degree-days of each day of the reference year from January 1, each ≥ 0.</param>
    /// <param name="degreeDays">The same of this year, by the same method and base; may stop at today.</param>
    /// <param name="referenceDayOfYear">1 to the length of the reference year.</param>
    /// <returns>
    /// Days; negative is earlier. First day whose running total reaches the reference total, minus the reference day. <c>null</c> while
    /// this year has not got there, and when the reference year had gathered nothing by then: warmth cannot date that.
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

    /// <summary>The same, and while this year has not got there, how far it is behind or ahead by its last day.</summary>
    /// <returns>Days; negative is earlier. <c>null</c> only where either year has gathered nothing.</returns>
    /// <remarks>See docs/measures.md#warmth-shift.</remarks>
    public static int? DaysLaterSoFar(IReadOnlyList<double> referenceDegreeDays, IReadOnlyList<double> degreeDays, int referenceDayOfYear)
    {
        if (DaysLater(referenceDegreeDays, degreeDays, referenceDayOfYear) is { } reached)
        {
            return reached;
        }

        // Turned round: on which day had the reference year gathered what this one has now?
        var needed = referenceDegreeDays.Take(referenceDayOfYear).Sum();
        return needed > 0 && degreeDays.Count > 0 && DaysLater(degreeDays, referenceDegreeDays, degreeDays.Count) is { } ahead ? -ahead
            : null;
    }

    /// <summary>Degree-days of each day from mean temperatures by month: straight lines between the middles of the months, above
    /// <see cref="BaseCelsius"/>.</summary>
    /// <param name="monthlyCelsius">Twelve means, °C.</param>
    /// <returns>365 values, °C·days, each ≥ 0.</returns>
    /// <remarks>Days of a month differ more than this, so a cold month gathers a little too few: the same in both years compared. See
    /// docs/measures.md#warmth-shift.</remarks>
    public static IReadOnlyList<double> OfMonths(IReadOnlyList<double> monthlyCelsius) => [.. Daily(monthlyCelsius).Select(Warm)];

    /// <summary>Degree-days of each day of one year: the usual temperature of the day and what the month lay above or below its
    /// own.</summary>
    /// <param name="usualCelsius">Twelve usual means, °C.</param>
    /// <param name="yearCelsius">Twelve means of the year, °C; <c>null</c> where a month is not known. A month missed out between others
    /// counts as usual.</param>
    /// <returns>One value a day from January 1 to the end of the last month known; empty where none is.</returns>
    /// <remarks>See docs/measures.md#warmth-shift.</remarks>
    public static IReadOnlyList<double> OfYear(IReadOnlyList<double> usualCelsius, IReadOnlyList<double?> yearCelsius)
    {
        ArgumentNullException.ThrowIfNull(yearCelsius);
        var usual = Daily(usualCelsius);
        var last = yearCelsius.Index().Where(m => m.Item is not null).Select(m => m.Index).DefaultIfEmpty(-1).Max();
        return [.. Enumerable.Range(0, 365).Select(d => (Day: d, Month: MonthOf(d))).TakeWhile(d => d.Month <= last)
            .Select(d => Warm(usual[d.Day] + ((yearCelsius[d.Month] ?? usualCelsius[d.Month]) - usualCelsius[d.Month])))];
    }

    private static double[] Daily(IReadOnlyList<double> monthly)
    {
        ArgumentNullException.ThrowIfNull(monthly);
        if (monthly.Count != 12 || monthly.Any(c => !double.IsFinite(c)))
        {
            throw new ArgumentException("A year has twelve mean temperatures.", nameof(monthly));
        }

        return [.. Enumerable.Range(0, 365).Select(day =>
        {
            var month = MonthOf(day);
            var next = day + 0.5 >= MiddleOf(month) ? month : month - 1;
            var (from, to) = (MiddleOf(next), MiddleOf(next + 1));
            return monthly[(next + 12) % 12] + ((day + 0.5 - from) / (to - from) * (monthly[(next + 13) % 12] - monthly[(next + 12) % 12]));
        })];
    }

    private static double Warm(double celsius) => DegreeDays.AverageThenZero(celsius, celsius, BaseCelsius);

    private static int MonthOf(int day) => new DateOnly(2025, 1, 1).AddDays(day).Month - 1;

    /// <summary>Days from New Year to the middle of a month, −1 and 12 being those of the years before and after.</summary>
    private static double MiddleOf(int month)
    {
        var first = new DateOnly(2025, 1, 1).AddMonths(month);
        return first.DayNumber - new DateOnly(2025, 1, 1).DayNumber + (DateTime.DaysInMonth(first.Year, first.Month) / 2.0);
    }

    private static double Require(double degreeDays) => double.IsFinite(degreeDays) && degreeDays >= 0
        ? degreeDays
        : throw new ArgumentOutOfRangeException(nameof(degreeDays), degreeDays, "Degree-days of a day are 0 or more.");
}
