using CommonGround.Interchange;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>Stores files that people bring: every row of every file, or none of them.</summary>
public sealed class ImportFiles(IDbContextFactory<CommonGroundDb> database, CurrentNeighbourhood neighbourhood, LiveCommunity live)
{
    /// <summary>Rows written at once: often enough to tell how far it is, and to stop.</summary>
    private const int Portion = 1_000;

    private const double CheckedShare = 0.5;

    /// <summary>Checks, and unless only that is asked, stores. Cancelled, it leaves nothing behind.</summary>
    public async Task<ImportOutcome> RunAsync(IReadOnlyList<ImportFile> files, ImportChoices choices, IProgress<ImportProgress>? progress, CancellationToken cancel)
    {
        if (choices.By?.By is { } role && AccessTable.Of(Act.Organise, role) == Reach.None)
        {
            return new ImportOutcome([new ImportError("", 0, "", "", "Only organisers bring files.", "Ask an organiser to bring them.")], [], []);
        }

        await using var db = await database.CreateDbContextAsync(cancel);
        db.ChangeTracker.AutoDetectChangesEnabled = false;
        // Who only checks takes no lock: others go on writing.
        await using var transaction = choices.CheckOnly ? null : await db.Database.BeginTransactionAsync(cancel);
        var ledger = new ImportLedger(choices.Today, files.SelectMany(f => f.Errors), files.SelectMany(f => f.Notices));
        var book = await PlaceBook.OpenAsync(db, neighbourhood.Id, cancel);
        var names = await TaxonBook.OpenAsync(db, neighbourhood.Id, choices, cancel);
        names.TakeCatalogue(files, ledger);
        progress?.Report(new("checking places", 0.05));
        new PlaceImport(book, ledger).Take(files, cancel);
        await new SightingImport(db, book, names, ledger).TakeAsync(files, share => progress?.Report(new("checking sightings", 0.1 + (0.3 * share))), cancel);
        progress?.Report(new("checking infestations", 0.4));
        await new InfestationImport(db, book, names, ledger).TakeAsync(files, cancel);
        await PriceImport.TakeAsync(db, neighbourhood.Id, files, names, ledger, cancel);
        await PlantOverrideImport.TakeAsync(db, neighbourhood.Id, files, names, ledger, choices, cancel);
        await WeatherImport.TakeAsync(db, neighbourhood.Id, files, ledger, cancel);
        if (ledger.Errors.Count > 0 || transaction is null)
        {
            return ledger.Outcome();
        }

        progress?.Report(new("writing", CheckedShare));
        db.ChangeTracker.DetectChanges();
        await WriteAsync(db, choices.By ?? ChangeNote.OfProgram(neighbourhood.Id, "brought " + Named([.. files.Select(f => f.FileName)])), progress, cancel);
        cancel.ThrowIfCancellationRequested();
        progress?.Report(new("closing the books", 1));
        // From here on it is stored: nobody can stop half of it.
        await transaction.CommitAsync(CancellationToken.None);
        live.Drop();
        Care.Counted.Imports.Add(1);
        await Statistics.RenewAsync(db, CancellationToken.None);
        progress?.Report(new("done", 1));
        return ledger.Outcome();
    }

    /// <summary>The files by name, as history says it.</summary>
    public static string Named(IReadOnlyList<string> fileNames)
    {
        var names = string.Join(", ", fileNames);
        return names.Length <= 200 ? names : names[..199] + "…";
    }

    /// <summary>Everything but new sightings at once, then those in portions, all inside the caller's transaction.</summary>
    private static async Task WriteAsync(CommonGroundDb db, ChangeNote by, IProgress<ImportProgress>? progress, CancellationToken cancel)
    {
        var added = db.ChangeTracker.Entries<Sighting>().Where(e => e.State == EntityState.Added).Select(e => e.Entity).ToList();
        foreach (var sighting in added)
        {
            db.Entry(sighting).State = EntityState.Detached;
        }

        await db.SaveAsync(by, cancel);
        for (var from = 0; from < added.Count; from += Portion)
        {
            db.ChangeTracker.Clear();
            db.Sightings.AddRange(added.Skip(from).Take(Portion));
            await db.SaveAsync(by, cancel);
            progress?.Report(new("writing", CheckedShare + ((1 - CheckedShare) * Math.Min(added.Count, from + Portion) / added.Count)));
        }
    }
}
