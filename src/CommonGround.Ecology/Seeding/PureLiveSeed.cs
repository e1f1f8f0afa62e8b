namespace CommonGround.Ecology.Seeding;

/// <summary>How much of a bag of seed can come up, and how heavy a bag it takes. Weights in and out share one unit.</summary>
/// <remarks>Source: the seed trade's definition of pure live seed, as printed by the Texas Department of Transportation and in USDA-SCS Job
/// Sheet ND-20 (1980).</remarks>
public static class PureLiveSeed
{
    /// <summary>Share of a bag's weight that is seed of the named kind and alive: PLS = purity × (germination + hard seed).</summary>
    /// <param name="purity">Seed of the named kind by weight, above 0 to 1.</param>
    /// <param name="germination">Of that seed, what comes up in the test, 0–1.</param>
    /// <param name="hardSeed">Of that seed, what is alive but dormant, 0–1; with <paramref name="germination"/> above 0 and at most
    /// 1.</param>
    /// <returns>Above 0 to 1.</returns>
    /// <remarks>Worked by hand: 0.98 × (0.92 + 0.05) = 0.9506.</remarks>
    public static double Fraction(double purity, double germination, double hardSeed = 0)
    {
        RequireShare(purity, nameof(purity));
        RequireShare(germination + hardSeed, nameof(germination));
        ArgumentOutOfRangeException.ThrowIfNegative(germination);
        ArgumentOutOfRangeException.ThrowIfNegative(hardSeed);
        return purity * (germination + hardSeed);
    }

    /// <summary>Weight of seed as sold that holds a weight of pure live seed: bulk = PLS weight ÷ PLS fraction.</summary>
    /// <param name="plsMass">0 or more, any unit of weight.</param>
    /// <param name="fraction">From <see cref="Fraction"/>, above 0 to 1.</param>
    /// <returns>Same unit, at least <paramref name="plsMass"/>.</returns>
    /// <remarks>Worked by hand: 20 lb ÷ 0.8075 = 24.77 lb.</remarks>
    public static double Bulk(double plsMass, double fraction)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(plsMass);
        RequireShare(fraction, nameof(fraction));
        return plsMass / fraction;
    }

    private static void RequireShare(double share, string name)
    {
        if (!(share > 0 && share <= 1))
        {
            throw new ArgumentOutOfRangeException(name, share, "A share of seed is above 0 and at most 1.");
        }
    }
}
