namespace CommonGround.Ecology.Diversity;

/// <summary>An estimate of how many taxa there are, the overlooked ones included. See also <see cref="Chao2Estimate"/>.</summary>
/// <param name="Value">Taxa, at least those met.</param>
/// <param name="StandardError">Taxa, 0 or more.</param>
/// <remarks>See docs/measures.md#jackknife-and-bootstrap.</remarks>
public sealed record RichnessEstimate(double Value, double StandardError)
{
    /// <summary>First-order jackknife: S + Q₁(n−1)/n, with Q₁ taxa met in one unit only.</summary>
    /// <param name="incidence">Which taxa are in which units.</param>
    /// <returns><c>null</c> with fewer than two units or when nothing was met.</returns>
    /// <remarks>
    /// SE² = (n−1)/n · (Σ rⱼ² − Q₁/n), rⱼ = taxa that only unit j holds. The original paper has Q₁²/n in that place; we follow the vegan
    /// package, whose help page states and explains Q₁/n. Source: Burnham and Overton (1979); see docs/measures.md#jackknife-and-bootstrap.
    /// </remarks>
    public static RichnessEstimate? FirstOrderJackknife(Incidence incidence)
    {
        ArgumentNullException.ThrowIfNull(incidence);
        if (incidence.Units < 2 || incidence.Richness == 0)
        {
            return null;
        }

        double n = incidence.Units;
        double inOne = incidence.Holding.Count(h => h == 1);
        var squares = incidence.UniquesOfUnit.Sum(r => (double)r * r);
        return new(incidence.Richness + (inOne * (n - 1) / n), Math.Sqrt((n - 1) / n * Math.Max(0, squares - (inOne / n))));
    }

    /// <summary>Bootstrap: S + Σᵢ (1 − nᵢ/n)ⁿ, the taxa that a second round of walks of the same size would be expected to miss.</summary>
    /// <param name="incidence">Which taxa are in which units.</param>
    /// <returns><c>null</c> with fewer than two units or when nothing was met.</returns>
    /// <remarks>
    /// Variance Σ qᵢ(1−qᵢ) + 2 Σ over pairs (Zᵢⱼⁿ − qᵢqⱼ), qᵢ = (1−nᵢ/n)ⁿ, Zᵢⱼ = share of units with neither taxon.
    /// Source: Smith and van Belle (1984); see docs/measures.md#jackknife-and-bootstrap.
    /// </remarks>
    public static RichnessEstimate? Bootstrap(Incidence incidence)
    {
        ArgumentNullException.ThrowIfNull(incidence);
        if (incidence.Units < 2 || incidence.Richness == 0)
        {
            return null;
        }

        double n = incidence.Units;
        double[] missed = [.. incidence.Holding.Select(h => Math.Pow(1 - (h / n), n))];
        double variance = 0;
        for (var i = 0; i < missed.Length; i++)
        {
            variance += missed[i] * (1 - missed[i]);
            for (var j = 0; j < i; j++)
            {
                var neither = 1 - ((incidence.Holding[i] + incidence.Holding[j] - incidence.HoldingBoth(i, j)) / n);
                variance += 2 * (Math.Pow(Math.Max(0, neither), n) - (missed[i] * missed[j]));
            }
        }

        return new(incidence.Richness + missed.Sum(), Math.Sqrt(Math.Max(0, variance)));
    }
}
