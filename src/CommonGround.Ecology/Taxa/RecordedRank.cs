namespace CommonGround.Ecology.Taxa;

/// <summary>Ranks above the species that an honest observer may stop at.</summary>
public static class RecordedRank
{
    /// <summary>Only the genus is known.</summary>
    public const string Genus = "genus";

    /// <summary>A group of species that are hard to tell apart, under the name of one of them.</summary>
    public const string Aggregate = "aggregate";

    /// <summary>Whether a record of <paramref name="above"/> says no more than one of <paramref name="taxon"/> does.</summary>
    /// <param name="above">Any taxon; only a genus or an aggregate can hold others.</param>
    /// <param name="taxon">Any taxon of the same list.</param>
    /// <returns>False for a taxon and itself. A genus holds every name that begins with it; an aggregate those with its first two words,
    /// its own ending left out.</returns>
    /// <remarks>See docs/measures.md#names-above-the-species.</remarks>
    public static bool Holds(CatalogueTaxon above, CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(above);
        ArgumentNullException.ThrowIfNull(taxon);
        return !ReferenceEquals(above, taxon) && above.Rank switch
        {
            Genus => Begins(taxon.ScientificName, above.ScientificName),
            Aggregate => taxon.Rank is not (Genus or Aggregate) && Begins(taxon.ScientificName, Stem(above.ScientificName)),
            _ => false,
        };
    }

    private static bool Begins(string name, string with) =>
        name.StartsWith(with, StringComparison.OrdinalIgnoreCase) && (name.Length == with.Length || name[with.Length] == ' ');

    /// <summary>"Solidago canadensis agg." is named after Solidago canadensis.</summary>
    private static string Stem(string aggregate) => string.Join(' ', aggregate.Split(' ').Take(2));
}
