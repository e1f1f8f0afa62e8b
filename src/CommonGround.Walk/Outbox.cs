using System.Text.Json;
using CommonGround.Interchange.Walks;

namespace CommonGround.Walk;

/// <summary>Notes that the site has not yet said are stored. Nothing leaves it before that word has come, but by the hand of whoever
/// walked.</summary>
public sealed class Outbox(Shelf shelf, Pack pack, TimeProvider time)
{
    private const string Queue = "queue", Beside = "beside";
    private const int AtOnce = 100;
    private readonly HashSet<Guid> inFlight = [];
    private bool sending;

    public List<WalkNote> Waiting { get; private set; } = [];

    /// <summary>What waits has been read from the phone; before that nobody knows.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>Notes that this version cannot read; they stay where they are.</summary>
    public int Unreadable { get; private set; }

    /// <summary>What stands against notes that the site refused.</summary>
    public Dictionary<Guid, string> Refusals { get; } = [];

    /// <summary>What two people said differently, until somebody chooses.</summary>
    public List<WalkDispute> Disputes { get; private set; } = [];

    /// <summary>What came of the last sending.</summary>
    public string Said { get; private set; } = "";

    /// <summary>While a sheet is open whose note still changes, nothing is sent.</summary>
    public bool IsHeld { get; set; }

    public bool IsInFlight(Guid id) => inFlight.Contains(id);

    public async Task OpenAsync()
    {
        var texts = await shelf.AllAsync(Queue);
        var notes = texts.Select(Read).OfType<WalkNote>().ToList();
        Unreadable = texts.Length - notes.Count;
        Waiting = [.. notes.OrderBy(n => n.SaidAtUtc)];
        Disputes = [.. (await shelf.AllAsync(Beside)).Select(t => JsonSerializer.Deserialize(t, WalkJson.Default.WalkDispute)!)];
        IsOpen = true;
    }

    /// <summary>Keeps a note; when this returns it survives a dead battery.</summary>
    public async Task AddAsync(WalkNote note, string? walked = null)
    {
        var text = JsonSerializer.Serialize(note, WalkJson.Default.WalkNote);
        await shelf.WriteAsync(walked is null ? [(Queue, Key(note), text)] : [(Queue, Key(note), text), ("walked", walked, text)]);
        Waiting.RemoveAll(n => n.Id == note.Id);
        Waiting.Add(note);
    }

    /// <summary>Makes ready what the first tap needs, while nobody waits: on a slow phone it takes a third of a second.</summary>
    public async Task WarmUpAsync(WalkNote note)
    {
        const string Practice = "practice";
        try
        {
            await shelf.WriteAsync(("walked", Practice, JsonSerializer.Serialize(note, WalkJson.Default.WalkNote)));
            await shelf.RemoveAsync(("walked", Practice));
        }
        catch (Microsoft.JSInterop.JSException)
        {
            // A full phone is told at the first tap, when there is something to keep.
        }
    }

    /// <summary>Lets a note go that was never sent.</summary>
    public async Task RemoveAsync(WalkNote note)
    {
        await shelf.RemoveAsync((Queue, Key(note)), ("photos", Key(note)));
        Waiting.RemoveAll(n => n.Id == note.Id);
        Refusals.Remove(note.Id);
    }

    public async Task SettleAsync(WalkDispute dispute)
    {
        await shelf.RemoveAsync((Beside, Key(dispute)));
        Disputes.Remove(dispute);
    }

    /// <summary>Sends what waits, once at a time. What was stored is let go; what was refused stays, with the reason.</summary>
    public async Task SendAsync()
    {
        if (sending || IsHeld || pack.Yards is not { } mine)
        {
            return;
        }

        sending = true;
        try
        {
            Refusals.Clear();
            var theirs = Waiting.Where(n => n.MemberId != mine.MemberId || n.NeighbourhoodId != mine.NeighbourhoodId).Select(n => n.Id)
                .ToHashSet();
            while (Waiting.Where(n => !theirs.Contains(n.Id) && !Refusals.ContainsKey(n.Id)).Take(AtOnce).ToList() is { Count: > 0 } next)
            {
                var photo = next.Find(n => n.Kind == WalkNoteKind.Photo);
                var batch = photo is null ? next : next[0] == photo ? [photo] : next.TakeWhile(n => n != photo).ToList();
                if (!await SendAsync(batch))
                {
                    return;
                }
            }

            Said = Refusals.Count > 0 ? $"{Refusals.Count} could not be stored: see below." : theirs.Count > 0
                ? $"{theirs.Count} wait for somebody else to sign in." : "";
        }
        finally
        {
            inFlight.Clear();
            sending = false;
        }
    }

    private async Task<bool> SendAsync(List<WalkNote> batch)
    {
        inFlight.UnionWith(batch.Select(n => n.Id));
        var body = JsonSerializer.Serialize(new WalkBatch(time.GetUtcNow().UtcDateTime, batch), WalkJson.Default.WalkBatch);
        var answer = batch[0].Kind == WalkNoteKind.Photo ? await shelf.SendPhotoAsync(Key(batch[0]), body)
            : await shelf.PostAsync("data/notes", body);
        if (answer.Status == 400 && batch.Count > 1)
        {
            // One of them cannot be read there: each by itself, so that it holds up no other.
            foreach (var note in batch)
            {
                if (!await SendAsync([note]))
                {
                    return false;
                }
            }

            return true;
        }

        if (answer.Status == 400 || answer.Status == 413)
        {
            Refusals[batch[0].Id] = answer.Text.Length is > 0 and < 300 ? answer.Text : "The site could not read this note.";
            return true;
        }

        if (answer.Status != 200)
        {
            Said = answer.Status switch
            {
                0 => "No answer from the site. It is sent again by itself.",
                401 or 403 or 404 => "Sign in, then send again. Nothing is lost.",
                _ => $"The site answered {answer.Status}. It is sent again later; nothing is lost.",
            };
            return false;
        }

        await TakeAsync(JsonSerializer.Deserialize(answer.Text, WalkJson.Default.WalkAnswer)!);
        return true;
    }

    private async Task TakeAsync(WalkAnswer answer)
    {
        foreach (var dispute in answer.Disputes.Where(d => d.Sides.Any(s => s.Mine)))
        {
            await shelf.WriteAsync((Beside, Key(dispute), JsonSerializer.Serialize(dispute, WalkJson.Default.WalkDispute)));
            Disputes.RemoveAll(d => Key(d) == Key(dispute));
            Disputes.Add(dispute);
        }

        foreach (var receipt in answer.Receipts.Where(r => r.State == ReceiptState.Refused))
        {
            Refusals[receipt.Id] = receipt.Message;
        }

        var stored = answer.Receipts.Where(r => r.State != ReceiptState.Refused).Select(r => r.Id).ToHashSet();
        await shelf.RemoveAsync([.. stored.SelectMany(id => new[] { (Queue, id.ToString()), ("photos", id.ToString()) })]);
        Waiting.RemoveAll(n => stored.Contains(n.Id));
        inFlight.ExceptWith(stored);
    }

    private static string Key(WalkNote note) => note.Id.ToString();

    private static string Key(WalkDispute dispute) => dispute.SightingId.ToString(System.Globalization.CultureInfo.InvariantCulture);

    private static WalkNote? Read(string text)
    {
        try
        {
            return JsonSerializer.Deserialize(text, WalkJson.Default.WalkNote);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
