using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Plantings;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>
/// Whether what an import was checked against still holds when its rows are written. A neighbour who records in another bed, or another
/// plant or day in the same one, does not matter; a street, block, plant, or a yard or bed that the files speak of, or the very sighting
/// they bring, does: then the files are checked again.
/// </summary>
internal sealed class ImportedSince
{
    private readonly HashSet<(long Bed, int Taxon, DateOnly Day)> brought = [];
    private readonly HashSet<long> yards = [], renewed = [];
    private readonly long stamp;

    private ImportedSince(long stamp) => this.stamp = stamp;

    /// <summary>Notes where history stands before anything is looked at. Changes become visible in the order of their numbers, so none
    /// below it can still come.</summary>
    public static async Task<ImportedSince> BeginAsync(CommonGroundDb db, CancellationToken cancel) =>
        new(await ChangeStamps.ReadAsync(db, cancel));

    public void Brought(Sighting sighting)
    {
        brought.Add((sighting.BedId, sighting.TaxonId, sighting.ObservedOn));
        yards.Add(sighting.YardId);
    }

    /// <summary>Whoever types into this bed just now is told before they overwrite what is brought.</summary>
    public void Renew(long bed) => renewed.Add(bed);

    /// <summary>Asked under the lock. Where it holds, the beds that got sightings get a new version.</summary>
    public async Task<bool> HoldsAsync(CommonGroundDb db, CancellationToken cancel)
    {
        var own = db.ChangeTracker.Entries<Change>().Select(e => e.Entity.Id).ToHashSet();
        var since = (await db.Changes.Where(c => c.Id > stamp)
            .Select(c => new { c.Id, Rows = db.ChangedRows.Count(r => r.ChangeId == c.Id) }).ToListAsync(cancel)).FindAll(c =>
            !own.Contains(c.Id));
        if (since.Count > 0)
        {
            var ids = since.ConvertAll(c => c.Id);
            var rows = await db.ChangedRows.AsNoTracking().Where(r => ids.Contains(r.ChangeId)).ToListAsync(cancel);
            if (since.Exists(c => c.Rows == 0) || rows.Exists(r => Matters(db, r)) || await SameSightingsAsync(db, rows, cancel))
            {
                return false;
            }
        }

        var version = Guid.NewGuid();
        foreach (var chunk in renewed.Chunk(500))
        {
            await db.Beds.Where(b => chunk.Contains(b.Id)).ExecuteUpdateAsync(set => set.SetProperty(b => b.Version, version), cancel);
        }

        return true;
    }

    private bool Matters(CommonGroundDb db, ChangedRow row) => row.Kind switch
    {
        RowKinds.Street or RowKinds.Block or RowKinds.Taxon => true,
        RowKinds.Yard or RowKinds.Bed => yards.Contains(row.YardId ?? 0) || Holds<Storage.Places.Yard>(db, row.YardId)
            || Holds<Storage.Places.Bed>(db, row.YardId),
        RowKinds.Infestation => db.ChangeTracker.Entries<Storage.Infestations.InfestationRecord>()
            .Any(e => e.State != EntityState.Unchanged),
        RowKinds.Price => db.ChangeTracker.Entries<Storage.Plans.PriceRow>().Any(e => e.State != EntityState.Unchanged),
        RowKinds.Weather => db.ChangeTracker.Entries<Storage.Weather.WeatherDay>().Any(e => e.State != EntityState.Unchanged),
        _ => false,
    };

    /// <summary>Whether the files alter or add rows of this kind in that yard.</summary>
    private static bool Holds<T>(CommonGroundDb db, long? yard)
        where T : class => db.ChangeTracker.Entries<T>().Any(e => e.State != EntityState.Unchanged
            && (long?)e.Property(typeof(T) == typeof(Storage.Places.Yard) ? "Id" : "YardId").CurrentValue == yard);

    /// <summary>Somebody recorded, changed or took out the very sighting that is brought: the same bed, plant and day.</summary>
    private async Task<bool> SameSightingsAsync(CommonGroundDb db, List<ChangedRow> rows, CancellationToken cancel)
    {
        var touched = rows.Where(r => r.Kind == RowKinds.Sighting).ToList();
        if (touched.Exists(r => r.RowAction == RowAction.Removed && yards.Contains(r.YardId ?? 0)))
        {
            return true;
        }

        foreach (var chunk in touched.Where(r => r.RowAction != RowAction.Removed)
            .Select(r => long.Parse(r.RowKey, System.Globalization.CultureInfo.InvariantCulture)).Chunk(500))
        {
            var there = await db.Sightings.Where(s => chunk.Contains(s.Id)).Select(s => new { s.BedId, s.TaxonId, s.ObservedOn })
                .ToListAsync(cancel);
            if (there.Exists(s => brought.Contains((s.BedId, s.TaxonId, s.ObservedOn))))
            {
                return true;
            }
        }

        return false;
    }
}
