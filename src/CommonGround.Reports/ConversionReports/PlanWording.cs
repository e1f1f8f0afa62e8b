using System.Globalization;
using CommonGround.Ecology.Seeding;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>A plan's figures as they are printed, in the report's units and money.</summary>
internal sealed class PlanWording(ConversionReport report)
{
    public bool Customary => report.Units == Units.UsCustomary;

    /// <summary>Litres on a small plot: 0.2 m³ tells nobody anything.</summary>
    public ChartUnit Water { get; } = report.Units == Units.UsCustomary ? ChartUnit.Gallons
        : report.Plan.Runoff.Storms.Select(s => s.BeforeMillimetres.High * report.Plan.Request.SquareMetres)
        .Append(report.Plan.Water?.LawnLitres.High ?? 0).Max() < 2000 ? ChartUnit.Litres : ChartUnit.CubicMetres;

    public string Money(double value) => Scale.Money(value, report.Currency);

    /// <summary>Middle figure, then the range.</summary>
    public string Money(Spread spread) => $"{Money(spread.Mid)} ({Money(spread.Low)}–{Money(spread.High)})";

    /// <summary>To the cent: the lines of a shopping list add up.</summary>
    public string Price(double value) => report.Currency + value.ToString("#,0.00", CultureInfo.InvariantCulture);

    public string Litres(double litres) => $"{Scale.Rough(Water.Of(litres))}\u00A0{Water.Name}";

    public string Litres(
        Spread litres) => $"{Scale.Rough(Water.Of(litres.Mid))} "
            + $"({Scale.Rough(Water.Of(litres.Low))}–{Scale.Rough(Water.Of(litres.High))})\u00A0{Water.Name}";

    public string Depth(double millimetres) => Customary
        ? $"{Scale.Words(millimetres / 25.4)}\u00A0in"
        : $"{Scale.Words(Math.Round(millimetres))}\u00A0mm";

    public string Fuel(Spread litres)
    {
        var unit = Customary ? ChartUnit.Gallons : ChartUnit.Litres;
        return $"{Scale.Words(unit.Of(litres.Mid))} ({Scale.Words(unit.Of(litres.Low))}–{Scale.Words(unit.Of(litres.High))})\u00A0{(Customary ? "gallons" : "litres")}";
    }

    public static string Hours(double hours) => Scale.Words(hours);

    /// <summary>Whole from 10 up: nobody weighs or measures an area closer.</summary>
    public string Area(double squareMetres) => Wording.Unbroken(SketchChart.Area(squareMetres, Customary));

    /// <summary>Seeds on one unit of area; never a nought for what is sown.</summary>
    public string SeedDensity(double perSquareMetre) => Density(Customary ? SeedRate.PerSquareFoot(perSquareMetre) : perSquareMetre);

    /// <summary>A weight of seed with its unit: grams or kilograms, ounces or pounds.</summary>
    public string Weight(double grams) => SeedWords.Weight(grams, Customary);

    /// <summary>A weight of seed in <see cref="WeightUnit"/>.</summary>
    public string WeightFigure(double grams) => SeedWords.Figure(grams, Customary);

    public string WeightUnit => Customary ? "oz" : "g";

    /// <summary>Money that may be less than one: to the cent below ten.</summary>
    public string Small(double value) => value < 9.995 ? Price(value) : Money(value);

    private static string Density(double seeds) => seeds.ToString(seeds < 0.095 ? "0.00" : seeds < 9.95 ? "0.0" : "0",
        CultureInfo.InvariantCulture);

    public static string Percent(double share) => (100 * share).ToString(share < 0.0995 ? "0.0" : "0", CultureInfo.InvariantCulture);

    /// <summary>What is to be replaced.</summary>
    public string Ground() => report.Plan.Request.PresentCover switch
    {
        PresentCover.GoodTurf or PresentCover.ThinTurf => "lawn",
        PresentCover.Weeds => "weedy ground",
        PresentCover.BareSoil => "bare ground",
        PresentCover.FlowerBed => "bed",
        _ => "shrub ground",
    };

    /// <summary>A sentence that holds a measure twice, in the reader's.</summary>
    public string In(string text) => UnitWords.In(text, Customary);

    public string Height(double metres) => Wording.Height(metres, report.Units);

    /// <summary>Said wherever a price is read.</summary>
    public string Prices() => report.Plan.Money.PricesInvented ? "All prices are invented for the demo. " : "";
}
