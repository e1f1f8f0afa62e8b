namespace CommonGround.Ecology.Water;

/// <summary>How much water a lawn or a planting asks for, and what rain leaves to the hose.</summary>
public static class LandscapeWater
{
    /// <summary>Landscape coefficient KL = ks · kd · kmc: the share of ET₀ that a planting uses.</summary>
    /// <param name="species">ks, the plants' own thirst, 0–1.</param>
    /// <param name="density">kd, how closely they stand, usually 0.5–1.3.</param>
    /// <param name="microclimate">kmc, shade below 1, heat and wind above 1, usually 0.5–1.4.</param>
    /// <remarks>Source: Costello, Matheny and Clark (2000), A Guide to Estimating Irrigation Water Needs of Landscape Plantings in
    /// California.</remarks>
    public static double Coefficient(double species, double density, double microclimate) => species * density * microclimate;

    /// <summary>Water that a planting uses, ETL = KL · ET₀.</summary>
    /// <param name="coefficient">KL, 0 or more.</param>
    /// <param name="referenceMillimetres">ET₀ of the time in question, mm.</param>
    /// <returns>mm.</returns>
    /// <remarks>Source: Costello, Matheny and Clark (2000).</remarks>
    public static double Use(double coefficient, double referenceMillimetres) => coefficient * referenceMillimetres;

    /// <summary>The part of a month's rain that roots can use: P(125 − 0.2 P)/125 up to 250 mm, 125 + 0.1 P above.</summary>
    /// <param name="monthMillimetres">P, rain of one month, mm, 0 or more.</param>
    /// <returns>mm, at most P.</returns>
    /// <remarks>The US Soil Conservation Service's formula as Smith (1992) gives it, CROPWAT, FAO Irrigation and Drainage Paper 46; from
    /// memory.</remarks>
    public static double EffectiveRain(double monthMillimetres)
    {
        if (!(monthMillimetres >= 0))
        {
            throw new ArgumentOutOfRangeException(nameof(monthMillimetres), monthMillimetres, "Rain is 0 mm or more.");
        }

        return monthMillimetres <= 250 ? monthMillimetres * (125 - (0.2 * monthMillimetres)) / 125 : 125 + (0.1 * monthMillimetres);
    }

    /// <summary>What the hose must give in a month: max(0, KL · ET₀ − effective rain).</summary>
    /// <param name="coefficient">KL, 0 or more.</param>
    /// <param name="referenceMillimetres">ET₀ of the month, mm.</param>
    /// <param name="rainMillimetres">Rain of the month, mm.</param>
    /// <returns>mm, 0 or more. It takes the watering itself to lose nothing.</returns>
    public static double IrrigationNeed(double coefficient, double referenceMillimetres, double rainMillimetres) =>
        Math.Max(0, Use(coefficient, referenceMillimetres) - EffectiveRain(rainMillimetres));

    /// <summary>A depth of water over an area. One millimetre on one square metre is one litre.</summary>
    public static double Litres(double millimetres, double squareMetres) => millimetres * squareMetres;

    /// <summary>Water allowance of ordinances, ET₀ · (f · A + (1 − f) · S): special areas S, such as vegetable beds, get their whole
    /// ET₀.</summary>
    /// <param name="referenceMillimetres">ET₀ of the time in question, mm.</param>
    /// <param name="areaSquareMetres">A, all planted ground, the special part included.</param>
    /// <param name="specialSquareMetres">S, part of A.</param>
    /// <param name="fraction">f, the share of ET₀ allowed, 0–1.</param>
    /// <returns>Litres.</returns>
    /// <remarks>Source: California Code of Regulations, title 23, section 492.4 (2009), Maximum Applied Water Allowance.</remarks>
    public static double Allowance(double referenceMillimetres, double areaSquareMetres, double specialSquareMetres, double fraction) =>
        Litres(referenceMillimetres, (fraction * areaSquareMetres) + ((1 - fraction) * specialSquareMetres));
}
