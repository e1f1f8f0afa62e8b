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
public sealed record RecordSheet(long YardId, long BedId, Guid BedVersion, DateOnly ObservedOn, string Observer,
    IReadOnlyList<PlantingDraft> Lines);

/// <summary>Problems (nothing was saved) or the number of the change, with which the save can be undone.</summary>
public sealed record RecordResult(IReadOnlyList<Problem> Problems, long? ChangeId, Guid BedVersion);

/// <summary>Saves plantings seen in a bed: permission, check, one context, one save.</summary>
public sealed class RecordPlantings(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    private readonly RecordNames names = new(database, neighbourhood);

    public async Task<RecordResult> SaveAsync(RecordSheet sheet, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(by);
        List<CatalogueTaxon> unlisted = sheet.ObservedOn > clock.Today ? []
            : [.. sheet.Lines.Where(l => l.AsWritten).Select(l => l.Taxon).OfType<CatalogueTaxon>()];
        if (unlisted.Count > 0)
        {
            // A save that would be refused leaves no name behind.
            await using var look = await database.CreateDbContextAsync(cancel);
            var (_, _, _, problems, there) = await LookAsync(look, sheet, unlisted, by, cancel);
            if (problems.Count == 0)
            {
                problems = await names.AddAsync(sheet.YardId, unlisted, by, cancel);
            }

            if (problems.Count > 0)
            {
                return new RecordResult(problems, null, there ?? sheet.BedVersion);
            }
        }

        Guid? version = null;
        Bed? stored = null;
        var saved = await database.WriteAsync(
            async db =>
            {
                (var yard, var bed, var known, var problems, version) = await LookAsync(db, sheet, [], by, cancel);
                if (problems.Count > 0)
                {
                    return Intent.Refuse(problems);
                }

                await StoreAsync(db, sheet, known!, by, cancel);
                db.Entry(bed!).State = EntityState.Modified;
                stored = bed;
                return by.Note($"recorded {Words.Count(sheet.Lines.Count, "planting")} in {yard!.Code}, {bed!.Name}");
            }, cancel);
        if (!saved.IsStored)
        {
            Metrics.SavesRefused.Add(saved.IsTrouble ? 1 : 0);
            return new RecordResult(saved.Problems, null, version ?? sheet.BedVersion);
        }

        Metrics.Saves.Add(1);
        return new RecordResult([], saved.ChangeId, stored!.Version);
    }

    /// <summary>What stands against the sheet, and what it would be stored with; the bed's version where somebody saved
    /// meanwhile.</summary>
    /// <param name="toAdd">Names that the catalogue does not list and that would be added first.</param>
    private async Task<(Yard? Yard, Bed? Bed, KnownInBed? Known, IReadOnlyList<Problem> Problems,
        Guid? Version)> LookAsync(CommonGroundDb db, RecordSheet sheet, List<CatalogueTaxon> toAdd, CurrentUser by,
        CancellationToken cancel)
    {
        // Before the bed: whoever saves between the two reads has moved the bed's version by then, and that is what is said.
        var known = await KnownInBed.ReadAsync(db, sheet.YardId, sheet.BedId, sheet.ObservedOn, cancel);
        var yard = await db.Yards.SingleOrDefaultAsync(y => y.Id == sheet.YardId, cancel);
        var bed = await db.Beds.SingleOrDefaultAsync(b => b.Id == sheet.BedId && b.YardId == sheet.YardId, cancel);
        if (yard is null || bed is null)
        {
            return (null, null, null,
                [new("", "This bed is no longer in the record: its yard was taken out. Your lines are still here; choose another bed "
                    + "for them.")], null);
        }

        if (!by.MayRecord(yard.OwnerId))
        {
            return (null, null, null, [new("", "Only the household and organisers record in this yard. Ask an organiser.")], null);
        }

        if (bed.Version != sheet.BedVersion)
        {
            return (null, null, null, [await SavedMeanwhileAsync(db, bed, cancel)], bed.Version);
        }

        return (yard, bed, known, Problems(sheet, bed, yard, toAdd.Count == 0 ? known : known.With(toAdd)), null);
    }

    private List<Problem> Problems(RecordSheet sheet, Bed bed, Yard yard, KnownInBed known)
    {
        var problems = new List<Problem>();
        var taken = new HashSet<(int, string)>();
        foreach (var line in sheet.Lines)
        {
            var taxonId = line.Taxon is null ? null : known.TaxonId(line.Taxon.ScientificName);
            problems.AddRange(line.Check(sheet.ObservedOn, clock.Today, bed.AreaSquareMetres, yard.AreaSquareMetres,
                knownSquareMetres: taxonId is { } t ? known.Before(t, line.Patch)?.CoverSquareMetres : null));
            if (line.Taxon is not null && taxonId is null)
            {
                problems.Add(
                    new("name", $"{line.Taxon.ScientificName} is no longer in the catalogue. Load the page again and choose another name; "
                        + $"your lines are kept."));
            }
            else if (taxonId is { } id && !taken.Add((id, line.Patch)))
            {
                problems.Add(
                    new("same", $"{line.Taxon!.DisplayName} stands twice among these lines. Add the two up, or keep them apart as "
                        + $"patches."));
            }
            else if (taxonId is { } there && known.OfTheDay(there, line.Patch) is not null && line.SameDay == SameDay.Ask)
            {
                problems.Add(
                    new("same", $"{line.Taxon!.DisplayName} is recorded here on this day already. Add this to it, put it in its place, or "
                        + $"keep them apart as patches."));
            }
        }

        return problems;
    }

    private async Task StoreAsync(CommonGroundDb db, RecordSheet sheet, KnownInBed known, CurrentUser by, CancellationToken cancel)
    {
        foreach (var line in sheet.Lines)
        {
            var taxonId = known.TaxonId(line.Taxon!.ScientificName)!.Value;
            var row = known.OfTheDay(taxonId, line.Patch);
            var before = row is null ? known.Before(taxonId, line.Patch) : KnownInBed.Known(row);
            if (row is null)
            {
                row = new Sighting
                {
                    NeighbourhoodId = neighbourhood.Id,
                    Id = RowIds.Next(),
                    YardId = sheet.YardId,
                    BedId = sheet.BedId,
                    TaxonId = taxonId,
                    Patch = line.Patch,
                    ObservedOn = sheet.ObservedOn
                };
                db.Sightings.Add(row);
                Fill(row, line, before);
            }
            else
            {
                Add(row, line);
            }

            row.Observer = sheet.Observer;
            row.RecordedById = by.MemberId;
            row.RecordedAtUtc = clock.UtcNow;
            await DeskStatements.AddAsync(db, row, line, before, by, clock.UtcNow, cancel);
        }
    }

    /// <summary>What the line does not say stays as it was known; stage and remark are of the day, so they begin anew.</summary>
    private static void Fill(Sighting row, PlantingDraft line, KnownPlanting? known)
    {
        if (line.KeepsCover)
        {
            (row.CoverSquareMetres, row.Count, row.CoverDerived) = (known!.CoverSquareMetres, known.Count, known.CoverDerived);
        }
        else
        {
            (row.CoverSquareMetres, row.Count, row.CoverDerived) = (line.Cover
                ?? throw new InvalidOperationException("A line without cover passed its check."), line.Count, line.CoverDerived);
        }

        row.Finding = row.CoverSquareMetres == 0 && line.Finding == Finding.Growing ? Finding.Ended : line.Finding;
        row.GrowthStage = line.GrowthStage;
        row.Origin = KnownPlanting.OriginOf(line, known);
        row.Certainty = KnownPlanting.CertaintyOf(line, known);
        row.Qualifier = KnownPlanting.QualifierOf(line, known);
        row.VerifiedBy = KnownPlanting.VerifiedByOf(line, known);
        row.Remarks = line.Remarks;
    }

    /// <summary>A second line of the same day: its cover is added or put in the place of the first; what it does not say stays.</summary>
    private static void Add(Sighting row, PlantingDraft line)
    {
        var first = KnownInBed.Known(row);
        var together = line.SameDay == SameDay.Together;
        var (stage, remarks) = (row.GrowthStage, row.Remarks);
        var sum = line with
        {
            CoverSquareMetres = line.KeepsCover || !together || line.Finding != Finding.Growing ? line.CoverSquareMetres
                : row.CoverSquareMetres + (line.Cover ?? 0),
            Count = line.KeepsCover || !together ? line.Count : row.Count + line.Count,
        };
        Fill(row, sum, first);
        row.GrowthStage = line.GrowthStage ?? stage;
        row.Remarks = line.Remarks.Length > 0 ? line.Remarks : remarks;
    }

    private static async Task<Problem> SavedMeanwhileAsync(CommonGroundDb db, Bed bed, CancellationToken cancel)
    {
        var latest = await db.Sightings.Where(s => s.YardId == bed.YardId && s.BedId == bed.Id).OrderByDescending(s => s.RecordedAtUtc)
            .Join(db.Taxa, s => new { s.NeighbourhoodId, Id = s.TaxonId }, t => new { t.NeighbourhoodId, t.Id }, (s, t) => t.ScientificName)
            .Take(3).ToListAsync(cancel);
        return new("", $"Somebody else saved to this bed while you were typing (latest: {string.Join(", ", latest)}). Your lines are "
            + $"kept: look at the bed below, then save again to add yours.");
    }
}
