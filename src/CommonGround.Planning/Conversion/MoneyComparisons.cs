namespace CommonGround.Planning.Conversion;

/// <summary>Ten years of money, the planting against keeping the lawn. Nothing is earned here: the question is which costs less.</summary>
public static class MoneyComparisons
{
    private const int Years = 10;

    /// <summary>A young planting is weeded and cut more: upkeep of years 1 and 2 as a multiple of a later year's. Common practice; the
    /// figures are ours.</summary>
    private static readonly double[] YoungUpkeep = [2.5, 1.5];

    /// <summary>A price nobody has entered may be off by so much either way. Our own convention.</summary>
    private const double EstimateDoubt = 0.4;

    /// <summary>Sums so far, discounted, low–middle–high, and the year from which the planting has cost less.</summary>
    /// <param name="water">Null, or a lawn that nobody waters, leaves water out on both sides.</param>
    public static MoneyComparison Of(ConversionRequest request, ConversionMix mix, PriceTable prices, WorkComparison work,
        WaterComparison? water = null)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(mix);
        ArgumentNullException.ThrowIfNull(prices);
        ArgumentNullException.ThrowIfNull(work);
        water = request.WatersLawn ? water : null;
        var ground = request.SquareMetres;
        var doubt = mix.Taxa.Where(t => t.PriceEstimated).Sum(t => t.Cost) * EstimateDoubt;
        var seed = new Spread(mix.Cost - doubt, mix.Cost, mix.Cost + doubt);
        var establishment = WorkComparisons.Each(seed, prices.PreparePerSquareMetre, (plants, prepare) => plants + (prepare * ground));
        var fuel = Of(work.FuelLitresYear, prices.FuelPerLitre);
        var lawnHours = Of(work.LawnHoursYear, prices.HourValue);
        var lawnYear = Sum(Of(prices.LawnPerSquareMetreYear, ground), fuel, lawnHours,
            Of(water?.LawnLitres ?? default, prices.WaterPerCubicMetre / 1000));
        var plantingWater = Of(water?.PlantingLitres ?? default, prices.WaterPerCubicMetre / 1000);

        List<Spread> planting = [establishment];
        List<Spread> lawn = [default];
        for (var year = 1; year <= Years; year++)
        {
            var rate = Math.Pow(1 + prices.DiscountRate, -year);
            var hours = work.Years[Math.Min(year, work.Years.Count) - 1].Sum() * prices.HourValue;
            var upkeep = Of(prices.PlantingPerSquareMetreYear, ground * (year <= YoungUpkeep.Length ? YoungUpkeep[year - 1] : 1));
            planting.Add(Sum(planting[^1], Of(Sum(upkeep, plantingWater, new(hours, hours, hours)), rate)));
            lawn.Add(Sum(lawn[^1], Of(lawnYear, rate)));
        }

        return new(
            establishment, planting, lawn,
            FirstYear(planting, lawn, p => p.Mid, l => l.Mid), FirstYear(planting, lawn, p => p.Low, l => l.High),
                FirstYear(planting, lawn, p => p.High, l => l.Low),
            prices.Invented, Assumptions(request, mix, prices, water));
    }

    private static List<string> Assumptions(ConversionRequest request, ConversionMix mix, PriceTable prices, WaterComparison? water)
    {
        var said = new List<string>
        {
            $"Later years are discounted by {prices.DiscountRate:P1} a year.",
            $"Upkeep of the planting is {YoungUpkeep[0]:0.#} times as dear in year 1 and {YoungUpkeep[1]:0.#} times in year 2 (common "
                + $"practice; the figures are ours).",
            prices.HourValue > 0 ? $"An hour of one's own work counts {prices.HourValue:0.00}, on both sides."
                : "One's own work is counted as free, on both sides.",
            !request.WatersLawn ? "Water is left out on both sides: the lawn is not watered."
                : water is null ? "Water is left out on both sides: there is no weather to reckon it from."
                : $"Water costs [{prices.WaterPerCubicMetre:0.00} per 1,000 litres|"
                    + $"{prices.WaterPerCubicMetre * 3.785411784:0.00} per 1,000 gallons].",
            "The lawn's figure is for keeping the one that is there; laying it is not counted.",
        };
        if (mix.Taxa.Any(t => t.PriceEstimated))
            said.Add($"Prices that nobody has entered may be off by {EstimateDoubt:P0} either way (our own convention).");
        if (prices.Invented) said.Add("Prices are invented for the demo.");
        return said;
    }

    private static int? FirstYear(List<Spread> planting, List<Spread> lawn, Func<Spread, double> ofPlanting, Func<Spread, double> ofLawn)
    {
        for (var year = 1; year <= Years; year++)
        {
            if (ofPlanting(planting[year]) < ofLawn(lawn[year])) return year;
        }

        return null;
    }

    private static Spread Of(Spread spread, double factor) => new(spread.Low * factor, spread.Mid * factor, spread.High * factor);

    private static Spread Sum(params ReadOnlySpan<Spread> spreads)
    {
        Spread sum = default;
        foreach (var spread in spreads)
        {
            sum = WorkComparisons.Each(sum, spread, (a, b) => a + b);
        }

        return sum;
    }
}
