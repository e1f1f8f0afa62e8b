namespace CommonGround.Ecology.Sites;

/// <summary>One taxon at a site: its cover summed over the site's yards.</summary>
/// <param name="Taxon">Index into <see cref="CommunityMatrix.Taxa"/>.</param>
/// <param name="CoverSquareMetres">All cover, m², above 0.</param>
/// <param name="CertainSquareMetres">The part whose identification is not tentative, m², 0 to <paramref name="CoverSquareMetres"/>.</param>
/// <param name="YardsHolding">Yards of the site in which it grows, 1 to all.</param>
public readonly record struct SiteTaxon(int Taxon, double CoverSquareMetres, double CertainSquareMetres, int YardsHolding);

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
                var sum = taxa.GetValueOrDefault(presence.Taxon);
                taxa[presence.Taxon] = new(
                    presence.Taxon,
                    sum.CoverSquareMetres + presence.CoverSquareMetres,
                    sum.CertainSquareMetres + presence.CertainSquareMetres,
                    sum.YardsHolding + 1);
            }

            if (yard.Presences.DistinctBy(p => p.Taxon).Count() != yard.Presences.Length)
            {
                throw new ArgumentException($"Yard {yard.YardId} lists a taxon twice.", nameof(yards));
            }
        }

        return new(count, [.. taxa.Values]);
    }

    private static void RequireSound(Presence presence, long yardId)
    {
        var (taxon, cover, certain) = presence;
        if (taxon < 0 || !double.IsFinite(cover) || cover <= 0 || !(certain >= 0) || certain > cover)
        {
            throw new ArgumentException($"Yard {yardId} has a presence with taxon {taxon}, cover {cover} m² and certain cover {certain} m².", nameof(presence));
        }
    }
}
