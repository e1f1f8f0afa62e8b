using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.History;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>One person recording in one yard: the lines, the bed and day they are for, and what came of the last save.</summary>
public sealed class RecordSession(NameIndex names, RecordPlantings record, UndoChange undo, BrowserDrafts drafts, GroupClock clock,
    CurrentUser currentUser)
{
    private long? saved;
    private IReadOnlyList<PlantingDraft> savedLines = [];
    private bool saving;

    public EntrySheet Sheet { get; } = new(names);
    public YardView View { get; private set; } = default!;
    public BedView Bed { get; private set; } = default!;

    /// <summary>Null while the field is empty.</summary>
    public DateOnly? SeenOn { get; set; } = clock.Today;
    public string Observer { get; set; } = currentUser.Name;
    public string? Message { get; private set; }
    public IReadOnlyList<Problem> Problems { get; private set; } = [];

    /// <summary>The line that is back in the field; it stays in the sheet until it is added again.</summary>
    public int? Editing { get; private set; }

    /// <summary>Called when lines were changed in the table, so that all that counts them is drawn anew.</summary>
    public Action Changed { get; set; } = () => { };

    /// <summary>What stood in the field when the page was left.</summary>
    public string KeptEntry { get; private set; } = "";

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
        Sheet.BedSquareMetres = Bed.AreaSquareMetres;
    }

    /// <summary>The planting a line is about, as it is known; null where it is new.</summary>
    public PlantingLine? Known(PlantingDraft line) => line.Taxon is null ? null
        : Bed.Plantings.Concat(Bed.Unseen).FirstOrDefault(p => p.Taxon.ScientificName == line.Taxon.ScientificName
        && p.Patch == line.Patch);

    public IReadOnlyList<Problem> Check(PlantingDraft line)
    {
        var known = Known(line);
        var problems = line.Check(SeenOn ?? DateOnly.MinValue, clock.Today, Bed.AreaSquareMetres, View.Facts.AreaSquareMetres,
            currentUser.Units, known?.CoverSquareMetres);
        return SamePlant(line, known) is { } same ? [.. problems, same] : problems;
    }

    /// <summary>The places a line can go to where its plant stands here already; asked once.</summary>
    private Problem? SamePlant(PlantingDraft line, PlantingLine? known)
    {
        if (line.Taxon is not { } taxon)
        {
            return null;
        }

        if (Earlier(line) is not null)
        {
            return new("same-line", $"{taxon.DisplayName} already stands above. Are the two one planting, or two patches?");
        }

        if (known is not null && known.ObservedOn == SeenOn && line.SameDay == SameDay.Ask)
        {
            var stage = known.GrowthStage is { } s ? ", " + PlantWords.Stage(s) : "";
            return new("same-day", $"{taxon.DisplayName} is recorded here on this day already: "
                + $"{currentUser.Units.AreaWords(known.CoverSquareMetres)}{stage}. Add this to it, put it in its place, or keep two "
                + $"patches?");
        }

        var patches = Patches(taxon);
        return known is null && line.Patch.Length == 0 && patches.Count > 0
            ? new("patch", $"{taxon.DisplayName} grows here in patches: {Words.List([.. patches.Select(PlantWords.Patch)])}. Which one is "
            + $"it, or is it a new one?") : null;
    }

    /// <summary>Labels of the plant's patches in this bed, in the record and in the other lines.</summary>
    public IReadOnlyList<string> Patches(CatalogueTaxon taxon) =>
        [.. Bed.Plantings.Concat(Bed.Unseen).Where(p => p.Taxon.ScientificName == taxon.ScientificName && p.Patch.Length > 0)
            .Select(p => p.Patch).Distinct(StringComparer.Ordinal)];

    private PlantingDraft? Earlier(PlantingDraft line) =>
        Sheet.Lines.TakeWhile(l => !ReferenceEquals(l, line)).FirstOrDefault(l => l.Taxon is not null
            && l.Taxon.ScientificName == line.Taxon?.ScientificName && l.Patch == line.Patch);

    /// <summary>One planting: two lines are added up, or the line is added to what the day's record has.</summary>
    public Task TogetherAsync(int at)
    {
        if (Earlier(Sheet.Lines[at]) is { } earlier)
        {
            Sheet.Join(Sheet.Lines.Index().First(l => ReferenceEquals(l.Item, earlier)).Index, at);
        }
        else
        {
            Sheet.Replace(at, Sheet.Lines[at] with { SameDay = SameDay.Together });
        }

        return ChangedAsync();
    }

    public Task InPlaceAsync(int at)
    {
        Sheet.Replace(at, Sheet.Lines[at] with { SameDay = SameDay.InPlace });
        return ChangedAsync();
    }

    /// <summary>A patch of its own, under the label given or the next free number.</summary>
    public Task ApartAsync(int at, string? label = null)
    {
        var line = Sheet.Lines[at];
        var used = Patches(line.Taxon!).Concat(Sheet.Lines.Where(l => l.Taxon?.ScientificName == line.Taxon!.ScientificName)
            .Select(l => l.Patch)).ToHashSet(StringComparer.Ordinal);
        label ??= Enumerable.Range(2, used.Count + 1).Select(n => n.ToString(System.Globalization.CultureInfo.InvariantCulture))
            .First(n => !used.Contains(n));
        Sheet.Replace(at, line with { Patch = label });
        return ChangedAsync();
    }

    public async Task ChooseBedAsync(long bedId)
    {
        Bed = View.Beds.Single(b => b.Id == bedId);
        Sheet.BedSquareMetres = Bed.AreaSquareMetres;
        await ReadKeptAsync();
    }

    /// <summary>Brings back the lines this browser kept for the bed, before those that were added while they were being read.</summary>
    public async Task ReadKeptAsync()
    {
        var shown = Sheet.Lines;
        var kept = await drafts.ReadAsync(Key);
        PlantingDraft[] added = [.. Sheet.Lines.Where(l => !shown.Any(s => ReferenceEquals(s, l)))];
        Sheet.Keep([.. kept.Select(Sheet.Renew), .. added]);
        if (added.Length > 0)
        {
            await KeepAsync();
        }

        Message = kept.Count > 0 ? "These lines were typed before and not saved. They were kept on this device." : null;
        var entry = await drafts.ReadAsync<KeptEntry>(Key + ":entry");
        KeptEntry = entry?.Typed ?? "";
        Editing = entry?.Editing is { } at && at < Sheet.Lines.Count ? at : null;
    }

    /// <summary>Adds a line, or puts it in the place of the one that was being edited.</summary>
    public Task AddAsync(PlantingDraft draft)
    {
        if (Editing is { } at && at < Sheet.Lines.Count)
        {
            Sheet.Replace(at, draft);
        }
        else
        {
            Sheet.Add(draft);
        }

        (Editing, Message) = (null, null);
        return KeepAsync();
    }

    /// <summary>Begins to edit a line, and gives it back as it can be typed.</summary>
    public string Edit(int at)
    {
        Editing = at;
        return EntrySheet.Written(Sheet.Lines[at], currentUser.Units);
    }

    /// <summary>An emptied field leaves the line as it was.</summary>
    public void LeaveEdit() => Editing = null;

    /// <summary>Keeps what stands in the field, and which line it is an edit of.</summary>
    public Task TypedAsync(string typed) =>
        drafts.KeepTextAsync(Key + ":entry", typed.Length == 0 ? null
            : System.Text.Json.JsonSerializer.Serialize(new KeptEntry(typed, Editing)));

    public Task UndoStepAsync()
    {
        Editing = null;
        Sheet.Undo();
        return KeepAsync();
    }

    /// <summary>Lines were changed in the table: what was being edited may stand elsewhere now, so it begins anew.</summary>
    public Task ChangedAsync()
    {
        Editing = null;
        Changed();
        return KeepAsync();
    }

    public Task KeepAsync() => drafts.KeepAsync(Key, Sheet.Lines);

    /// <summary>Saves the lines that are right; the others stay to be corrected.</summary>
    public async Task SaveAsync()
    {
        var ready = Sheet.Lines.Where(l => Check(l).Count == 0).ToList();
        if (ready.Count == 0 || saving)
        {
            return;
        }

        saving = true;
        var result = await record.SaveAsync(new RecordSheet(View.Facts.Id, Bed.Id, Bed.Version, SeenOn ?? DateOnly.MinValue, Observer,
            ready), currentUser);
        saving = false;
        Problems = result.Problems;
        if (result.ChangeId is not null)
        {
            (saved, savedLines, Editing) = (result.ChangeId, ready, null);
            Message = $"Saved {Words.Count(ready.Count, "planting")} in {Bed.Name}.";
            Sheet.Keep([.. Sheet.Lines.Where(l => !ready.Exists(r => ReferenceEquals(r, l)))]);
            await KeepAsync();
        }
    }

    /// <summary>Takes the last save back and puts its lines into the sheet again.</summary>
    public async Task UndoSaveAsync()
    {
        Problems = await undo.UndoAsync(saved!.Value, currentUser);
        if (Problems.Count == 0)
        {
            Sheet.Restore([.. savedLines, .. Sheet.Lines]);
            (saved, Message) = (null, "The save was undone; the lines are back below.");
            await KeepAsync();
        }
    }

    public string Heading() => Sheet.Lines.Count == 0 ? "No lines yet"
        : $"{Words.Spelled(Sheet.Lines.Count)} {(Sheet.Lines.Count == 1 ? "line" : "lines")}, not saved yet";

    public string SaveWords()
    {
        var bad = Sheet.Lines.Count(l => Check(l).Count > 0);
        var good = Sheet.Lines.Count - bad;
        return Sheet.Lines.Count == 0 ? "Nothing to save yet"
            : bad == 0 ? $"Save {Words.Count(good, "planting")}"
            : good == 0 ? "Correct the lines first"
            : $"Save {Words.Spelled(good).ToLowerInvariant()}, keep {Words.Spelled(bad).ToLowerInvariant()} to correct";
    }
}

/// <summary>What stands in the field, as the browser keeps it, and the line it is an edit of.</summary>
public sealed record KeptEntry(string Typed, int? Editing);
