using CommonGround.Interchange;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>Stores files that people bring: every row of every file, or none of them.</summary>
public sealed class ImportFiles(IDbContextFactory<CommonGroundDb> database, CurrentNeighbourhood neighbourhood, LiveCommunity live)
{
    public async Task<ImportOutcome> RunAsync(IReadOnlyList<ImportFile> files, ImportChoices choices, IProgress<ImportProgress>? progress, CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        db.ChangeTracker.AutoDetectChangesEnabled = false;
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        var ledger = new ImportLedger(choices.Today, files.SelectMany(f => f.Errors), files.SelectMany(f => f.Notices));
        var book = await PlaceBook.OpenAsync(db, neighbourhood.Id, cancel);
        var names = await TaxonBook.OpenAsync(db, neighbourhood.Id, choices.AllowUnlisted, cancel);
        names.TakeCatalogue(files, ledger);
        progress?.Report(new("places", 0.05));
        new PlaceImport(book, ledger).Take(files);
        progress?.Report(new("sightings", 0.15));
        await new SightingImport(db, book, names, ledger).TakeAsync(files, cancel);
        progress?.Report(new("infestations", 0.55));
        await new InfestationImport(db, book, names, ledger).TakeAsync(files, cancel);
        await PriceImport.TakeAsync(db, neighbourhood.Id, files, names, ledger, cancel);
        await WeatherImport.TakeAsync(db, neighbourhood.Id, files, ledger, cancel);
        if (ledger.Errors.Count > 0 || choices.CheckOnly)
        {
            return ledger.Outcome();
        }

        progress?.Report(new("writing", 0.7));
        db.ChangeTracker.DetectChanges();
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        live.Drop();
        Care.Counted.Imports.Add(1);
        await Statistics.RenewAsync(db, CancellationToken.None);
        progress?.Report(new("done", 1));
        return ledger.Outcome();
    }
}

/// <summary>Collects what an import finds and does.</summary>
internal sealed class ImportLedger(DateOnly today, IEnumerable<ImportError> errors, IEnumerable<ImportError> notices)
{
    private readonly Dictionary<string, (int Added, int Changed, int Unchanged)> counts = new(StringComparer.Ordinal);

    public List<ImportError> Errors { get; } = [.. errors];

    public List<ImportError> Notices { get; } = [.. notices];

    public DateOnly Today => today;

    public void Refuse(string file, int line, string column, string value, string what, string mend) => Errors.Add(new(file, line, column, value, what, mend));

    public void Count(string kind, bool added, bool changed)
    {
        var (a, c, u) = counts.GetValueOrDefault(kind);
        counts[kind] = added ? (a + 1, c, u) : changed ? (a, c + 1, u) : (a, c, u + 1);
    }

    public bool InFuture(string file, int line, string column, DateOnly day)
    {
        if (day <= today)
        {
            return false;
        }

        Refuse(file, line, column, day.ToString("yyyy-MM-dd"), $"This day is in the future; today is {today:yyyy-MM-dd}.", "Give the day it was seen.");
        return true;
    }

    /// <summary>Refuses a text the record has no room for, before a database does so without saying where.</summary>
    public bool TooLong(string file, int line, string column, string value, int most)
    {
        if (value.Length <= most)
        {
            return false;
        }

        Refuse(file, line, column, value[..Math.Min(20, most)] + "…", $"The text has {value.Length} characters.", $"Shorten it to {most}.");
        return true;
    }

    public ImportOutcome Outcome() => new(
        [.. Errors.OrderBy(e => e.File, StringComparer.Ordinal).ThenBy(e => e.Line)], Notices,
        [.. counts.Select(c => new ImportCount(c.Key, c.Value.Added, c.Value.Changed, c.Value.Unchanged))]);
}
