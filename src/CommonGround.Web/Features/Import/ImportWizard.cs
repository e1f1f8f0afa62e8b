using System.Data.Common;
using CommonGround.Interchange;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

public enum ImportStep { Files, Columns, Names, Correct, Store, Done }

/// <summary>The way from dropped files to stored rows, apart from how it looks. Heavy work runs beside the page and tells how far it
/// is.</summary>
public sealed class ImportWizard(ImportFiles import, GroupClock clock) : IDisposable
{
    public const int MostFiles = 10;
    public const long LargestFile = 32 * 1024 * 1024;
    private const string CorrectionEnding = "-to-correct.csv";
    private readonly List<UploadedFile> files = [];
    private readonly Dictionary<string, UnknownName> names = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> chosen = new(StringComparer.Ordinal);
    private readonly HashSet<string> unlisted = new(StringComparer.OrdinalIgnoreCase);
    private CancellationTokenSource? stop;

    public ImportStep Step { get; private set; }
    public IReadOnlyList<UploadedFile> Files => files;

    /// <summary>Every name the catalogue did not know, with or without an answer.</summary>
    public IReadOnlyCollection<UnknownName> Names => names.Values;

    public ImportOutcome? Outcome { get; private set; }
    public ImportProgress? Progress { get; private set; }
    public string Said { get; private set; } = "";
    public bool Busy => stop is not null;
    public bool Ready => files.Count > 0 && files.TrueForAll(f => f.WhyNotReady.Length == 0);
    public IEnumerable<UploadedFile> FilesToCorrect => Outcome is null ? []
        : files.Where(f => f.Table.HasColumns && Outcome.Errors.Any(e => e.File == f.Table.Name && e.Line > 0));

    /// <summary>Takes a file in; a corrected one takes the place of the file it came from.</summary>
    public async Task AddAsync(string name, byte[] content)
    {
        var tables = await Task.Run(() => UploadedTable.Open(name, content).Select(t => new UploadedFile(t)).ToList());
        foreach (var file in tables)
        {
            var before = files.FindIndex(f => f.Table.Name == file.Table.Name || CorrectionName(f) == Plain(file.Table.Name));
            if (before >= 0)
            {
                files[before] = file;
            }
            else
            {
                files.Add(file);
            }
        }

        (Said, Outcome) = ("", null);
    }

    public void Forget(UploadedFile file) => files.Remove(file);

    public void GoTo(ImportStep step) => (Step, Said) = (step, "");

    public static string CorrectionName(UploadedFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return Path.ChangeExtension(file.Table.Name.Replace(", ", "-", StringComparison.Ordinal), null).Replace(CorrectionEnding[..^4], "",
            StringComparison.Ordinal) + CorrectionEnding;
    }

    public string? ToCorrect(UploadedFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return file.ToCorrect(chosen, Outcome?.Errors ?? []);
    }

    /// <summary>What a name shall mean: a name of the catalogue, the name itself as an unlisted plant, or nothing yet.</summary>
    public void Decide(UnknownName name, string? meant)
    {
        ArgumentNullException.ThrowIfNull(name);
        chosen.Remove(name.Name);
        unlisted.Remove(name.Name);
        if (meant == name.Name)
        {
            unlisted.Add(meant);
        }
        else if (meant is { Length: > 0 })
        {
            chosen[name.Name] = meant;
        }
    }

    public string Decided(UnknownName name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return unlisted.Contains(name.Name) ? name.Name : chosen.GetValueOrDefault(name.Name, "");
    }

    /// <summary>Says what would happen and goes on to the step that has something to ask.</summary>
    public async Task CheckAsync(CurrentUser currentUser, Action changed)
    {
        if (await RunAsync(currentUser, checkOnly: true, changed) is not { } outcome)
        {
            return;
        }

        foreach (var name in outcome.UnknownNames)
        {
            names[name.Name] = name;
        }

        var ask = outcome.UnknownNames.Count > 0 && Step != ImportStep.Names;
        Step = ask ? ImportStep.Names : outcome.Errors.Count > 0 ? ImportStep.Correct : ImportStep.Store;
    }

    public async Task StoreAsync(CurrentUser currentUser, Action changed)
    {
        if (await RunAsync(currentUser, checkOnly: false, changed) is { } outcome)
        {
            // Somebody may have changed the record since the check.
            Step = outcome.Errors.Count > 0 ? ImportStep.Correct : ImportStep.Done;
        }
    }

    /// <summary>Stops what is running; nothing of it stays.</summary>
    public void Cancel() => stop?.Cancel();

    public void Dispose() => Cancel();

    private async Task<ImportOutcome?> RunAsync(CurrentUser currentUser, bool checkOnly, Action changed)
    {
        if (Busy || !currentUser.MayOrganise)
        {
            return null;
        }

        using var mine = stop = new CancellationTokenSource();
        (Said, Progress) = ("", new ImportProgress("reading", 0));
        changed();
        try
        {
            var progress = new PacedProgress(p =>
            {
                Progress = p;
                changed();
            });
            var choices = new ImportChoices(AllowUnlisted: false, checkOnly,
                clock.CalendarToday)
            {
                Unlisted = unlisted.ToHashSet(StringComparer.OrdinalIgnoreCase),
                By = currentUser.Note("brought " + ImportFiles.Named([.. files.Select(f => f.Table.Name)]))
            };
            var (taken, meant) = (files.ToList(), new Dictionary<string, string>(chosen, StringComparer.Ordinal));
            return Outcome = await Task.Run(() => import.RunAsync([.. taken.Select(f => f.Read(meant))], choices, progress, mine.Token));
        }
        catch (OperationCanceledException)
        {
            Said = "Stopped. Nothing was stored, and the record is as it was.";
        }
        catch (Exception failed) when (failed is DbException or DbUpdateException)
        {
            Said = "The record could not be reached or written just now, so nothing was stored. Your files are still here: try again in a "
                + "minute.";
        }
        finally
        {
            stop = null;
        }

        return null;
    }

    /// <summary>A browser that saves a file twice puts " (1)" behind its name.</summary>
    private static string Plain(string name)
    {
        var at = name.LastIndexOf(" (", StringComparison.Ordinal);
        return at > 0 && name.EndsWith(").csv", StringComparison.Ordinal) ? name[..at] + ".csv" : name;
    }
}

/// <summary>Passes progress on at most ten times a second, so that a page drawn at a distance keeps up; what is done next is told at
/// once.</summary>
public sealed class PacedProgress(Action<ImportProgress> tell) : IProgress<ImportProgress>
{
    private static readonly TimeSpan Pace = TimeSpan.FromMilliseconds(100);
    private long last;
    private string doing = "";

    public void Report(ImportProgress value)
    {
        ArgumentNullException.ThrowIfNull(value);
        var now = TimeProvider.System.GetTimestamp();
        if (last != 0 && value.Share < 1 && value.Doing == doing && TimeProvider.System.GetElapsedTime(last, now) < Pace)
        {
            return;
        }

        (last, doing) = (now, value.Doing);
        tell(value);
    }
}
