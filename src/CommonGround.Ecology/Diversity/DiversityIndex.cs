namespace CommonGround.Ecology.Diversity;

/// <summary>How many taxa a site holds and how evenly they share the ground.</summary>
/// <remarks>
/// Every method takes the cover (m²) or the count of each taxon, one entry per taxon in any order; zeros are taxa that are absent and
/// change nothing. Negative, NaN or infinite entries throw. A site where nothing grows has richness 0; every other index of it is
/// <c>null</c>.
/// </remarks>
public static class DiversityIndex
{
    /// <summary>How many taxa grow here: S = the number of entries above 0.</summary>
    /// <param name="abundances">Cover m² or counts, one entry per taxon, each ≥ 0, order irrelevant.</param>
    /// <returns>Taxa, 0 or more; 0 for an empty site.</returns>
    /// <remarks>See docs/measures.md#richness.</remarks>
    public static int Richness(IReadOnlyCollection<double> abundances)
    {
        RequireAbundances(abundances);
        return abundances.Count(a => a > 0);
    }

    /// <summary>How hard it is to guess the taxon of a square centimetre of plant picked at random: H′ = −Σ pᵢ ln pᵢ, pᵢ = aᵢ/Σa.</summary>
    /// <param name="abundances">Cover m² or counts, one entry per taxon, each ≥ 0, order irrelevant.</param>
    /// <returns>Nats (natural logarithm), from 0 to ln(richness); <c>null</c> for an empty site.</returns>
    /// <remarks>Source: Shannon (1948); see docs/measures.md#shannon.</remarks>
    public static double? Shannon(IReadOnlyCollection<double> abundances) =>
        Total(abundances) is { } total ? abundances.Where(a => a > 0).Sum(a => -(a / total) * Math.Log(a / total)) : null;

    /// <summary>The chance that two bits of plant picked at random are of different taxa: 1 − Σ pᵢ².</summary>
    /// <param name="abundances">Cover m² or counts, one entry per taxon, each ≥ 0, order irrelevant.</param>
    /// <returns>0 (one taxon) to 1 − 1/richness; <c>null</c> for an empty site.</returns>
    /// <remarks>Source: Simpson (1949); see docs/measures.md#simpson.</remarks>
    public static double? Simpson(IReadOnlyCollection<double> abundances) =>
        SumOfSquaredShares(abundances) is { } sum ? 1 - sum : null;

    /// <summary>The number of equally common taxa that would be as hard to tell apart in pairs: 1/Σ pᵢ².</summary>
    /// <param name="abundances">Cover m² or counts, one entry per taxon, each ≥ 0, order irrelevant.</param>
    /// <returns>Taxa, from 1 to richness; <c>null</c> for an empty site.</returns>
    /// <remarks>Source: Simpson (1949); Hill (1973); see docs/measures.md#simpson.</remarks>
    public static double? InverseSimpson(IReadOnlyCollection<double> abundances) =>
        SumOfSquaredShares(abundances) is { } sum ? 1 / sum : null;

    /// <summary>How evenly the taxa share the ground: J = H′/ln S; 1 means all cover the same area.</summary>
    /// <param name="abundances">Cover m² or counts, one entry per taxon, each ≥ 0, order irrelevant.</param>
    /// <returns>0 to 1; <c>null</c> for an empty site and for a single taxon, where it would be 0/0.</returns>
    /// <remarks>Source: Pielou (1966); see docs/measures.md#evenness.</remarks>
    public static double? Evenness(IReadOnlyCollection<double> abundances) =>
        Shannon(abundances) is { } shannon && Richness(abundances) is > 1 and var richness
            ? Math.Min(1, shannon / Math.Log(richness))
            : null;

    /// <summary>The effective number of taxa of order q: the higher q, the less rare taxa count. (Σ pᵢ^q)^(1/(1−q)); exp(H′) at q =
    /// 1.</summary>
    /// <param name="abundances">Cover m² or counts, one entry per taxon, each ≥ 0, order irrelevant.</param>
    /// <param name="q">Order, 0 or more: 0 is richness, 1 exp(Shannon), 2 inverse Simpson.</param>
    /// <returns>Taxa, from 1 to richness; <c>null</c> for an empty site, at every order (richness alone is 0 there).</returns>
    /// <remarks>Source: Hill (1973); see docs/measures.md#hill-numbers.</remarks>
    public static double? HillNumber(IReadOnlyCollection<double> abundances, double q)
    {
        if (!double.IsFinite(q) || q < 0)
        {
            throw new ArgumentOutOfRangeException(nameof(q), q, "The order of a Hill number is 0 or more.");
        }

        if (Total(abundances) is not { } total)
        {
            return null;
        }

        return q switch
        {
            0 => Richness(abundances),
            1 => Math.Exp(Shannon(abundances)!.Value),
            2 => InverseSimpson(abundances),
            _ => Math.Pow(abundances.Where(a => a > 0).Sum(a => Math.Pow(a / total, q)), 1 / (1 - q)),
        };
    }

    private static double? SumOfSquaredShares(IReadOnlyCollection<double> abundances) =>
        Total(abundances) is { } total ? abundances.Sum(a => a / total * (a / total)) : null;

    private static double? Total(IReadOnlyCollection<double> abundances)
    {
        RequireAbundances(abundances);
        var total = abundances.Sum();
        return total > 0 ? total : null;
    }

    internal static void RequireAbundances(IReadOnlyCollection<double> abundances)
    {
        ArgumentNullException.ThrowIfNull(abundances);
        foreach (var abundance in abundances)
        {
            if (!double.IsFinite(abundance) || abundance < 0)
            {
                throw new ArgumentOutOfRangeException(nameof(abundances), abundance, "An abundance is a finite number, 0 or more.");
            }
        }
    }
}
