using System.Data.Common;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange;
using CommonGround.Interchange.Names;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

public enum ImportStep { Files, Columns, Names, Correct, Store, Done }

/// <summary>The way from dropped files to stored rows, apart from how it looks. Heavy work runs beside the page and tells how far it
/// is.</summary>
public sealed class ImportWizard : IDisposable
{
    public const int MostFiles = 10;
    public const long LargestFile = 32 * 1024 * 1024;
    private const string CorrectionEnding = "-to-correct.csv";
    private readonly List<UploadedFile> files = [];
    private readonly Dictionary<string, UnknownName> names = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> chosen = new(StringComparer.Ordinal);
    private readonly HashSet<string> unlisted = new(StringComparer.OrdinalIgnoreCase);
    private CancellationTokenSource? stop;
    private (IReadOnlyList<CatalogueTaxon> Taxa, NameIndex Index)? catalogue;

    private ImportFiles import;
    private GroupClock clock;

    public ImportWizard(ImportFiles import, GroupClock clock) => (this.import, this.clock) = (import, clock);

    /// <summary>Goes on in another page, after a reload: what asked for the database then is gone.</summary>
    public void Resume(ImportFiles files, GroupClock groupClock) => (import, clock) = (files, groupClock);

    public ImportStep Step { get; private set; }

    /// <summary>The furthest step that was reached with these files; none beyond it can be gone to.</summary>
    public ImportStep Reached { get; private set; }
    public IReadOnlyList<UploadedFile> Files => files;

    /// <summary>Every name the catalogue did not know, with or without an answer.</summary>
    public IReadOnlyCollection<UnknownName> Names => names.Values;

    public ImportOutcome? Outcome { get; private set; }
    public ImportProgress? Progress { get; private set; }
    public string Said { get; private set; } = "";
    public bool Busy => stop is not null;
    public bool Ready => Taken.Any() && files.TrueForAll(f => f.Open.Count == 0);

    /// <summary>The files that are not left out.</summary>
    public IEnumerable<UploadedFile> Taken => files.Where(f => !f.LeftOut);
    public IEnumerable<UploadedFile> FilesToCorrect => Outcome is null ? []
        : files.Where(f => f.Table.HasColumns && Outcome.Errors.Any(e => e.File == f.Table.Name && e.Line > 0));

    /// <summary>Takes a file in; a corrected one takes the place of the file it came from.</summary>
    public async Task AddAsync(string name, byte[] content)
    {
        var tables = await Task.Run(() => Opened(name, content));
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

    private static List<UploadedFile> Opened(string name, byte[] content)
    {
        var tables = UploadedTable.Open(name, content);
        var opened = tables.Select(t => new UploadedFile(t, tables.Count > 1 ? SheetName(t.Name) : "")).ToList();
        // A single sheet among several that says nothing of itself is asked about; beside others it is left out.
        if (opened.TrueForAll(f => f.LeftOut))
        {
            opened.ForEach(f => f.LeftOut = false);
        }

        return opened;
    }

    /// <summary>A sheet's own name; nothing where a program named it.</summary>
    private static string SheetName(string table)
    {
        var name = table[(table.IndexOf(", ", StringComparison.Ordinal) + 2)..];
        return name.StartsWith("Sheet", StringComparison.OrdinalIgnoreCase) ? name : name.Trim();
    }

    public void Forget(UploadedFile file) => files.Remove(file);

    public void GoTo(ImportStep step)
    {
        (Step, Said) = (step, "");
        Reached = step > Reached ? step : Reached;
    }

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

    /// <summary>Keeps every name that nothing was chosen for as an unlisted plant.</summary>
    public void KeepTheRest()
    {
        foreach (var name in names.Values.Where(n => Decided(n).Length == 0))
        {
            unlisted.Add(name.Name);
        }
    }

    /// <summary>The catalogue as it stands here, to search in.</summary>
    public async Task<IReadOnlyList<CatalogueTaxon>> CatalogueAsync()
    {
        catalogue ??= await import.NamesAsync();
        return catalogue.Value.Taxa;
    }

    /// <summary>The one plant that a searched name means; null where it means none or several.</summary>
    public CatalogueTaxon? Meant(string typed) => catalogue?.Index.Meant(typed);

    /// <summary>Names that nothing is chosen for yet.</summary>
    public int Undecided => names.Values.Count(n => Decided(n).Length == 0);

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
            if (names.TryAdd(name.Name, name) && name.Likeliest is { } likeliest)
            {
                chosen[name.Name] = likeliest;
            }
        }

        var ask = outcome.UnknownNames.Count > 0 && Step != ImportStep.Names;
        GoTo(ask ? ImportStep.Names : outcome.Errors.Count > 0 ? ImportStep.Correct : ImportStep.Store);
    }

    public async Task StoreAsync(CurrentUser currentUser, Action changed)
    {
        if (await RunAsync(currentUser, checkOnly: false, changed) is { } outcome)
        {
            // Somebody may have changed the record since the check.
            GoTo(outcome.Errors.Count > 0 ? ImportStep.Correct : ImportStep.Done);
        }
    }

    /// <summary>Stops what is running; nothing of it stays.</summary>
    public void Cancel() => stop?.Cancel();

    /// <summary>Raised whenever something may look different; a page that shows this import listens.</summary>
    public event EventHandler? Changed;

    public void Tell() => Changed?.Invoke(this, EventArgs.Empty);

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
                By = currentUser.Note("brought " + ImportFiles.Named([.. Taken.Select(f => f.Table.Name)]))
            };
            var (taken, meant) = (Taken.ToList(), new Dictionary<string, string>(chosen, StringComparer.Ordinal));
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
