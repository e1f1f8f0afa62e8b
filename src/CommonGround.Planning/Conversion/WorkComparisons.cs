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

    /// <summary>Hours of weeding and cutting per 100 m² of sown ground: years 1, 2, 3 and later; our own estimate, as the calendar has
    /// it.</summary>
    private static readonly double[] TendHours = [10, 5, 2.5, 2.5];

    /// <summary>Ground set with plugs is weeded by hand: so many times the hours of sown ground.</summary>
    private const double PlugFactor = 3;

    private const double PrepareMinutesPer100SquareMetres = 120;
    private const double SowMinutesPer100SquareMetres = 45;
    private const double MinutesPerPlug = 3;
    private const double CutMinutesPer100SquareMetres = 40;

    /// <summary>The high cut of year 1 goes through tall growth: half as long again as mowing lawn.</summary>
    private const double HighCutFactor = 1.5;

    /// <summary>100 ft² in hundreds of m².</summary>
    private const double HundredSquareFeet = 0.3048 * 0.3048;

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
                $"Preparing ground {Minutes(PrepareMinutesPer100SquareMetres)} and sowing {Minutes(SowMinutesPer100SquareMetres)}; "
                    + $"{MinutesPerPlug:0} minutes a plug (common practice).",
                "Clearing and sowing before the first growing season count to year 1.",
                $"Weeding and cutting [{TendHours[0]:0} hours per 100 m²|"
                    + $"{TendHours[0] * HundredSquareFeet:0.0} hours per 100 ft²] in year 1, half of it in year 2, a quarter after; "
                    + $"{PlugFactor:0} times as much on ground set with plugs, which is weeded by hand (our own estimate; weedy ground "
                    + "takes more).",
                "Of it three high cuts in year 1 and from year 2 one cut in March at "
                    + $"{Minutes(CutMinutesPer100SquareMetres)} (common practice).",
                $"Lawn: {prices.MowingsPerYear.Mid:0} mowings a year at {Minutes(prices.MowMinutesPer100SquareMetres.Mid)}; "
                    + $"petrol is the lawn mower's alone, and is saved only where a petrol mower is used.",
            ],
        };
    }

    private static string Minutes(double per100SquareMetres) =>
        $"[{per100SquareMetres:0} minutes per 100 m²|{per100SquareMetres * HundredSquareFeet:0} minutes per 100 ft²]";

    /// <summary>Kilograms of carbon dioxide from litres of petrol: 8,887 g a US gallon.</summary>
    /// <remarks>Source: US EPA (2014), EPA-420-F-14-040.</remarks>
    public static double Carbon(double petrolLitres) => petrolLitres / LitresPerUsGallon * CarbonDioxideKilogramsPerGallon;

    /// <summary>Low with low, middle with middle, high with high.</summary>
    internal static Spread Each(Spread one, Spread other, Func<double, double, double> join) =>
        new(join(one.Low, other.Low), join(one.Mid, other.Mid), join(one.High, other.High));

    private static double[] Year(int year, double hundreds, double highCut, ConversionRequest request, ConversionMix mix)
    {
        var months = new double[12];
        var cuts = year == 0 ? 3 * highCut : CutMinutesPer100SquareMetres * hundreds / 60;
        // Cutting is part of the year's hours; what is left of them is weeding, April to September.
        var weeding = Math.Max(0, (TendHours[year] * hundreds * (1 + ((PlugFactor - 1) * PlugShare(mix)))) - cuts);
        for (var month = 3; month <= 8; month++)
        {
            months[month] += weeding / 6;
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

    /// <summary>Share of the ground that is set with plugs, 0–1.</summary>
    private static double PlugShare(ConversionMix mix)
    {
        var all = mix.Taxa.Sum(t => t.SquareMetres);
        return all > 0 ? mix.Taxa.Where(t => t.As == PlantedAs.Plug).Sum(t => t.SquareMetres) / all : 0;
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
