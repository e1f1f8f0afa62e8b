using System.Globalization;
using CommonGround.Ecology.Water;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Water;

/// <summary>What runs off the converted ground before and after, by the curve-number method.</summary>
/// <remarks>Source: USDA NRCS (1986), TR-55. The figures describe ground as it usually is, not this yard's: the difference is surer than
/// either.</remarks>
public static class RunoffComparisons
{
    /// <summary>Design depths: one to four inches, mm.</summary>
    public static IReadOnlyList<(double Millimetres, string Name)> Storms { get; } =
        [(25.4, "a one-inch rain"), (50.8, "a two-inch rain"), (76.2, "a three-inch rain"), (101.6, "a four-inch rain")];

    /// <summary>Compares present cover with meadow on the request's soil.</summary>
    /// <param name="request">The ground.</param>
    /// <param name="weather">Rain by day, any order; the last year counts when at least 330 of its days have rain or a noted 0.</param>
    public static RunoffComparison Of(ConversionRequest request, IReadOnlyList<DailyWeather> weather)
    {
        ArgumentNullException.ThrowIfNull(request);
        var (before, what) = Before(request);
        var after = Numbers(request, GroundCover.BrushGood, GroundCover.Meadow, GroundCover.GrasslandGood);
        Spread Runoff(double rain, Spread curve) => new(CurveNumber.Runoff(rain, curve.Low), CurveNumber.Runoff(rain, curve.Mid),
            CurveNumber.Runoff(rain, curve.High));

        var year = WeatherYear.Last(weather, d => d.RainMm is not null);
        var enough = WeatherYear.RainProblems(year).Count == 0 && year.Count(d => d.RainMm is not null) >= WeatherYear.DaysNeeded;
        return new RunoffComparison(
            before, after,
            [.. Storms.Select(s => new StormRunoff(s.Millimetres, s.Name, Runoff(s.Millimetres, before), Runoff(s.Millimetres, after)))],
            enough ? OverYear(request, year, before) : null,
            enough ? OverYear(request, year, after) : null,
            [
                $"Curve numbers by TR-55 (USDA NRCS 1986), soil group {request.SoilGroup}: {what}, {Words(before)}; then meadow, "
                    + $"{Words(after)}.",
                "The low case of the planting is dense growth, the high one a thin stand no better than good grassland; trodden, "
                    + "compacted ground sheds more than any table says.",
                "Storms are depths of rain, not how often they come: the local weather service publishes that.",
                .. request.SlopePercent > 5
                    ? [string.Create(
                    CultureInfo.InvariantCulture, $"The tables are for gentle slopes; at {request.SlopePercent:0.#} % more will run off "
                        + $"than they say.")] : Array.Empty<string>(),
                .. Year(year, enough),
            ]);
    }

    /// <summary>Curve number of what stands there now, good, usual and poor, with the words for it.</summary>
    private static (Spread Curve, string Words) Before(ConversionRequest request) => request.PresentCover switch
    {
        PresentCover.GoodTurf => (Numbers(request, GroundCover.OpenSpaceGood, GroundCover.OpenSpaceGood, GroundCover.OpenSpaceFair),
            "lawn that covers over three quarters of the ground"),
        PresentCover.ThinTurf => (Numbers(request, GroundCover.OpenSpaceGood, GroundCover.OpenSpaceFair, GroundCover.OpenSpacePoor),
            "thin lawn, half to three quarters of the ground"),
        PresentCover.Weeds => (Numbers(request, GroundCover.OpenSpaceGood, GroundCover.OpenSpaceFair, GroundCover.OpenSpacePoor),
            "weedy open ground, taken as thin grass"),
        PresentCover.FlowerBed => (Numbers(request, GroundCover.OpenSpaceFair, GroundCover.OpenSpacePoor, GroundCover.BareSoil),
            "a dug bed (between poor open space and bare soil: our own convention)"),
        PresentCover.BareSoil => (Numbers(request, GroundCover.OpenSpacePoor, GroundCover.BareSoil, GroundCover.BareSoil),
            "bare soil (from memory)"),
        PresentCover.Shrubs => (Numbers(request, GroundCover.BrushGood, GroundCover.BrushFair, GroundCover.BrushPoor),
            "brush (fair: from memory)"),
        _ => throw new ArgumentOutOfRangeException(nameof(request), request.PresentCover, "Turf, weeds, bare soil or shrubs."),
    };

    private static Spread Numbers(ConversionRequest request, GroundCover good, GroundCover usual, GroundCover poor) =>
        new(CurveNumber.Of(good, request.SoilGroup), CurveNumber.Of(usual, request.SoilGroup), CurveNumber.Of(poor, request.SoilGroup));

    private static Spread OverYear(ConversionRequest request, IReadOnlyList<DailyWeather> year, Spread curve)
    {
        var rain = year.Where(d => d.RainMm is not null).Select(d => d.RainMm!.Value).ToList();
        double Litres(double number) => LandscapeWater.Litres(rain.Sum(r => CurveNumber.Runoff(r, number)), request.SquareMetres) * 365
            / rain.Count;
        return new Spread(Litres(curve.Low), Litres(curve.Mid), Litres(curve.High));
    }

    private static string[] Year(IReadOnlyList<DailyWeather> year, bool enough) => enough
        ? [$"The year’s runoff adds up the days from {WeatherYear.Words(year[0].Date)} to {WeatherYear.Words(year[^1].Date)}, each day as "
        + $"one rain on ground of ordinary wetness.",
            .. year.Count(d => d.RainMm is not null) < 365
                ? [$"{(365 - year.Count(d => d.RainMm is not null)).ToString(CultureInfo.InvariantCulture)} days without a figure were "
                + $"taken as like the others."] : Array.Empty<string>()]
        : [$"No year’s runoff: it needs {WeatherYear.DaysNeeded} days of rain records, and there are "
        + $"{year.Count(d => d.RainMm is not null).ToString(CultureInfo.InvariantCulture)} that can be used."];

    private static string Words(Spread curve) => curve.Low == curve.High
        ? curve.Mid.ToString("0", CultureInfo.InvariantCulture)
        : string.Create(CultureInfo.InvariantCulture, $"{curve.Mid:0} ({curve.Low:0}–{curve.High:0})");
}
