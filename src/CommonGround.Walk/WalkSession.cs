using System.Text.Json;
using CommonGround.Ecology.Phenology;
using CommonGround.Interchange.Walks;

namespace CommonGround.Walk;

/// <summary>The walk under way in a yard: its list, where the walker is, and what was tapped. All of it lies on the phone, so a closed tab
/// opens where it was.</summary>
public sealed class WalkSession(Pack pack, Outbox outbox, Shelf shelf, TimeProvider time)
{
    private const string Walked = "walked";
    private static readonly TimeSpan LongestPause = TimeSpan.FromHours(12);
    private readonly List<WalkNote> notes = [];
    private readonly Dictionary<string, WalkNote> looks = new(StringComparer.Ordinal);

    public WalkYard? Yard { get; private set; }

    public IReadOnlyList<WalkItem> Items { get; private set; } = [];

    /// <summary>Position in <see cref="Items"/>; their number at the end of the list.</summary>
    public int At { get; private set; }

    public WalkItem? Current => At < Items.Count ? Items[At] : null;

    public Guid WalkId { get; private set; }

    public IReadOnlyList<WalkNote> Notes => notes;

    /// <summary>What could not be kept, in words; empty while all is well.</summary>
    public string Problem { get; private set; } = "";

    public int Looked => looks.Count;

    /// <summary>What stood on the list in this walk, with new plants and with those that the site took off it since.</summary>
    public int Listed => Items.Select(i => i.Key).Union(looks.Keys).Count();

    /// <summary>How many notes of this walk the site has.</summary>
    public int Stored => notes.Count(n => !outbox.Waiting.Exists(w => w.Id == n.Id));

    public DateTime? StartedAtUtc => notes.Count > 0 ? notes[0].SaidAtUtc : null;

    public int HalfMonthNow => HalfMonth.Of(pack.Today);

    /// <summary>Opens the yard's list, and the walk that was broken off less than half a day ago.</summary>
    public async Task OpenAsync(WalkYard yard)
    {
        ArgumentNullException.ThrowIfNull(yard);
        if (Yard?.Code != yard.Code || notes.Count == 0)
        {
            notes.Clear();
            foreach (var text in await shelf.AllAsync(Walked, Prefix(yard)))
            {
                notes.Add(JsonSerializer.Deserialize(text, WalkJson.Default.WalkNote)!);
            }

            notes.Sort((a, b) => a.SaidAtUtc.CompareTo(b.SaidAtUtc));
            if (notes.Count > 0 && (time.GetUtcNow().UtcDateTime - notes[^1].SaidAtUtc).Duration() > LongestPause)
            {
                await BeginAnewAsync(yard);
            }

            WalkId = notes.Count > 0 ? notes[0].WalkId : Guid.NewGuid();
            ReadLooks();
        }

        Yard = yard;
        Items = WalkItem.InOrder(yard, HalfMonthNow);
        At = Next(-1);
    }

    /// <summary>The last walk is over: its notes are the site's by now, or wait to be sent.</summary>
    public async Task BeginAnewAsync(WalkYard yard)
    {
        await shelf.ClearAsync(Walked, Prefix(yard));
        notes.Clear();
        looks.Clear();
        WalkId = Guid.NewGuid();
    }

    public WalkNote? LookOf(WalkItem item) => looks.GetValueOrDefault(item.Key);

    public void GoTo(int at) => At = Math.Clamp(at, 0, Items.Count);

    /// <summary>Keeps what was said of the planting at hand and goes on; a second answer takes the place of the first.</summary>
    public async Task<bool> AnswerAsync(WalkItem item, LookSaid said)
    {
        var before = LookOf(item);
        if (!await AddAsync(Note(WalkNoteKind.Look, item.Bed.Id) with
        {
            Taxon = item.Plant.Taxon,
            Patch = item.Plant.Patch,
            LastSightingId = item.Plant.SightingId,
            Look = said
        }, before))
        {
            return false;
        }

        var at = Items.Index().First(i => i.Item.Key == item.Key).Index;
        At = Next(at);
        return true;
    }

    /// <summary>A plant that was not on the list.</summary>
    public Task<bool> AddPlantAsync(long bedId, string taxon, bool asWritten, string patch, LookSaid said) =>
        AddAsync(Note(WalkNoteKind.Look, bedId) with { Taxon = taxon, AsWritten = asWritten, Patch = patch, Look = said }, null);

    public WalkNote Note(WalkNoteKind kind, long bedId) =>
        new(Guid.NewGuid(), WalkId, kind, pack.Yards!.MemberId, pack.Yards.NeighbourhoodId, time.GetUtcNow().UtcDateTime,
            pack.Yards.ServerUtc, Yard!.Code)
        { BedId = bedId };

    /// <summary>Keeps a note.</summary>
    /// <param name="instead">The note in whose place it stands.</param>
    /// <returns>False where the phone did not take it: then nothing changed.</returns>
    public async Task<bool> AddAsync(WalkNote note, WalkNote? instead)
    {
        ArgumentNullException.ThrowIfNull(note);
        try
        {
            var wasSent = instead is not null && !IsUnsent(instead);
            await outbox.AddAsync(wasSent ? note with { Over = [instead!.Id] } : note, WalkedKey(note));
            if (instead is not null)
            {
                await shelf.RemoveAsync((Walked, WalkedKey(instead)));
                if (!wasSent)
                {
                    await outbox.RemoveAsync(instead);
                }
            }

            notes.RemoveAll(n => n.Id == instead?.Id || n.Id == note.Id);
            notes.Add(note);
            ReadLooks();
            Problem = "";
            return true;
        }
        catch (Microsoft.JSInterop.JSException)
        {
            Problem = "The phone did not keep the last tap: it may be full. Everything before is safe. Free some space, then tap again.";
            return false;
        }
    }

    /// <summary>Takes a note back: off the phone where it waits, else with a note that says so.</summary>
    public async Task UndoAsync(WalkNote note)
    {
        ArgumentNullException.ThrowIfNull(note);
        if (IsUnsent(note))
        {
            await outbox.RemoveAsync(note);
        }
        else
        {
            await outbox.AddAsync(Note(note.Kind, note.BedId) with { Taxon = note.Taxon, Patch = note.Patch, Over = [note.Id] });
        }

        await shelf.RemoveAsync((Walked, WalkedKey(note)));
        notes.RemoveAll(n => n.Id == note.Id);
        ReadLooks();
        if (note.Kind == WalkNoteKind.Look && Items.Index().FirstOrDefault(i => Key(note) == i.Item.Key) is { Item: not null } back)
        {
            At = back.Index;
        }
    }

    /// <summary>Ends the walk: its duration is kept as effort.</summary>
    public async Task EndAsync()
    {
        if (StartedAtUtc is { } started && Looked > 0)
        {
            var minutes = Math.Clamp((int)Math.Ceiling((time.GetUtcNow().UtcDateTime - started).TotalMinutes), 1, 24 * 60);
            await outbox.AddAsync(Note(WalkNoteKind.End, 0) with { End = new EndSaid(started, minutes, Looked) });
        }

        await BeginAnewAsync(Yard!);
        At = Next(-1);
    }

    private bool IsUnsent(WalkNote note) => outbox.Waiting.Exists(w => w.Id == note.Id) && !outbox.IsInFlight(note.Id);

    private int Next(int after)
    {
        for (var i = 1; i <= Items.Count; i++)
        {
            var at = (after + i) % Items.Count;
            if (LookOf(Items[at]) is null)
            {
                return at;
            }
        }

        return Items.Count;
    }

    private void ReadLooks()
    {
        looks.Clear();
        foreach (var note in notes.Where(n => n is { Kind: WalkNoteKind.Look, Look: not null }))
        {
            looks[Key(note)] = note;
        }
    }

    private static string Key(WalkNote note) => $"{note.BedId}|{note.Taxon}|{note.Patch}";

    private static string Prefix(WalkYard yard) => yard.Code + " ";

    private static string WalkedKey(WalkNote note) => $"{note.Yard} {note.Id}";
}
