using CommonGround.Interchange.Names;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.History;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>One person recording in one yard: the lines, the bed and day they are for, and what came of the last save.</summary>
public sealed class RecordSession(NameIndex names, RecordPlantings record, UndoChange undo, BrowserDrafts drafts, GroupClock clock, CurrentUser viewer)
{
    private long? saved;
    private IReadOnlyList<PlantingDraft> savedLines = [];
    private bool saving;

    public EntrySheet Sheet { get; } = new(names);
    public YardView View { get; private set; } = default!;
    public BedView Bed { get; private set; } = default!;

    /// <summary>Null while the field is empty.</summary>
    public DateOnly? SeenOn { get; set; } = clock.Today;
    public string Observer { get; set; } = viewer.Name;
    public string? Message { get; private set; }
    public IReadOnlyList<Problem> Problems { get; private set; } = [];

    public bool CanUndoSave => saved is not null;

    public bool CanSave => Sheet.Lines.Count > 0 && !saving;

    /// <summary>The yard's native taxa in flower with the lines that are not saved yet.</summary>
    public int[] InFlower => SeasonWith.Lines(View, Sheet.Lines);

    private string Key => $"record:{View.Facts.Id}:{Bed.Id}";

    /// <summary>Takes the yard as it stands now, after a save for example, and stays at its bed.</summary>
    public void Show(YardView view)
    {
        View = view;
        Bed = view.Beds.FirstOrDefault(b => b.Id == Bed?.Id) ?? view.Beds[0];
    }

    public IReadOnlyList<Problem> Check(PlantingDraft line)
    {
        var problems = line.Check(SeenOn ?? DateOnly.MinValue, clock.Today, Bed.AreaSquareMetres, View.Facts.AreaSquareMetres, viewer.Units);
        // Two lines of one plant on one day: the later would silently take the place of the earlier.
        var earlier = Sheet.Lines.TakeWhile(l => !ReferenceEquals(l, line)).FirstOrDefault(l => l.Taxon is not null && l.Taxon == line.Taxon);
        return earlier is null ? problems : [.. problems, new("name", $"{earlier.Taxon!.DisplayName} already stands above. Add the two up on one line, or remove one.")];
    }

    public async Task ChooseBedAsync(long bedId)
    {
        Bed = View.Beds.Single(b => b.Id == bedId);
        await ReadKeptAsync();
    }

    /// <summary>Brings back the lines this browser kept for the bed.</summary>
    public async Task ReadKeptAsync()
    {
        var kept = await drafts.ReadAsync(Key);
        Sheet.Keep([.. kept.Select(Sheet.Renew)]);
        Message = kept.Count > 0 ? "These lines were typed before and not saved. They were kept on this device." : null;
    }

    public Task AddAsync(PlantingDraft draft)
    {
        Sheet.Add(draft);
        Message = null;
        return KeepAsync();
    }

    public Task UndoStepAsync()
    {
        Sheet.Undo();
        return KeepAsync();
    }

    public Task KeepAsync() => drafts.KeepAsync(Key, Sheet.Lines);

    /// <summary>Saves the lines that are right; the others stay to be mended.</summary>
    public async Task SaveAsync()
    {
        var ready = Sheet.Lines.Where(l => Check(l).Count == 0).ToList();
        if (ready.Count == 0 || saving)
        {
            return;
        }

        saving = true;
        var result = await record.SaveAsync(new RecordSheet(View.Facts.Id, Bed.Id, Bed.Version, SeenOn ?? DateOnly.MinValue, Observer, ready), viewer);
        saving = false;
        Problems = result.Problems;
        if (result.ChangeId is not null)
        {
            (saved, savedLines) = (result.ChangeId, ready);
            Message = $"Saved {Words.Count(ready.Count, "planting")} in {Bed.Name}.";
            Sheet.Keep([.. Sheet.Lines.Except(ready)]);
            await KeepAsync();
        }
    }

    /// <summary>Takes the last save back and puts its lines into the sheet again.</summary>
    public async Task UndoSaveAsync()
    {
        Problems = await undo.UndoAsync(saved!.Value, viewer);
        if (Problems.Count == 0)
        {
            Sheet.Restore([.. savedLines, .. Sheet.Lines]);
            (saved, Message) = (null, "The save was undone; the lines are back below.");
            await KeepAsync();
        }
    }

    public string Heading() => Sheet.Lines.Count == 0 ? "No lines yet" : $"{Words.Spelled(Sheet.Lines.Count)} {(Sheet.Lines.Count == 1 ? "line" : "lines")}, not saved yet";

    public string SaveWords()
    {
        var bad = Sheet.Lines.Count(l => Check(l).Count > 0);
        var good = Sheet.Lines.Count - bad;
        return Sheet.Lines.Count == 0 ? "Nothing to save yet"
            : bad == 0 ? $"Save {Words.Count(good, "planting")}"
            : good == 0 ? "Mend the lines first"
            : $"Save {Words.Spelled(good).ToLowerInvariant()}, keep {Words.Spelled(bad).ToLowerInvariant()} to mend";
    }
}
