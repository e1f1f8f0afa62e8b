using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Storage;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Walks;

/// <summary>Days of which two people said different things of a planting, for those who may record in the yard; at the desk as on the phone
/// somebody chooses which of them the record shows. Both stay in what was received.</summary>
public sealed class WalkDisputes(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, LiveCommunity live,
    ReceiveWalk receive, GroupClock clock)
{
    /// <summary>Open disputes of a yard, the newest day first; none for those who may not record there.</summary>
    public async Task<IReadOnlyList<WalkDispute>> OfYardAsync(long yardId, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        await using var db = await database.CreateDbContextAsync(cancel);
        var yard = await db.Yards.AsNoTracking().SingleOrDefaultAsync(y => y.Id == yardId, cancel);
        if (yard is null || !currentUser.MayRecord(yard.OwnerId))
        {
            return [];
        }

        var days = await db.ReceivedNotes.Where(n => n.YardId == yardId && n.RowId != null && n.Said != "").GroupBy(n => n.RowId)
            .Where(g => g.Count() > 1).Select(g => g.Key).ToListAsync(cancel);
        if (days.Count == 0)
        {
            return []; // As in nearly every yard: the page of a yard asks at each reading.
        }

        var taxa = await db.Sightings.Where(s => s.YardId == yardId && days.Contains(s.Id)).Select(s => s.TaxonId).Distinct()
            .ToListAsync(cancel);
        var rows = await db.Sightings.Where(s => s.YardId == yardId && taxa.Contains(s.TaxonId)).ToListAsync(cancel);
        var ids = rows.ConvertAll(r => (long?)r.Id);
        var notes = (await db.ReceivedNotes.Where(n => n.YardId == yardId && ids.Contains(n.RowId)).ToListAsync(cancel))
            .ToLookup(n => n.RowId);
        var loaded = await live.LoadedAsync(cancel);
        List<(Sighting Row, LookDispute Dispute)> open = [];
        foreach (var planting in rows.GroupBy(r => (r.BedId, r.TaxonId, r.Patch)))
        {
            // Nothing of this is saved: the context is only read.
            var said = planting.SelectMany(r => notes[r.Id]).ToList();
            open.AddRange(await new PlantingDays(db, neighbourhood.Id, loaded.Matrix.Taxa[loaded.TaxonIndex[planting.Key.TaxonId]],
                [.. planting], said).DisputesAsync(cancel));
        }

        var beds = await db.Beds.Where(b => b.YardId == yardId).ToDictionaryAsync(b => b.Id, b => b.Name, cancel);
        return await ToldAsync(db, [.. open.OrderByDescending(o => o.Row.ObservedOn).Select(o => (yard.Code, beds[o.Row.BedId],
            loaded.Matrix.Taxa[loaded.TaxonIndex[o.Row.TaxonId]], o.Row, o.Dispute))], currentUser, cancel);
    }

    /// <summary>Disputes with the names of who said what, as pages and phones tell them.</summary>
    internal static async Task<List<WalkDispute>> ToldAsync(CommonGroundDb db,
        List<(string Yard, string Bed, CatalogueTaxon Taxon, Sighting Row, LookDispute Dispute)> found, CurrentUser currentUser,
        CancellationToken cancel)
    {
        var people = found.SelectMany(f => f.Dispute.Sides).Select(s => s.Person).OfType<long>().ToHashSet();
        var names = await db.Members.Where(m => people.Contains(m.Id)).ToDictionaryAsync(m => m.Id, m => m.Name, cancel);
        return found.ConvertAll(f => new WalkDispute(f.Yard, f.Row.BedId, f.Bed, f.Taxon.ScientificName, f.Taxon.DisplayName, f.Row.Patch,
            f.Row.ObservedOn, f.Row.Id, [.. f.Dispute.Sides.Select(s => new DisputeSide(
                s.Person is { } p && names.TryGetValue(p, out var name) ? name : "the record",
                s.Person is not null && s.Person == currentUser.MemberId, s.Ids, s.Said))]));
    }

    /// <summary>Lets the record show what one of them said; what stands against it, else nothing.</summary>
    public async Task<IReadOnlyList<Problem>> ChooseAsync(WalkDispute dispute, DisputeSide side, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(dispute);
        ArgumentNullException.ThrowIfNull(side);
        ArgumentNullException.ThrowIfNull(by);
        var now = clock.UtcNow;
        var answer = await receive.SaveAsync(new(now, [dispute.Choice(side, by.MemberId, neighbourhood.Id, now, now)]), by, cancel);
        return [.. answer.Receipts.Where(r => r.State == ReceiptState.Refused).Select(r => new Problem("", r.Message))];
    }
}
