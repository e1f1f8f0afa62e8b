using CommonGround.Ecology.Sites;

namespace CommonGround.Web.Features.Community;

/// <summary>From dated sightings and open infestations to one matrix row a yard: the latest state of each bed, taxon and patch, summed over
/// the yard, without what nobody saw for too long.</summary>
internal sealed class YardRows(List<YardPlace> yards, IReadOnlyDictionary<long, int> yardIndex, IReadOnlyDictionary<long, int> blockIndex,
    IReadOnlyDictionary<int, int> taxonIndex, StillPresent standing)
{
    public YardCommunity[] Build(Span<Seen> seen, List<Unwanted> infestations)
    {
        seen.Sort(static (a, b) =>
        {
            var order = a.YardId.CompareTo(b.YardId);
            order = order != 0 ? order : a.TaxonId.CompareTo(b.TaxonId);
            order = order != 0 ? order : a.BedId.CompareTo(b.BedId);
            order = order != 0 ? order : string.CompareOrdinal(a.Patch, b.Patch);
            return order != 0 ? order : a.ObservedOn.CompareTo(b.ObservedOn);
        });
        var unwanted = infestations.Where(i => i.YardId is not null).ToLookup(i => i.YardId!.Value);
        var presences = new Presence[yards.Count][];
        var row = new List<Presence>();
        for (var start = 0; start < seen.Length;)
        {
            var yardId = seen[start].YardId;
            var end = start + 1;
            while (end < seen.Length && seen[end].YardId == yardId)
            {
                end++;
            }

            row.Clear();
            Sum(seen[start..end], row);
            presences[yardIndex[yardId]] = WithUnwanted(row, unwanted[yardId]);
            start = end;
        }

        var rows = new YardCommunity[yards.Count];
        for (var i = 0; i < rows.Length; i++)
        {
            var yard = yards[i];
            rows[i] = new YardCommunity(yard.Id, blockIndex[yard.BlockId], yard.Latitude, yard.Longitude, yard.Shared, presences[i]
                ?? WithUnwanted([], unwanted[yard.Id]));
        }

        return rows;
    }

    /// <summary>Rows of one yard, sorted by taxon, bed, patch, day: the last of each holds, if it is not too long ago.</summary>
    private void Sum(Span<Seen> yard, List<Presence> row)
    {
        var taxon = -1;
        double cover = 0, certain = 0;
        var old = true;
        for (var i = 0; i < yard.Length; i++)
        {
            ref readonly var seen = ref yard[i];
            if (seen.TaxonId != taxon)
            {
                Add(row, taxon, cover, certain, old);
                (taxon, cover, certain, old) = (seen.TaxonId, 0, 0, true);
            }

            var isLast = i + 1 == yard.Length || yard[i + 1].TaxonId != taxon || yard[i + 1].BedId != seen.BedId
                || yard[i + 1].Patch != seen.Patch;
            if (isLast && standing.Counts(taxonIndex[seen.TaxonId], seen.ObservedOn))
            {
                old &= seen.Cover == 0 || standing.IsOld(seen.ObservedOn);
                cover += seen.Cover;
                certain += seen.Tentative ? 0 : seen.Cover;
            }
        }

        Add(row, taxon, cover, certain, old);
    }

    private void Add(List<Presence> row, int taxon, double cover, double certain, bool old)
    {
        if (taxon >= 0 && cover > 0)
        {
            row.Add(new Presence(taxonIndex[taxon], cover, certain) { Old = old });
        }
    }

    /// <summary>An infestation is self-sown cover; where a planting of the same taxon stands, the larger of the two counts.</summary>
    private Presence[] WithUnwanted(List<Presence> row, IEnumerable<Unwanted> unwanted)
    {
        foreach (var infestation in unwanted)
        {
            var taxon = taxonIndex[infestation.TaxonId];
            var cover = infestation.Area * infestation.Cover;
            var at = row.FindIndex(p => p.Taxon == taxon);
            if (cover > 0 && at < 0)
            {
                row.Add(new Presence(taxon, cover, cover));
            }
            else if (at >= 0 && cover > row[at].CoverSquareMetres)
            {
                row[at] = new Presence(taxon, cover, cover);
            }
        }

        return [.. row];
    }
}
