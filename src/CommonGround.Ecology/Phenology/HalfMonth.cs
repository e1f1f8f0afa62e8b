namespace CommonGround.Ecology.Phenology;

/// <summary>The phenology time step: 24 half-months a year. Index 2(m−1) is days 1–15 of month m, 2(m−1)+1 the rest.</summary>
public static class HalfMonth
{
    /// <summary>Half-months in a year, 24.</summary>
    public const int Count = 24;

    /// <summary>The half-month, 0–23, that holds a day. Every day of every year belongs to exactly one.</summary>
    public static int Of(DateOnly day) => (2 * (day.Month - 1)) + (day.Day <= 15 ? 0 : 1);

    /// <summary>First day of a half-month in a year.</summary>
    /// <param name="index">0–23.</param>
    /// <param name="year">1–9999.</param>
    public static DateOnly FirstDay(int index, int year) => new(year, MonthOf(index), index % 2 == 0 ? 1 : 16);

    /// <summary>Last day of a half-month in a year, leap years included.</summary>
    /// <param name="index">0–23.</param>
    /// <param name="year">1–9999.</param>
    public static DateOnly LastDay(int index, int year) =>
        new(year, MonthOf(index), index % 2 == 0 ? 15 : DateTime.DaysInMonth(year, MonthOf(index)));

    private static int MonthOf(int index) => index is >= 0 and < Count
        ? (index / 2) + 1
        : throw new ArgumentOutOfRangeException(nameof(index), index, "A half-month is 0 to 23.");
}
