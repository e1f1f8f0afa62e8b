using System.Globalization;

namespace CommonGround.Reports.Charts;

/// <summary>Weights of seed as people buy it: grams and kilograms, or ounces and pounds. What is little is said so, and is never a
/// nought.</summary>
public static class SeedWords
{
    private const double GramsPerOunce = 28.349523125, OuncesPerPound = 16;

    /// <summary>"12 g", "0.4 g", "1.2 kg"; "12 oz", "0.03 oz", "1.3 lb".</summary>
    /// <param name="grams">0 or more.</param>
    /// <param name="customary">Ounces and pounds.</param>
    public static string Weight(double grams, bool customary)
    {
        var (value, unit) = customary
            ? grams / GramsPerOunce is var ounces && ounces >= OuncesPerPound ? (ounces / OuncesPerPound, "lb") : (ounces, "oz")
            : grams >= 1000 ? (grams / 1000, "kg") : (grams, "g");
        return $"{Figure(value)}\u00A0{unit}";
    }

    /// <summary>Without its unit, in grams or ounces.</summary>
    public static string Figure(double grams, bool customary) => Figure(customary ? grams / GramsPerOunce : grams);

    /// <summary>At least one figure that is not nought: two decimals under a tenth, one under ten.</summary>
    private static string Figure(double value) => value <= 0 ? "0" : value < 0.005 ? "under 0.01"
        : value.ToString(value < 0.995 ? "0.00" : value < 9.95 ? "0.0" : "#,0", CultureInfo.InvariantCulture);
}
