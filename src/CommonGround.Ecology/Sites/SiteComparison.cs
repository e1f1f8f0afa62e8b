using CommonGround.Ecology.Diversity;

namespace CommonGround.Ecology.Sites;

/// <summary>How different two streets (or any two sites) are in what grows there; 0 the same, 1 nothing in common, <c>null</c> when both
/// are empty.</summary>
/// <param name="Sorensen">On presence alone, shared taxa counting twice.</param>
/// <param name="Jaccard">On presence alone.</param>
/// <param name="BrayCurtis">On cover, m².</param>
/// <remarks>See <see cref="Dissimilarity"/> and docs/measures.md#dissimilarity.</remarks>
public sealed record SiteComparison(double? Sorensen, double? Jaccard, double? BrayCurtis)
{
    /// <summary>Compares two communities of the same matrix.</summary>
    /// <param name="first">One site.</param>
    /// <param name="second">The other site.</param>
    /// <remarks>See docs/measures.md#dissimilarity.</remarks>
    public static SiteComparison Between(SiteCommunity first, SiteCommunity second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        int[] taxa = [.. first.Taxa.Concat(second.Taxa).Select(t => t.Taxon).Distinct().Order()];
        var (x, y) = (Covers(first, taxa), Covers(second, taxa));
        return new(Dissimilarity.Sorensen(x, y), Dissimilarity.Jaccard(x, y), Dissimilarity.BrayCurtis(x, y));
    }

    private static double[] Covers(SiteCommunity site, int[] taxa)
    {
        var covers = site.Taxa.ToDictionary(t => t.Taxon, t => t.CoverSquareMetres);
        return [.. taxa.Select(t => covers.GetValueOrDefault(t))];
    }
}
