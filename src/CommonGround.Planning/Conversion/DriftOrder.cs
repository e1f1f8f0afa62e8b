using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Cuts the plugs of each taxon into drifts and puts the drifts in order, from the kerb back.</summary>
internal static class DriftOrder
{
    /// <summary>Height of a plant of which nobody knows it, m.</summary>
    private const double UnknownHeight = 0.8;

    /// <param name="taxa">Those without plugs are left out.</param>
    /// <param name="bands">Places in each band of rows, from the kerb back; their sum is the sum of the plugs.</param>
    public static IReadOnlyList<(PlannedTaxon Taxon, int Plugs)> Of(IReadOnlyList<PlannedTaxon> taxa, IReadOnlyList<int> bands)
    {
        var low = taxa.Where(t => t.Plugs > 0).SelectMany(Cut).OrderBy(d => Height(d.Taxon)).ThenBy(d => d.Taxon.Taxon.ScientificName,
            StringComparer.Ordinal).ToList();
        var ordered = new List<(PlannedTaxon Taxon, int Plugs)>();
        var (at, end) = (0, 0);
        foreach (var places in bands)
        {
            end += places;
            var here = new List<(PlannedTaxon Taxon, int Plugs)>();
            // A drift belongs to the band that holds its middle; the last band takes what is left.
            for (var full = ordered.Sum(d => d.Plugs); at < low.Count && (full + (low[at].Plugs / 2.0) <= end || end >= bands.Sum()); at++)
            {
                here.Add(low[at]);
                full += low[at].Plugs;
            }

            while (here.Count > 0)
            {
                var next = here.OrderBy(d => Clash(ordered, d.Taxon))
                    .ThenByDescending(d => here.Count(o => ReferenceEquals(o.Taxon, d.Taxon)))
                    .ThenBy(d => d.Taxon.Taxon.ScientificName, StringComparer.Ordinal).First();
                ordered.Add(next);
                here.Remove(next);
            }
        }

        return ordered;
    }

    /// <summary>Upper height of a grown plant, m.</summary>
    internal static double Height(PlannedTaxon taxon) => CandidateRules.Tall(taxon.Taxon) ?? UnknownHeight;

    /// <summary>Groups of about seven, of nine for grasses and sedges, of three for what stands tall.</summary>
    private static IEnumerable<(PlannedTaxon Taxon, int Plugs)> Cut(PlannedTaxon taxon)
    {
        var usual = taxon.Traits.Role switch { MixRole.Structural => 3, _ when taxon.Traits.IsGrass => 9, _ => 7 };
        var groups = Math.Max(1, (int)Math.Round((double)taxon.Plugs / usual));
        for (var i = 0; i < groups; i++)
        {
            yield return (taxon, (taxon.Plugs * (i + 1) / groups) - (taxon.Plugs * i / groups));
        }
    }

    /// <summary>How ill two neighbours go together: the same kind, two spreaders, then bloom at the same time.</summary>
    private static double Clash(List<(PlannedTaxon Taxon, int Plugs)> before, PlannedTaxon next)
    {
        if (before.Count == 0) return 0;
        var last = before[^1].Taxon;
        if (ReferenceEquals(last, next)) return 100;
        var spread = last.Traits.IsAggressive && next.Traits.IsAggressive ? 20 : 0;
        if (last.Taxon.Bloom is not { } one || next.Taxon.Bloom is not { } other)
            return spread + (last.Traits.IsGrass && next.Traits.IsGrass ? 12 : 0);
        return spread + Enumerable.Range(0, HalfMonth.Count).Count(t => one.Contains(t) && other.Contains(t));
    }
}
