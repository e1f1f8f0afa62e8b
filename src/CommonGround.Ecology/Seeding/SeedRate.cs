namespace CommonGround.Ecology.Seeding;

/// <summary>From seeds on the ground to grams on the scales, and between metric and US customary rates.</summary>
/// <remarks>Conversions are exact by definition: 1 ft = 0.3048 m, 1 lb = 453.59237 g, 1 acre = 43,560 ft².</remarks>
public static class SeedRate
{
    /// <summary>Square metres in a square foot.</summary>
    public const double SquareMetresPerSquareFoot = 0.3048 * 0.3048;

    private const double GramsPerPound = 453.59237;
    private const double SquareFeetPerAcre = 43_560;

    /// <summary>Seeds per square foot from seeds per square metre: × 0.09290304.</summary>
    public static double PerSquareFoot(double perSquareMetre) => perSquareMetre * SquareMetresPerSquareFoot;

    /// <summary>Seeds per square metre from seeds per square foot: ÷ 0.09290304.</summary>
    public static double PerSquareMetre(double perSquareFoot) => perSquareFoot / SquareMetresPerSquareFoot;

    /// <summary>Pounds per acre from grams per square metre.</summary>
    public static double PoundsPerAcre(double gramsPerSquareMetre) => gramsPerSquareMetre / GramsPerPound * SquareMetresPerSquareFoot
        * SquareFeetPerAcre;

    /// <summary>Grams of pure live seed that put so many live seeds on the ground: g = seeds per m² × m² ÷ seeds per g.</summary>
    /// <param name="liveSeedsPerSquareMetre">0 or more.</param>
    /// <param name="areaSquareMetres">0 or more.</param>
    /// <param name="seedsPerGram">Above 0.</param>
    /// <returns>Grams, 0 or more; twice the area takes twice the grams.</returns>
    /// <remarks>Source: Tallgrass Ontario, Creating a seed mix. Worked by hand: 5 seeds/m² × 10,000 m² ÷ 3,570 seeds/g = 14.0 g.</remarks>
    public static double Grams(double liveSeedsPerSquareMetre, double areaSquareMetres, double seedsPerGram)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(liveSeedsPerSquareMetre);
        ArgumentOutOfRangeException.ThrowIfNegative(areaSquareMetres);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(seedsPerGram);
        return liveSeedsPerSquareMetre * areaSquareMetres / seedsPerGram;
    }

    /// <summary>Live seeds per square metre from grams of pure live seed: the way back from <see cref="Grams"/>.</summary>
    /// <param name="plsGrams">0 or more.</param>
    /// <param name="areaSquareMetres">Above 0.</param>
    /// <param name="seedsPerGram">Above 0.</param>
    /// <returns>0 or more.</returns>
    public static double SeedsPerSquareMetre(double plsGrams, double areaSquareMetres, double seedsPerGram)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(plsGrams);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(areaSquareMetres);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(seedsPerGram);
        return plsGrams * seedsPerGram / areaSquareMetres;
    }

    /// <summary>Seeds per gram from seeds per pound.</summary>
    public static double PerGram(double seedsPerPound) => seedsPerPound / GramsPerPound;

    /// <summary>Seeds per pound from seeds per gram.</summary>
    public static double PerPound(double seedsPerGram) => seedsPerGram * GramsPerPound;
}
