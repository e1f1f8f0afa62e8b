using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Seeding;

/// <summary>Seed counts held against those of relatives: a placeholder or a slip of the decimal point stands out.</summary>
public static class SeedRelatives
{
    /// <summary>Seeds per gram may be this many times more or fewer than in the middle of the genus; the convention of this
    /// project.</summary>
    public const double GenusFactor = 5;

    /// <summary>The same for the family, whose seeds differ far more.</summary>
    public const double FamilyFactor = 50;

    private const int LeastOfGenus = 2, LeastOfFamily = 5;

    /// <summary>How many times a taxon's seeds per gram are above (more than 1) or below (less than 1) the median of its
    /// relatives.</summary>
    /// <param name="taxon">A taxon with seeds per gram.</param>
    /// <param name="taxa">The catalogue; the taxon itself takes no part.</param>
    /// <returns>The ratio, the factor allowed and who the relatives are; <c>null</c> where too few relatives have a count.</returns>
    public static (double Ratio, double Allowed, Relatives From)? Compare(CatalogueTaxon taxon, IEnumerable<CatalogueTaxon> taxa)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        ArgumentNullException.ThrowIfNull(taxa);
        if (taxon.SeedsPerGram is not { } seeds) return null;
        var others = taxa.Where(t => t.SeedsPerGram is not null && t.ScientificName != taxon.ScientificName && t.Family == taxon.Family)
            .ToList();
        var genus = taxon.ScientificName.Split(' ')[0] + " ";
        var near = others.FindAll(t => t.ScientificName.StartsWith(genus, StringComparison.Ordinal));
        if (near.Count >= LeastOfGenus) return (seeds / Median(near), GenusFactor, Relatives.Genus);
        return others.Count >= LeastOfFamily ? (seeds / Median(others), FamilyFactor, Relatives.Family) : null;
    }

    /// <summary>Whether a taxon's seed count lies farther from its relatives' than allowed; false where it cannot be told.</summary>
    public static bool IsOutlier(CatalogueTaxon taxon, IEnumerable<CatalogueTaxon> taxa) =>
        Compare(taxon, taxa) is { } found && (found.Ratio > found.Allowed || found.Ratio < 1 / found.Allowed);

    // On the scale of logarithms, where twice as many and half as many are equally far.
    private static double Median(List<CatalogueTaxon> taxa)
    {
        var logs = taxa.Select(t => Math.Log(t.SeedsPerGram!.Value)).Order().ToList();
        return Math.Exp((logs[(logs.Count - 1) / 2] + logs[logs.Count / 2]) / 2);
    }
}
