using System.Globalization;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>A plan's figures as they are printed, in the report's units and money.</summary>
internal sealed class PlanWording(ConversionReport report)
{
    private const double LitresPerGallon = 3.785411784;
    private const double SquareMetresPerSquareFoot = 0.3048 * 0.3048;

    public bool Customary => report.Units == Units.UsCustomary;

    public ChartUnit Water => Customary ? ChartUnit.Gallons : ChartUnit.CubicMetres;

    public string Money(double value) => Scale.Money(value, report.Currency);

    /// <summary>Middle figure, then the range.</summary>
    public string Money(Spread spread) => $"{Money(spread.Mid)} ({Money(spread.Low)}–{Money(spread.High)})";

    /// <summary>To the cent: the lines of a shopping list add up.</summary>
    public string Price(double value) => report.Currency + value.ToString("#,0.00", CultureInfo.InvariantCulture);

    public string Litres(double litres) => $"{Scale.Words(Water.Of(litres))}\u00A0{Water.Name}";

    public string Litres(Spread litres) => $"{Scale.Words(Water.Of(litres.Mid))} ({Scale.Words(Water.Of(litres.Low))}–{Scale.Words(Water.Of(litres.High))})\u00A0{Water.Name}";

    public string Depth(double millimetres) => Customary
        ? $"{Scale.Words(millimetres / 25.4)}\u00A0in"
        : $"{Scale.Words(Math.Round(millimetres))}\u00A0mm";

    public string Fuel(double litres) => Customary ? $"{Scale.Words(litres / LitresPerGallon)}\u00A0gal" : $"{Scale.Words(litres)}\u00A0litres";

    public static string Hours(double hours) => Scale.Words(hours);

    /// <summary>Whole from 10 up: nobody weighs or measures an area closer.</summary>
    public string Area(double squareMetres) => Wording.Unbroken(SketchChart.Area(squareMetres, Customary));

    /// <summary>Seeds on one unit of area.</summary>
    public string SeedDensity(double perSquareMetre) => Customary
        ? (perSquareMetre * SquareMetresPerSquareFoot).ToString("0.0", CultureInfo.InvariantCulture)
        : perSquareMetre.ToString("0", CultureInfo.InvariantCulture);

    /// <summary>Grams: two figures after the point under 1, one under 100.</summary>
    public static string Grams(double grams) => grams.ToString(grams < 1 ? "0.00" : grams < 100 ? "0.0" : "#,0", CultureInfo.InvariantCulture);

    public static string Percent(double share) => (100 * share).ToString(share < 0.0995 ? "0.0" : "0", CultureInfo.InvariantCulture);

    /// <summary>What is to be replaced.</summary>
    public string Ground() => report.Plan.Request.PresentCover switch
    {
        PresentCover.GoodTurf or PresentCover.ThinTurf => "lawn",
        PresentCover.Weeds => "weedy ground",
        PresentCover.BareSoil => "bare ground",
        _ => "shrub ground",
    };

    public string Height(double metres) => Wording.Height(metres, report.Units);

    /// <summary>Said wherever a price is read.</summary>
    public string Prices() => report.Plan.Money.PricesInvented ? "All prices are invented for the demo. " : "";
}
