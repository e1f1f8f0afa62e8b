namespace CommonGround.Planning.Conversion;

/// <summary>Hours of work by month, for the planting and for the lawn it replaces.</summary>
/// <remarks>
/// Rates of work are common practice and our own rounding of it, not measurements: they are listed in the result, so that nobody takes them
/// for more.
/// </remarks>
public static class WorkComparisons
{
    /// <summary>How a year's mowings of cool-season turf fall on the months: most in the flush of May, none in winter. Common
    /// practice.</summary>
    private static readonly double[] MowingByMonth = [0, 0, 0, 3, 5, 4.5, 3.5, 3, 4, 3, 0, 0];

    /// <summary>Minutes of weeding per 100 m² and month, April–September: years 1, 2, 3 and later.</summary>
    private static readonly double[] WeedMinutes = [45, 30, 20, 10];

    private const double PrepareMinutesPer100SquareMetres = 120;
    private const double SowMinutesPer100SquareMetres = 45;
    private const double MinutesPerPlug = 3;
    private const double CutMinutesPer100SquareMetres = 40;

    /// <summary>The high cut of year 1 goes through tall growth: half as long again as mowing lawn.</summary>
    private const double HighCutFactor = 1.5;
    private const double LitresPerUsGallon = 3.785411784;
    private const double CarbonDioxideKilogramsPerGallon = 8.887;

    /// <summary>Work of the first three years, a later year, and of the lawn; petrol that is no longer burnt.</summary>
    public static WorkComparison Of(ConversionRequest request, ConversionMix mix, PriceTable prices)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(mix);
        ArgumentNullException.ThrowIfNull(prices);
        var hundreds = request.SquareMetres / 100;
        var lawn = Each(prices.MowMinutesPer100SquareMetres, prices.MowingsPerYear, (minutes, times) => minutes * times * hundreds / 60);
        var fuel = Each(lawn, prices.FuelLitresPerHour, (hours, litres) => hours * litres);
        var highCut = prices.MowMinutesPer100SquareMetres.Mid * HighCutFactor * hundreds / 60;
        List<double[]> years = [.. Enumerable.Range(0, 4).Select(y => Year(y, hundreds, highCut, request, mix))];
        return new(years, [.. MowingByMonth.Select(m => m / MowingByMonth.Sum() * lawn.Mid)], lawn, fuel)
        {
            CarbonDioxideKilogramsYear = new(Carbon(fuel.Low), Carbon(fuel.Mid), Carbon(fuel.High)),
            Assumptions =
            [
                $"Preparing ground {PrepareMinutesPer100SquareMetres:0} and sowing {SowMinutesPer100SquareMetres:0} minutes per 100 m²; "
                    + $"{MinutesPerPlug:0} minutes a plug (common practice).",
                "Clearing and sowing before the first growing season count to year 1.",
                $"Weeding {string.Join(", ", WeedMinutes[..3])} minutes per 100 m² and month from April to September in years 1, 2 and 3, "
                    + $"{WeedMinutes[3]} later (our own convention; weedy ground takes more).",
                "Three high cuts in year 1; from year 2 one cut in March at "
                    + $"{CutMinutesPer100SquareMetres:0} minutes per 100 m² (common practice).",
                $"Lawn: {prices.MowingsPerYear.Mid:0} mowings a year at {prices.MowMinutesPer100SquareMetres.Mid:0} minutes per 100 m²; "
                    + $"petrol is the lawn mower's alone, and is saved only where a petrol mower is used.",
            ],
        };
    }

    /// <summary>Kilograms of carbon dioxide from litres of petrol: 8,887 g a US gallon.</summary>
    /// <remarks>Source: US EPA (2014), EPA-420-F-14-040.</remarks>
    public static double Carbon(double petrolLitres) => petrolLitres / LitresPerUsGallon * CarbonDioxideKilogramsPerGallon;

    /// <summary>Low with low, middle with middle, high with high.</summary>
    internal static Spread Each(Spread one, Spread other, Func<double, double, double> join) =>
        new(join(one.Low, other.Low), join(one.Mid, other.Mid), join(one.High, other.High));

    private static double[] Year(int year, double hundreds, double highCut, ConversionRequest request, ConversionMix mix)
    {
        var months = new double[12];
        for (var month = 3; month <= 8; month++)
        {
            months[month] += WeedMinutes[year] * hundreds / 60;
        }

        if (year == 0)
        {
            foreach (var month in new[] { 5, 6, 7 })
            {
                months[month] += highCut;
            }

            var sowing = (mix.Taxa.Any(t => t.SeedsPerSquareMetre > 0) ? 1 : 0) * SowMinutesPer100SquareMetres * hundreds / 60;
            var planting = mix.Taxa.Sum(t => t.Plugs) * MinutesPerPlug / 60;
            var (prepare, put) = Months(request.Start);
            months[prepare] += PrepareMinutesPer100SquareMetres * hundreds / 60;
            months[put] += sowing + planting;
        }
        else
        {
            months[2] += CutMinutesPer100SquareMetres * hundreds / 60;
        }

        return months;
    }

    /// <summary>Months, 0–11, in which ground is cleared and seed or plugs go in; work before the first growing season counts to year
    /// 1.</summary>
    internal static (int Prepare, int Put) Months(StartSeason start) => start switch
    {
        StartSeason.DormantSowing => (6, 10),
        StartSeason.Spring => (8, 4),
        _ => (5, 8),
    };
}
