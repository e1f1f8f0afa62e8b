using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Plantings;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Record;

/// <summary>What the record knows of a bed when lines for a day are saved.</summary>
internal sealed class KnownInBed
{
    private readonly ILookup<(int Taxon, string Patch), Sighting> rows;
    private readonly Dictionary<string, int> taxa;
    private readonly DateOnly day;

    private KnownInBed(ILookup<(int, string), Sighting> rows, Dictionary<string, int> taxa, DateOnly day) =>
        (this.rows, this.taxa, this.day) = (rows, taxa, day);

    public static async Task<KnownInBed> ReadAsync(CommonGroundDb db, long yardId, long bedId, DateOnly day, CancellationToken cancel)
    {
        var seen = await db.Sightings.Where(s => s.YardId == yardId && s.BedId == bedId).ToListAsync(cancel);
        return new(seen.OrderBy(s => s.ObservedOn).ToLookup(s => (s.TaxonId, s.Patch)), await TaxaAsync(db, cancel), day);
    }

    /// <summary>Row numbers of all names; case does not make another plant.</summary>
    public static async Task<Dictionary<string, int>> TaxaAsync(CommonGroundDb db, CancellationToken cancel)
    {
        var byName = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        foreach (var taxon in await db.Taxa.OrderBy(t => t.Id).Select(t => new { t.Id, t.ScientificName }).ToListAsync(cancel))
        {
            byName.TryAdd(taxon.ScientificName, taxon.Id);
        }

        return byName;
    }

    /// <summary>The same, as if these names had been added.</summary>
    public KnownInBed With(IReadOnlyList<CatalogueTaxon> names)
    {
        var more = new Dictionary<string, int>(taxa, StringComparer.OrdinalIgnoreCase);
        foreach (var (i, name) in names.Index())
        {
            more.TryAdd(name.ScientificName, -1 - i);
        }

        return new(rows, more, day);
    }

    public int? TaxonId(string scientificName) => taxa.TryGetValue(scientificName, out var id) ? id : null;

    public Sighting? OfTheDay(int taxonId, string patch) => rows[(taxonId, patch)].FirstOrDefault(s => s.ObservedOn == day);

    /// <summary>
    /// As last known on or before the day, else as first known after it: a line of last year that is typed in late changes nothing that was
    /// found out since. A look that found nothing tells nothing; what had ended or died begins anew.
    /// </summary>
    public KnownPlanting? Before(int taxonId, string patch)
    {
        var seen = rows[(taxonId, patch)].Where(s => s.Finding != Finding.NotFound).ToList();
        var last = seen.LastOrDefault(s => s.ObservedOn <= day) ?? seen.FirstOrDefault();
        return last is { CoverSquareMetres: > 0 } ? Known(last) : null;
    }

    public static KnownPlanting Known(Sighting s) => new(s.CoverSquareMetres, s.Count, s.CoverDerived, s.Origin, s.Certainty, s.Qualifier,
        s.VerifiedBy);
}
