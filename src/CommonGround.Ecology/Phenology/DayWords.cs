using System.Globalization;

namespace CommonGround.Ecology.Phenology;

/// <summary>Days as people in the group's country write them. Every place a group can name so far is in the United States: the month comes
/// first (decision 31).</summary>
public static class DayWords
{
    /// <summary>"August 16, 2026".</summary>
    public static string Date(DateOnly day) => day.ToString("MMMM d, yyyy", CultureInfo.InvariantCulture);

    /// <summary>"Aug 16, 2026".</summary>
    public static string Short(DateOnly day) => day.ToString("MMM d, yyyy", CultureInfo.InvariantCulture);

    /// <summary>"August 16".</summary>
    public static string DayMonth(DateOnly day) => day.ToString("MMMM d", CultureInfo.InvariantCulture);

    /// <summary>"Aug 16".</summary>
    public static string ShortDayMonth(DateOnly day) => day.ToString("MMM d", CultureInfo.InvariantCulture);
}
