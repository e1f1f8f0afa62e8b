using CommonGround.Ecology.Taxa;
using CommonGround.Interchange;
using CommonGround.Interchange.Names;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>Stores files that people bring: every row of every file, or none of them.</summary>
public sealed class ImportFiles(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood)
{
    private const double CheckedShare = 0.9;

    private static readonly Problem Overtaken = new("",
        "Others kept saving to the same beds and yards while these files were being checked, so nothing was stored. Import them again "
            + "when fewer people are saving.");

    /// <summary>Checks, and unless only that is asked, stores. Checking takes no lock: others go on saving, and what they save to the same
    /// places is checked again. Cancelled, it leaves nothing behind.</summary>
    public async Task<ImportOutcome> RunAsync(IReadOnlyList<ImportFile> files, ImportChoices choices, IProgress<ImportProgress>? progress,
        CancellationToken cancel)
    {
        if (choices.By?.By is { } role && AccessTable.Of(Permission.Organise, role) == Scope.None)
        {
            return Refused("Only organisers import files.", "Ask an organiser to import them.");
        }

        ImportFindings? ledger = null;
        ImportedSince? since = null;
        var saved = await database.WriteInBulkAsync(
            async db =>
            {
                since = await ImportedSince.BeginAsync(db, cancel);
                ledger = await CheckAsync(db, files, choices, since, progress, cancel);
                if (ledger.Errors.Count > 0 || choices.CheckOnly)
                {
                    return Intent.Nothing;
                }

                progress?.Report(new("writing", CheckedShare));
                return choices.By ?? ChangeNote.OfProgram(neighbourhood.Id, "brought " + Named([.. files.Select(f => f.FileName)]));
            },
            db => since!.HoldsAsync(db, cancel), Overtaken, cancel);
        if (!saved.IsStored)
        {
            return Refused(saved.Problems[0].Message, "");
        }

        if (saved.ChangeId > 0)
        {
            Operations.Metrics.Imports.Add(1);
            await RenewStatisticsAsync();
        }

        progress?.Report(new("done", 1));
        return ledger!.Outcome();
    }

    private async Task<ImportFindings> CheckAsync(CommonGroundDb db, IReadOnlyList<ImportFile> files, ImportChoices choices,
        ImportedSince since, IProgress<ImportProgress>? progress, CancellationToken cancel)
    {
        var ledger = new ImportFindings(choices.Today, files.SelectMany(f => f.Errors), files.SelectMany(f => f.Notices));
        var book = await PlaceLookup.OpenAsync(db, neighbourhood.Id, cancel);
        var names = await TaxonLookup.OpenAsync(db, neighbourhood.Id, choices, cancel);
        names.TakeCatalogue(files, ledger);
        progress?.Report(new("checking places", 0.05));
        new PlaceImport(book, ledger).Take(files, cancel);
        await new SightingImport(db, book, names, ledger, since).TakeAsync(files,
            share => progress?.Report(new("checking sightings", 0.1 + (0.7 * share))), cancel);
        progress?.Report(new("checking infestations", 0.8));
        await new InfestationImport(db, book, names, ledger).TakeAsync(files, cancel);
        await PriceImport.TakeAsync(db, neighbourhood.Id, files, names, ledger, cancel);
        await PlantOverrideImport.TakeAsync(db, neighbourhood.Id, files, names, ledger, choices, cancel);
        await WeatherImport.TakeAsync(db, neighbourhood.Id, files, ledger, cancel);
        return ledger;
    }

    /// <summary>The plants that a name may mean here, with the index that tells.</summary>
    public async Task<(IReadOnlyList<CatalogueTaxon> Taxa, NameIndex Index)> NamesAsync(CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var taxa = (await db.Taxa.AsNoTracking().ToListAsync(cancel)).ConvertAll(t => t.Traits);
        return ([.. taxa.OrderBy(t => t.ScientificName, StringComparer.Ordinal)], new NameIndex(taxa));
    }

    /// <summary>What was stored holds, whether or not the database counts its rows anew just now.</summary>
    private Task<IReadOnlyList<Problem>> RenewStatisticsAsync() => Door.TryAsync(async () =>
    {
        await using var db = await database.CreateDbContextAsync(CancellationToken.None);
        await Statistics.RenewAsync(db, CancellationToken.None);
        return [];
    });

    private static ImportOutcome Refused(string what, string correct) => new([new ImportError("", 0, "", "", what, correct)], [], []);

    /// <summary>The files by name, as history says it.</summary>
    public static string Named(IReadOnlyList<string> fileNames)
    {
        var names = string.Join(", ", fileNames);
        return names.Length <= 200 ? names : names[..199] + "…";
    }
}
