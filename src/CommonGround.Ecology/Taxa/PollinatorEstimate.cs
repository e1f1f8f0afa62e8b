namespace CommonGround.Ecology.Taxa;

/// <summary>From whom an estimate was made.</summary>
public enum Relatives { Genus, Family, AllFamilies }

/// <summary>The pollinator value of a plant that nobody studied, from those of its relatives.</summary>
/// <param name="Value">Mean of the relatives, 0–1.</param>
/// <param name="Low">Lower end of the range in which four of five such plants lie, 0–1.</param>
/// <param name="High">Upper end of that range, 0–1.</param>
/// <param name="From">How near the relatives are.</param>
/// <param name="Count">Studied plants of the genus or family; for <see cref="Relatives.AllFamilies"/> the number of families.</param>
public sealed record PollinatorEstimate(double Value, double Low, double High, Relatives From, int Count)
{
    /// <summary>Fewest studied plants that speak for a genus.</summary>
    public const int LeastOfGenus = 2;

    /// <summary>Fewest studied plants that speak for a family.</summary>
    public const int LeastOfFamily = 3;

    /// <summary>Normal deviate that leaves a tenth at either end.</summary>
    private const double Tenth = 1.2815515655446004;

    /// <summary>Estimates the value of one taxon.</summary>
    /// <param name="taxon">The taxon; should it be among <paramref name="studied"/>, it takes no part.</param>
    /// <param name="studied">Taxa with an observed value, 0–1.</param>
    /// <returns><c>null</c> when fewer than two families were studied.</returns>
    /// <remarks>
    /// The genus speaks when two or more of it were studied, else the family when three or more were, else the mean of all families' means,
    /// in which each family counts once. The range is that of one more plant of the group: mean ± 1.2816·s·√(1 + 1/n), s pooled over all
    /// groups of that rank (one-way analysis of variance; Sokal and Rohlf, Biometry, from memory). With no relative in the family s adds
    /// the spread between families.
    /// </remarks>
    public static PollinatorEstimate? Of(CatalogueTaxon taxon, IEnumerable<CatalogueTaxon> studied)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        ArgumentNullException.ThrowIfNull(studied);
        var others = studied.Where(t => t is { PollinatorValue: not null, IsPollinatorEstimated: false }
            && t.ScientificName != taxon.ScientificName).ToList();
        var genera = Groups(others, Genus);
        if (genera.TryGetValue(Genus(taxon), out var genus) && genus.Count >= LeastOfGenus && Pooled(genera) is { } within)
            return Make(genus, within, Relatives.Genus);
        var families = Groups(others, t => t.Family);
        if (Pooled(families) is not { } spread) return null;
        if (families.TryGetValue(taxon.Family, out var family) && family.Count >= LeastOfFamily)
            return Make(family, spread, Relatives.Family);
        var means = families.Values.Select(f => f.Average()).ToList();
        return means.Count < 2 ? null : Make(means, Math.Sqrt((spread * spread) + Variance(means)), Relatives.AllFamilies);
    }

    private static PollinatorEstimate Make(List<double> values, double spread, Relatives from)
    {
        var mean = values.Average();
        var half = Tenth * spread * Math.Sqrt(1 + (1.0 / values.Count));
        return new PollinatorEstimate(mean, Math.Max(0, mean - half), Math.Min(1, mean + half), from, values.Count);
    }

    private static string Genus(CatalogueTaxon taxon) => taxon.ScientificName.Split(' ')[0];

    private static Dictionary<string, List<double>> Groups(List<CatalogueTaxon> taxa, Func<CatalogueTaxon, string> by) =>
        taxa.GroupBy(by, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Select(t => t.PollinatorValue!.Value).ToList(),
            StringComparer.Ordinal);

    private static double Variance(List<double> values)
    {
        var mean = values.Average();
        return values.Sum(v => (v - mean) * (v - mean)) / (values.Count - 1);
    }

    /// <summary>Standard deviation within groups, 0–1; null when no group has two.</summary>
    private static double? Pooled(Dictionary<string, List<double>> groups)
    {
        var (squares, freedom) = (0.0, 0);
        foreach (var group in groups.Values)
        {
            var mean = group.Average();
            squares += group.Sum(v => (v - mean) * (v - mean));
            freedom += group.Count - 1;
        }

        return freedom > 0 ? Math.Sqrt(squares / freedom) : null;
    }
}
