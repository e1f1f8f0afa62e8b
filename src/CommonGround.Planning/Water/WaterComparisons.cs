using CommonGround.Ecology.Taxa;
using CommonGround.Ecology.Water;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Water;

/// <summary>A year of watering for the lawn as it is and for the planting once it has grown in.</summary>
/// <remarks>
/// Irrigation need of a month = max(0, K · ET₀ − effective rain) × area, over months with a mean of 5 °C or more; ET₀ by FAO-56.
/// What is watered in truth depends on who holds the hose: this is what would keep each looking its best.
/// </remarks>
public static class WaterComparisons
{
    /// <summary>Landscape coefficient of a lawn: low, usual and high.</summary>
    /// <remarks>0.8 for cool-season turf and 0.6 for warm-season or thirsty-looking turf: Costello, Matheny and Clark (2000); 0.95 for
    /// cool-season turf: FAO-56, table 12. From memory.</remarks>
    public static Spread Lawn { get; } = new(0.6, 0.8, 0.95);

    /// <summary>Landscape coefficient of an established planting of plants that suit the ground.</summary>
    /// <remarks>Costello, Matheny and Clark (2000): 0.1–0.3 for plants that need little (from memory), 0.4–0.6 for moderate ones; the high
    /// case is in the middle of those.</remarks>
    public static Spread Planting { get; } = new(0.1, 0.3, 0.5);

    private const double DormantBelowC = 5;

    /// <summary>Compares both on the converted ground over the last year of the series.</summary>
    /// <param name="request">The ground.</param>
    /// <param name="latitudeDegrees">−66 to 66.</param>
    /// <param name="weather">Any order, any length; at least 330 days of the last year with temperatures and with rain.</param>
    /// <param name="altitudeMetres">Null when not known; with it and a full station's weather Penman–Monteith is used, else
    /// Hargreaves.</param>
    public static WaterAnswer Of(ConversionRequest request, double latitudeDegrees, IReadOnlyList<DailyWeather> weather,
        double? altitudeMetres = null)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (!(latitudeDegrees is >= -66 and <= 66))
        {
            return new WaterAnswer(null,
                ["The place of the neighbourhood is not known or lies beyond the polar circle: without a latitude the sun cannot be "
                    + "reckoned."]);
        }

        var year = WeatherYear.Last(weather, d => d.HasTemperatures);
        IReadOnlyList<string> problems = [.. WeatherYear.TemperatureProblems(year), .. WeatherYear.RainProblems(year)];
        if (problems.Count == 0)
        {
            problems = [.. WeatherYear.Gaps(year, d => d.HasTemperatures, "temperatures"),
                .. WeatherYear.Gaps(year, d => d.RainMm is not null, "rain")];
        }

        return problems.Count > 0 ? new WaterAnswer(null, problems)
            : new WaterAnswer(Compare(request, latitudeDegrees, year, altitudeMetres), []);
    }

    private static WaterComparison Compare(ConversionRequest request, double latitude, IReadOnlyList<DailyWeather> year, double? altitude)
    {
        var full = altitude is not null && WeatherYear.Gaps(year, d => d.HasAll, "all of a station's weather").Count == 0;
        double Reference(DailyWeather d) => full
            ? ReferenceEvapotranspiration.PenmanMonteith(
                new StationDay(d.TminC!.Value, d.TmaxC!.Value, d.HumidityMinPercent!.Value, d.HumidityMaxPercent!.Value,
                    d.WindMetresPerSecond!.Value, d.SunshineHours!.Value),
                latitude, altitude!.Value, d.Date.DayOfYear)
            : ReferenceEvapotranspiration.Hargreaves(d.TminC!.Value, d.TmaxC!.Value, latitude, d.Date.DayOfYear);
        bool Counts(DailyWeather d) => full ? d.HasAll : d.HasTemperatures;
        var months = Enumerable.Range(1, 12).Select(m => Month(m, year, Counts, Reference)).ToList();
        var shade = Shade(request.Light);
        double[] Need(double coefficient) =>
            [.. months.Select(m => m.MeanC < DormantBelowC ? 0
                : LandscapeWater.Litres(LandscapeWater.IrrigationNeed(LandscapeWater.Coefficient(coefficient, 1, shade), m.Reference,
                m.Rain), request.SquareMetres))];
        Spread Year(Spread coefficient) => new(Need(coefficient.Low).Sum(), Need(coefficient.Mid).Sum(), Need(coefficient.High).Sum());
        var method = full ? "Penman–Monteith" : "Hargreaves";
        return new WaterComparison(method, months.Sum(m => m.Reference), months.Sum(m => m.Rain), Year(Lawn), Year(Planting),
            Need(Lawn.Mid), Need(Planting.Mid),
            [
                $"Weather of {WeatherYear.Words(year[0].Date)} to {WeatherYear.Words(year[^1].Date)}; another year gives other figures.",
                full
                    ? "Reference evapotranspiration by the Penman–Monteith equation (FAO-56, Allen and others 1998)."
                    : "Reference evapotranspiration by the Hargreaves equation (FAO-56, Allen and others 1998) from temperatures alone.",
                FormattableString.Invariant($"Lawn uses {Lawn.Mid} of it ({Lawn.Low}–{Lawn.High}; Costello and others 2000 and FAO-56, from memory)."),
                FormattableString.Invariant($"The planting, grown in, uses {Planting.Mid} of it ({Planting.Low}–{Planting.High}; Costello and others 2000, plants of low to moderate need)."),
                .. shade < 1
                    ? [FormattableString.Invariant($"Both are taken times {shade} for shade, within the range Costello and others give.")]
                    : Array.Empty<string>(),
                "Of each month’s rain the part that roots can use counts (Smith 1992, from memory); months below [5 °C|41 °F] need none.",
                "Not counted: what a hose loses, and the planting’s first two summers.",
                .. WeatherYear.Filled(year, Counts, full ? "all of a station’s weather" : "temperatures"),
                .. WeatherYear.Filled(year, d => d.RainMm is not null, "rain"),
            ]);
    }

    private static (double Reference, double Rain, double MeanC) Month(int month, IReadOnlyList<DailyWeather> year,
        Func<DailyWeather, bool> counts, Func<DailyWeather, double> reference)
    {
        // The window may hold two halves of one month, or February 29: the usual length of the month is taken.
        var days = year.Where(d => d.Date.Month == month).ToList();
        var warm = days.Where(counts).ToList();
        var length = DateTime.DaysInMonth(2025, month);
        return (warm.Average(reference) * length, days.Where(d => d.RainMm is not null).Average(d => d.RainMm!.Value) * length,
            warm.Average(d => (d.TminC!.Value + d.TmaxC!.Value) / 2));
    }

    /// <summary>Microclimate factor: our choice within the 0.5–0.9 that Costello, Matheny and Clark (2000) give for sheltered and shaded
    /// ground (from memory).</summary>
    private static double Shade(Light light) => light switch { Light.FullSun => 1, Light.PartShade => 0.8, _ => 0.6 };
}
