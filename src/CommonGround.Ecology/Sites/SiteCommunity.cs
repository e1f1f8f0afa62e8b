using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Sites;

/// <summary>One taxon at a site: its cover summed over the site's yards.</summary>
/// <param name="Taxon">Index into <see cref="CommunityMatrix.Taxa"/>.</param>
/// <param name="CoverSquareMetres">All cover, m², above 0.</param>
/// <param name="CertainSquareMetres">The part whose identification is not tentative, m², 0 to <paramref name="CoverSquareMetres"/>.</param>
/// <param name="YardsHolding">Yards of the site in which it grows, 1 to all.</param>
public readonly record struct SiteTaxon(int Taxon, double CoverSquareMetres, double CertainSquareMetres, int YardsHolding)
{
    /// <summary>It rests on old sightings in every yard of the site that holds it.</summary>
    public bool Old { get; init; }
}

/// <summary>What grows at a site, be it a yard, a block, a street or a neighbourhood: its yards rolled up.</summary>
/// <param name="Yards">Yards of the site, empty ones included.</param>
/// <param name="Taxa">One entry per taxon present, by taxon index.</param>
/// <remarks>See docs/measures.md#roll-up.</remarks>
public sealed record SiteCommunity(int Yards, IReadOnlyList<SiteTaxon> Taxa)
{
    /// <summary>Rolls yards up into one community: covers are added, yards that hold a taxon are counted.</summary>
    /// <param name="yards">The yards of the site; none twice.</param>
    /// <returns>An empty list of taxa when nothing grows there.</returns>
    /// <remarks>Cover aᵢ = Σ over yards; yards holding i = number of yards with aᵢ &gt; 0. See docs/measures.md#roll-up.</remarks>
    public static SiteCommunity Of(IEnumerable<YardCommunity> yards)
    {
        ArgumentNullException.ThrowIfNull(yards);
        var taxa = new SortedDictionary<int, SiteTaxon>();
        var count = 0;
        foreach (var yard in yards)
        {
            count++;
            foreach (var presence in yard.Presences)
            {
                RequireSound(presence, yard.YardId);
                var sum = taxa.GetValueOrDefault(presence.Taxon, new SiteTaxon { Old = true });
                taxa[presence.Taxon] = new(
                    presence.Taxon,
                    sum.CoverSquareMetres + presence.CoverSquareMetres,
                    sum.CertainSquareMetres + presence.CertainSquareMetres,
                    sum.YardsHolding + 1)
                { Old = sum.Old && presence.Old };
            }

            if (yard.Presences.DistinctBy(p => p.Taxon).Count() != yard.Presences.Length)
            {
                throw new ArgumentException($"Yard {yard.YardId} lists a taxon twice.", nameof(yards));
            }
        }

        return new(count, [.. taxa.Values]);
    }

    /// <summary>The community without the records above the species that say no more than others of the site do: "Asclepias sp." where an
    /// Asclepias is named.</summary>
    /// <param name="catalogue">The list that <see cref="SiteTaxon.Taxon"/> points into.</param>
    /// <returns>The same object where there is nothing to leave out.</returns>
    /// <remarks>See docs/measures.md#names-above-the-species.</remarks>
    public SiteCommunity Told(IReadOnlyList<CatalogueTaxon> catalogue)
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        var idle = Taxa.Where(t => catalogue[t.Taxon].Rank is RecordedRank.Genus or RecordedRank.Aggregate)
            .Where(t => Taxa.Any(other => RecordedRank.Holds(catalogue[t.Taxon], catalogue[other.Taxon]))).Select(t => t.Taxon).ToHashSet();
        return idle.Count == 0 ? this : this with { Taxa = [.. Taxa.Where(t => !idle.Contains(t.Taxon))] };
    }

    private static void RequireSound(Presence presence, long yardId)
    {
        var (taxon, cover, certain) = presence;
        if (taxon < 0 || !double.IsFinite(cover) || cover <= 0 || !(certain >= 0) || certain > cover)
        {
            throw new ArgumentException($"Yard {yardId} has a presence with taxon {taxon}, cover {cover} m² and certain cover {certain} "
                + $"m².", nameof(presence));
        }
    }
}
