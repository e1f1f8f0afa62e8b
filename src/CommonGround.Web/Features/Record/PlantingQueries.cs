using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Storage;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Record;

/// <summary>A planting with all its sightings, the newest first.</summary>
/// <param name="Asked">The sighting that was asked for.</param>
/// <param name="Names">Names that can be recorded here.</param>
public sealed record PlantingView(long YardId, string Yard, CatalogueTaxon Taxon, string Patch, string BedName, Guid BedVersion,
    IReadOnlyList<Sighting> Sightings, Sighting Asked, IReadOnlyList<(long Id, string Name)> Beds, IReadOnlyList<string> Names,
        NameIndex Index, bool MayCorrect)
{
    /// <summary>The yard's photos that were taken on a day of one of the sightings, newest first.</summary>
    public IReadOnlyList<Photos.PhotoLine> Photos { get; init; } = [];

    /// <summary>When it was last seen growing.</summary>
    public DateOnly? LastConfirmed => Sightings.Where(s => s.CoverSquareMetres > 0).Select(s => (DateOnly?)s.ObservedOn).FirstOrDefault();
}

/// <summary>Reads one planting, for those who may see the yard.</summary>
public sealed class PlantingQueries(NeighbourhoodDatabase database, LiveCommunity live)
{
    /// <summary>Null where there is none of that number in that yard or the reader may not see it.</summary>
    public async Task<PlantingView?> GetAsync(string code, long sightingId, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        await using var db = await database.CreateDbContextAsync(cancel);
        var yard = await db.Yards.AsNoTracking().SingleOrDefaultAsync(y => y.Code == code, cancel);
        var asked = yard is null || !currentUser.MaySee(yard.OwnerId) ? null
            : await db.Sightings.AsNoTracking().SingleOrDefaultAsync(s => s.Id == sightingId && s.YardId == yard.Id, cancel);
        if (yard is null || asked is null)
        {
            return null;
        }

        var rows = await db.Sightings.AsNoTracking().Where(s => s.YardId == yard.Id && s.BedId == asked.BedId && s.TaxonId == asked.TaxonId
            && s.Patch == asked.Patch).OrderByDescending(s => s.ObservedOn).ToListAsync(cancel);
        var beds = await db.Beds.AsNoTracking().Where(b => b.YardId == yard.Id).OrderBy(b => b.Name).ToListAsync(cancel);
        var days = rows.Select(r => r.ObservedOn).Distinct().ToList();
        var photos = await db.Photos.AsNoTracking().Where(p => p.YardId == yard.Id && days.Contains(p.TakenOn))
            .OrderByDescending(p => p.TakenOn).ThenByDescending(p => p.Id)
            .Select(p => new Photos.PhotoLine(p.Id, p.Caption, p.TakenOn)).ToListAsync(cancel);
        // After the rows: the matrix then knows at least what they name.
        var loaded = await live.LoadedAsync(cancel);
        var taxon = loaded.Matrix.Taxa[loaded.TaxonIndex[asked.TaxonId]];
        var bed = beds.Single(b => b.Id == asked.BedId);
        return new PlantingView(yard.Id, yard.Code, taxon, asked.Patch, bed.Name, bed.Version, rows, rows.Single(s => s.Id == asked.Id),
            [.. beds.Select(b => (b.Id, b.Name))],
            [.. loaded.Matrix.Taxa.SelectMany(t => new[] { t.DisplayName, t.ScientificName }).Distinct().Order(StringComparer.Ordinal)],
            loaded.Names, currentUser.MayRecord(yard.OwnerId))
        { Photos = photos };
    }
}
