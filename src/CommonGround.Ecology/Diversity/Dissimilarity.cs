namespace CommonGround.Ecology.Diversity;

/// <summary>How different two sites are in what grows there: 0 the same, 1 nothing in common.</summary>
/// <remarks>Each method takes the two sites' covers (m²) or counts, the same taxa in the same places of both lists, 0 where
/// absent.</remarks>
public static class Dissimilarity
{
    /// <summary>The share of mismatches when shared taxa count twice: (b+c)/(2a+b+c).</summary>
    /// <param name="first">Covers or counts per taxon, each ≥ 0.</param>
    /// <param name="second">The same taxa at the other site.</param>
    /// <returns>0 to 1; <c>null</c> when nothing grows at either site.</returns>
    /// <remarks>a taxa are shared, b and c are at one site only. Source: Sørensen (1948); see docs/measures.md#dissimilarity.</remarks>
    public static double? Sorensen(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        var (shared, single) = Matches(first, second);
        return shared + single > 0 ? single / ((2 * shared) + single) : null;
    }

    /// <summary>The share of all taxa of both sites that only one of them has: (b+c)/(a+b+c).</summary>
    /// <param name="first">Covers or counts per taxon, each ≥ 0.</param>
    /// <param name="second">The same taxa at the other site.</param>
    /// <returns>0 to 1; <c>null</c> when nothing grows at either site.</returns>
    /// <remarks>a taxa are shared, b and c are at one site only. Source: Jaccard (1901); see docs/measures.md#dissimilarity.</remarks>
    public static double? Jaccard(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        var (shared, single) = Matches(first, second);
        return shared + single > 0 ? single / (shared + single) : null;
    }

    /// <summary>How different the amounts are: Σ|xᵢ − yᵢ| / Σ(xᵢ + yᵢ).</summary>
    /// <param name="first">Covers or counts per taxon, each ≥ 0.</param>
    /// <param name="second">The same taxa at the other site.</param>
    /// <returns>0 to 1; <c>null</c> when nothing grows at either site.</returns>
    /// <remarks>Source: Bray and Curtis (1957); see docs/measures.md#dissimilarity.</remarks>
    public static double? BrayCurtis(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        RequirePair(first, second);
        double difference = 0, sum = 0;
        for (var i = 0; i < first.Count; i++)
        {
            difference += Math.Abs(first[i] - second[i]);
            sum += first[i] + second[i];
        }

        return sum > 0 ? difference / sum : null;
    }

    private static (double Shared, double Single) Matches(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        RequirePair(first, second);
        int shared = 0, single = 0;
        for (var i = 0; i < first.Count; i++)
        {
            shared += first[i] > 0 && second[i] > 0 ? 1 : 0;
            single += first[i] > 0 != second[i] > 0 ? 1 : 0;
        }

        return (shared, single);
    }

    private static void RequirePair(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        DiversityIndex.RequireAbundances(first);
        DiversityIndex.RequireAbundances(second);
        if (first.Count != second.Count)
        {
            throw new ArgumentException("Both sites list the same taxa.", nameof(second));
        }
    }
}
