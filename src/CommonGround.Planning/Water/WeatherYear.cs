using System.Globalization;
using CommonGround.Ecology.Phenology;

namespace CommonGround.Planning.Water;

/// <summary>The last twelve months of a weather series, looked through for what cannot be true.</summary>
internal static class WeatherYear
{
    /// <summary>Days of a year that must be there; the rest is filled from the same month.</summary>
    public const int DaysNeeded = 330;

    /// <summary>Days of one month that must be there before the rest of it is filled.</summary>
    public const int DaysOfMonthNeeded = 15;

    /// <summary>The last 365 days up to the latest day on which <paramref name="has"/> holds, in order of date.</summary>
    public static IReadOnlyList<DailyWeather> Last(IReadOnlyList<DailyWeather> series, Func<DailyWeather, bool> has)
    {
        var days = new SortedDictionary<DateOnly, DailyWeather>();
        foreach (var day in series)
        {
            days[day.Date] = day;
        }

        var known = days.Values.Where(has).ToList();
        return known.Count == 0 ? [] : [.. days.Values.Where(d => d.Date > known[^1].Date.AddDays(-365) && d.Date <= known[^1].Date)];
    }

    /// <summary>Temperatures in the wrong unit or the wrong way round; the first of each kind.</summary>
    public static IReadOnlyList<string> TemperatureProblems(IReadOnlyList<DailyWeather> year)
    {
        var days = year.Where(d => d.HasTemperatures).ToList();
        if (days.FirstOrDefault(d => !double.IsFinite(d.TminC!.Value) || !double.IsFinite(d.TmaxC!.Value)) is { } odd)
        {
            return [$"The temperature of {Words(odd.Date)} is not a number. Correct that day and import the file again."];
        }

        // No weather station on Earth has noted 60 °C in its screen, and no inhabited place has a yearly mean of 35 °C.
        var hottest = days.MaxBy(d => d.TmaxC!.Value);
        if (hottest?.TmaxC > 60 || (days.Count >= DaysNeeded && days.Average(d => (d.TminC!.Value + d.TmaxC!.Value) / 2) > 35))
        {
            return [$"These temperatures look like degrees Fahrenheit: {Words(hottest!.Date)} has a highest of "
                + $"{hottest.TmaxC!.Value.ToString("0.#", CultureInfo.InvariantCulture)}. Convert them to Celsius, (F − 32) × 5/9, and "
                + $"import the file again."];
        }

        if (days.FirstOrDefault(d => d.TminC < -90) is { } cold)
        {
            return [$"The lowest temperature of {Words(cold.Date)} is below −90 °C. Correct that day and import the file again."];
        }

        return days.FirstOrDefault(d => d.TminC > d.TmaxC) is { } turned
            ? [$"On {Words(turned.Date)} the lowest temperature is above the highest. Correct that day and import the file again."]
            : [];
    }

    /// <summary>Rain that cannot have fallen.</summary>
    public static IReadOnlyList<string> RainProblems(IReadOnlyList<DailyWeather> year) =>
        // The most rain measured in one day is 1,825 mm (Foc-Foc, La Réunion, 1966; World Meteorological Organization).
        year.FirstOrDefault(d => d.RainMm is { } rain && !(rain is >= 0 and <= 1825)) is { } odd
            ? [$"The rain of {Words(odd.Date)} is {odd.RainMm!.Value.ToString("0.#", CultureInfo.InvariantCulture)} mm, which cannot be. "
            + $"Correct that day and import the file again."]
            : [];

    /// <summary>What is missing of a year, in words; empty when enough is there.</summary>
    public static IReadOnlyList<string> Gaps(IReadOnlyList<DailyWeather> year, Func<DailyWeather, bool> has, string what)
    {
        var days = year.Count(has);
        if (days < DaysNeeded)
        {
            return [$"The weather has {what} for {days.ToString(CultureInfo.InvariantCulture)} days of its last year; a year’s water "
                + $"needs at least {DaysNeeded}."];
        }

        return [.. Enumerable.Range(1, 12).Where(m => year.Count(d => d.Date.Month == m && has(d)) < DaysOfMonthNeeded)
            .Select(m => $"The weather has {what} for only {year.Count(d => d.Date.Month == m && has(d)).ToString(CultureInfo.InvariantCulture)} days of {CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(m)}; {DaysOfMonthNeeded} are needed to fill the rest of it.")];
    }

    /// <summary>A sentence about the days that were filled; none when none was.</summary>
    public static IEnumerable<string> Filled(IReadOnlyList<DailyWeather> year, Func<DailyWeather, bool> has, string what)
    {
        var missing = 365 - year.Count(has);
        return missing <= 0 ? []
            : [$"{missing.ToString(CultureInfo.InvariantCulture)} {(missing == 1 ? "day" : "days")} without {what} "
            + $"{(missing == 1 ? "was" : "were")} given the mean of the month’s other days."];
    }

    /// <summary>"August 19, 2026".</summary>
    public static string Words(DateOnly date) => DayWords.Date(date);
}
