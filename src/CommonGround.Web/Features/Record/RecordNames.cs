using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Record;

/// <summary>
/// Adds names that the catalogue does not list (a genus, an aggregate, a plain name) to what the neighbourhood can record. A change of its
/// own: undoing the sighting leaves the name, which others may have used since. It never touches a taxon that is there.
/// </summary>
internal sealed class RecordNames(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood)
{
    private const int LongestName = 200;

    public async Task<IReadOnlyList<Problem>> AddAsync(long yardId, IReadOnlyList<CatalogueTaxon> taxa, CurrentUser by,
        CancellationToken cancel)
    {
        var saved = await database.WriteAsync(
            async db =>
            {
                var yard = await db.Yards.AsNoTracking().SingleOrDefaultAsync(y => y.Id == yardId, cancel);
                if (yard is null || !by.MayRecord(yard.OwnerId))
                {
                    return Intent.Nothing; // The save itself says why.
                }

                var wanted = taxa.DistinctBy(t => t.ScientificName, StringComparer.OrdinalIgnoreCase).ToList();
                if (wanted.Find(t => t.ScientificName.Length > LongestName) is { } tooLong)
                {
                    return Intent.Refuse("name", $"The name “{tooLong.ScientificName[..40]}…” is longer than {LongestName} letters.");
                }

                var known = await KnownInBed.TaxaAsync(db, cancel);
                var missing = wanted.Where(t => !known.ContainsKey(t.ScientificName)).ToList();
                if (missing.Count == 0)
                {
                    return Intent.Nothing;
                }

                var id = known.Values.DefaultIfEmpty(0).Max();
                db.Taxa.AddRange(missing.Select(t => new Taxon
                {
                    NeighbourhoodId = neighbourhood.Id,
                    Id = ++id,
                    ScientificName = t.ScientificName,
                    Unlisted = true,
                    Traits = t
                }));
                return by.Note(missing.Count == 1 ? $"added a name the catalogue does not list: {missing[0].DisplayName}"
                    : $"added {missing.Count} names the catalogue does not list");
            }, cancel);
        return saved.Problems;
    }
}
