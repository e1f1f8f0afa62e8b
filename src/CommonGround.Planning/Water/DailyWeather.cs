namespace CommonGround.Planning.Water;

/// <summary>A day of the group's weather; null where nobody noted it.</summary>
/// <param name="Date">Each day once; of two entries the later one in the list holds.</param>
/// <param name="TminC">Lowest temperature, °C.</param>
/// <param name="TmaxC">Highest temperature, °C.</param>
/// <param name="RainMm">Rain and melted snow, mm.</param>
public sealed record DailyWeather(DateOnly Date, double? TminC, double? TmaxC, double? RainMm)
{
    /// <summary>Lowest and highest relative humidity, percent.</summary>
    public double? HumidityMinPercent { get; init; }
    public double? HumidityMaxPercent { get; init; }

    /// <summary>Mean wind, m/s at 2 m above the ground.</summary>
    public double? WindMetresPerSecond { get; init; }

    /// <summary>Hours of bright sun.</summary>
    public double? SunshineHours { get; init; }

    internal bool HasTemperatures => TminC is not null && TmaxC is not null;

    internal bool HasAll => HasTemperatures && HumidityMinPercent is not null && HumidityMaxPercent is not null
        && WindMetresPerSecond is not null && SunshineHours is not null;
}

/// <summary>What became of a question to the weather: the comparison, or why there is none.</summary>
/// <param name="Comparison">Null exactly when <paramref name="Problems"/> holds something.</param>
/// <param name="Problems">In plain words, for the person who keeps the weather.</param>
public sealed record WaterAnswer(Conversion.WaterComparison? Comparison, IReadOnlyList<string> Problems);
