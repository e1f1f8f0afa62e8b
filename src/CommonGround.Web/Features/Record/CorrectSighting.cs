using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Record;

/// <summary>
/// Corrects what is saved. A wrong name, bed or patch is corrected in every sighting of the planting, so its history stays in one piece;
/// all else is of one sighting. It never changes who recorded it and when, never another planting, and never goes over a record that is
/// there. History keeps what stood before, and it can be taken back.
/// </summary>
public sealed class CorrectSighting(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    private readonly RecordNames names = new(database, neighbourhood);

    /// <param name="bedVersion">The bed's version when the form showed it; another one means somebody saved in between.</param>
    public async Task<IReadOnlyList<Problem>> SaveAsync(long sightingId, Guid bedVersion, Correction to, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(to);
        ArgumentNullException.ThrowIfNull(by);
        if (to.Unlisted is { } unlisted && await AddNameAsync(sightingId, unlisted, by, cancel) is { Count: > 0 } refused)
        {
            return refused;
        }

        var saved = await database.WriteAsync(
            async db =>
            {
                var found = await FindAsync(db, sightingId, bedVersion, by, cancel);
                if (found.Place is not { } place)
                {
                    return found.Problem!;
                }

                var (sighting, yard, bed) = place;
                var target = to.BedId == bed.Id ? bed : await db.Beds.SingleOrDefaultAsync(b => b.Id == to.BedId && b.YardId == yard.Id,
                    cancel);
                var taxon = await db.Taxa.SingleOrDefaultAsync(t => t.ScientificName == to.Name, cancel);
                if (target is null || taxon is null)
                {
                    return target is null ? new Problem("bed", "This bed is no longer in the yard. Choose another.")
                        : new Problem("name", $"The catalogue has no plant called “{to.Name}”. Choose one of the names offered.");
                }

                var traits = await TraitsAsync(db, taxon, cancel);
                var line = to.Line(traits);
                List<Problem> problems = [.. line.Check(to.ObservedOn ?? DateOnly.MinValue, clock.Today, target.AreaSquareMetres,
                    yard.AreaSquareMetres), .. to.CheckWords()];
                var moved = taxon.Id != sighting.TaxonId || target.Id != sighting.BedId || line.Patch != sighting.Patch;
                var rows = moved && !to.OnlyThis ? await OfPlantingAsync(db, sighting, cancel) : [sighting];
                if (problems.Count == 0 && await StandsAsync(db, rows, sighting, taxon.Id, target.Id, line.Patch, to.ObservedOn!.Value,
                    cancel) is { } day)
                {
                    problems.Add(
                        new("name", $"{traits.DisplayName} is recorded in {target.Name} on {Words.Date(day)} "
                            + $"already{(line.Patch.Length > 0 ? $" ({PlantWords.Patch(line.Patch)})" : "")}. Give this one a patch "
                            + $"label, or correct that record first."));
                }

                if (problems.Count > 0)
                {
                    return Intent.Refuse(problems);
                }

                var renamed = taxon.Id != sighting.TaxonId;
                foreach (var row in rows)
                {
                    (row.TaxonId, row.BedId, row.Patch) = (taxon.Id, target.Id, line.Patch);
                }

                Fill(sighting, to, line, renamed);
                Renew(db, bed, target);
                return by.Note($"corrected {(rows.Count > 1 ? Words.Count(rows.Count, "sighting") : "a sighting")} of "
                    + $"{traits.DisplayName} in {yard.Code}, {bed.Name}");
            }, cancel);
        return saved.Problems;
    }

    /// <summary>Takes out what never was: one sighting, or the whole planting with all its sightings. Not for a plant that ended or died;
    /// those are recorded.</summary>
    public async Task<IReadOnlyList<Problem>> NeverWasAsync(long sightingId, Guid bedVersion, bool wholePlanting, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        var saved = await database.WriteAsync(
            async db =>
            {
                var found = await FindAsync(db, sightingId, bedVersion, by, cancel);
                if (found.Place is not { } place)
                {
                    return found.Problem!;
                }

                var (sighting, yard, bed) = place;
                var rows = wholePlanting ? await OfPlantingAsync(db, sighting, cancel) : [sighting];
                var name = await db.Taxa.Where(t => t.Id == sighting.TaxonId).Select(t => t.ScientificName).SingleAsync(cancel);
                db.Sightings.RemoveRange(rows);
                Renew(db, bed, bed);
                return by.Note($"took out {Words.Count(rows.Count, "sighting")} of {name} in {yard.Code}, {bed.Name}: it never was");
            }, cancel);
        return saved.Problems;
    }

    private async Task<IReadOnlyList<Problem>> AddNameAsync(long sightingId, CatalogueTaxon unlisted, CurrentUser by,
        CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        // One that is not there or not theirs adds nothing: the save itself says so.
        return await names.AddAsync(await db.Sightings.Where(s => s.Id == sightingId).Select(s => s.YardId).FirstOrDefaultAsync(cancel),
            [unlisted], by, cancel);
    }

    private sealed record Found((Sighting Sighting, Yard Yard, Bed Bed)? Place, Problem? Problem);

    private static async Task<Found> FindAsync(CommonGroundDb db, long sightingId, Guid bedVersion, CurrentUser by,
        CancellationToken cancel)
    {
        var sighting = await db.Sightings.SingleOrDefaultAsync(s => s.Id == sightingId, cancel);
        var yard = sighting is null ? null : await db.Yards.SingleAsync(y => y.Id == sighting.YardId, cancel);
        // Somebody else's is answered like one that is not there.
        if (sighting is null || yard is null || !by.MayRecord(yard.OwnerId))
        {
            return new(null,
                new("", "There is no such sighting, or it is not yours to correct. Only the household and organisers record in this yard."));
        }

        var bed = await db.Beds.SingleAsync(b => b.Id == sighting.BedId, cancel);
        return bed.Version == bedVersion ? new((sighting, yard, bed), null)
            : new(null, new("",
            "Somebody else saved to this bed while you were typing. What you typed is kept: load the page again, look at the record, "
                + "then save."));
    }

    private static async Task<List<Sighting>> OfPlantingAsync(CommonGroundDb db, Sighting of, CancellationToken cancel) =>
        await db.Sightings.Where(s => s.YardId == of.YardId && s.BedId == of.BedId && s.TaxonId == of.TaxonId && s.Patch == of.Patch)
            .ToListAsync(cancel);

    private static async Task<CatalogueTaxon> TraitsAsync(CommonGroundDb db, Taxon taxon, CancellationToken cancel) =>
        (await GroupTraits.OfAsync(db, [taxon], cancel))[0];

    /// <summary>The day of a record that is there already where one of the rows would go; null where the way is free.</summary>
    private static async Task<DateOnly?> StandsAsync(CommonGroundDb db, List<Sighting> rows, Sighting corrected, int taxonId, long bedId,
        string patch, DateOnly day, CancellationToken cancel)
    {
        var ids = rows.Select(r => r.Id).ToHashSet();
        var days = rows.Select(r => r == corrected ? day : r.ObservedOn).ToList();
        var there = await db.Sightings.AsNoTracking().Where(s => s.YardId == corrected.YardId && s.BedId == bedId && s.TaxonId == taxonId
            && s.Patch == patch).Select(s => new { s.Id, s.ObservedOn }).ToListAsync(cancel);
        return there.Where(s => !ids.Contains(s.Id) && days.Contains(s.ObservedOn)).Select(s => (DateOnly?)s.ObservedOn).FirstOrDefault()
            ?? days.GroupBy(d => d).Where(g => g.Count() > 1).Select(g => (DateOnly?)g.Key).FirstOrDefault();
    }

    private static void Fill(Sighting row, Correction to, PlantingDraft line, bool moved)
    {
        row.ObservedOn = to.ObservedOn!.Value;
        row.Finding = line.Cover == 0 && to.Finding == Finding.Growing ? Finding.Ended : to.Finding;
        // A cover worked out from a count that stays is not worked out anew: the spacing may have changed since.
        if (!(row.CoverDerived && line.CoverDerived && row.Count == line.Count && !moved))
        {
            row.CoverSquareMetres = line.Cover ?? throw new InvalidOperationException("A correction without cover passed its check.");
        }

        row.Count = line.Count;
        row.CoverDerived = line.CoverDerived;
        row.GrowthStage = to.GrowthStage;
        row.Origin = to.Origin;
        row.Certainty = to.Certainty;
        row.Qualifier = to.Qualifier;
        row.VerifiedBy = to.VerifiedBy.Trim();
        row.Remarks = to.Remarks.Trim();
    }

    private static void Renew(CommonGroundDb db, Bed from, Bed to)
    {
        db.Entry(from).State = EntityState.Modified;
        db.Entry(to).State = EntityState.Modified;
    }
}
