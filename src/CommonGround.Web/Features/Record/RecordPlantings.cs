using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Operations;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Operations;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Record;

/// <summary>What somebody saves: lines for one bed on one day.</summary>
/// <param name="BedVersion">The bed's version when the page showed it; another one means somebody saved in between.</param>
public sealed record RecordSheet(long YardId, long BedId, Guid BedVersion, DateOnly ObservedOn, string Observer, IReadOnlyList<PlantingDraft> Lines);

/// <summary>Problems (nothing was saved) or the number of the change, with which the save can be undone.</summary>
public sealed record RecordResult(IReadOnlyList<Problem> Problems, long? ChangeId, Guid BedVersion);

/// <summary>Saves plantings seen in a bed: permission, check, one context, one save.</summary>
public sealed class RecordPlantings(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    public async Task<RecordResult> SaveAsync(RecordSheet sheet, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(by);
        Guid? version = null;
        Bed? stored = null;
        var saved = await database.WriteAsync(
            async db =>
            {
                var yard = await db.Yards.SingleOrDefaultAsync(y => y.Id == sheet.YardId, cancel);
                var bed = await db.Beds.SingleOrDefaultAsync(b => b.Id == sheet.BedId && b.YardId == sheet.YardId, cancel);
                if (yard is null || bed is null)
                {
                    return Intent.Refuse("", "This bed is no longer in the record: its yard was taken out. Your lines are still here; choose another bed for them.");
                }

                if (!by.MayRecord(yard.OwnerId))
                {
                    return Intent.Refuse("", "Only the household and organisers record in this yard. Ask an organiser.");
                }

                if (bed.Version != sheet.BedVersion)
                {
                    version = bed.Version;
                    return await SavedMeanwhileAsync(db, bed, cancel);
                }

                var problems = sheet.Lines.SelectMany(line => line.Check(sheet.ObservedOn, clock.Today, bed.AreaSquareMetres, yard.AreaSquareMetres)).ToList();
                if (problems.Count > 0)
                {
                    return Intent.Refuse(problems);
                }

                await StoreAsync(db, sheet, by, cancel);
                db.Entry(bed).State = EntityState.Modified;
                stored = bed;
                return by.Note($"recorded {Words.Count(sheet.Lines.Count, "planting")} in {yard.Code}, {bed.Name}");
            }, cancel);
        if (!saved.IsStored)
        {
            Metrics.SavesRefused.Add(saved.IsTrouble ? 1 : 0);
            return new RecordResult(saved.Problems, null, version ?? sheet.BedVersion);
        }

        Metrics.Saves.Add(1);
        return new RecordResult([], saved.ChangeId, stored!.Version);
    }

    private async Task StoreAsync(CommonGroundDb db, RecordSheet sheet, CurrentUser by, CancellationToken cancel)
    {
        var names = sheet.Lines.Select(l => l.Taxon!.ScientificName).Distinct().ToList();
        var taxa = await db.Taxa.Where(t => names.Contains(t.ScientificName)).Select(t => new { t.Id, t.ScientificName }).ToDictionaryAsync(t => t.ScientificName, t => t.Id, StringComparer.Ordinal, cancel);
        var sameDay = await db.Sightings.Where(s => s.YardId == sheet.YardId && s.BedId == sheet.BedId && s.ObservedOn == sheet.ObservedOn).ToDictionaryAsync(s => s.TaxonId, cancel);
        foreach (var line in sheet.Lines)
        {
            var taxonId = taxa[line.Taxon!.ScientificName];
            if (!sameDay.TryGetValue(taxonId, out var row))
            {
                row = new Sighting { NeighbourhoodId = neighbourhood.Id, Id = RowIds.Next(), YardId = sheet.YardId, BedId = sheet.BedId, TaxonId = taxonId, ObservedOn = sheet.ObservedOn };
                db.Sightings.Add(row);
                sameDay[taxonId] = row;
            }

            Fill(row, line, sheet.Observer, by);
        }
    }

    private void Fill(Sighting row, PlantingDraft line, string observer, CurrentUser by)
    {
        row.CoverSquareMetres = line.Cover ?? throw new InvalidOperationException("A line without cover passed its check.");
        row.Count = line.Count;
        row.CoverDerived = line.CoverDerived;
        row.GrowthStage = line.GrowthStage;
        row.Origin = line.Origin;
        row.Certainty = line.Certainty;
        row.Qualifier = line.Qualifier;
        row.Remarks = line.Remarks;
        row.Observer = observer;
        row.RecordedById = by.MemberId;
        row.RecordedAtUtc = clock.UtcNow;
    }

    private static async Task<Intent> SavedMeanwhileAsync(CommonGroundDb db, Bed bed, CancellationToken cancel)
    {
        var latest = await db.Sightings.Where(s => s.YardId == bed.YardId && s.BedId == bed.Id).OrderByDescending(s => s.RecordedAtUtc)
            .Join(db.Taxa, s => new { s.NeighbourhoodId, Id = s.TaxonId }, t => new { t.NeighbourhoodId, t.Id }, (s, t) => t.ScientificName).Take(3).ToListAsync(cancel);
        return Intent.Refuse("", $"Somebody else saved to this bed while you were typing (latest: {string.Join(", ", latest)}). Your lines are kept: look at the bed below, then save again to add yours.");
    }
}
