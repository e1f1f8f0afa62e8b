using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Interchange.Walks;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Storage.Walks;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Walks;

/// <summary>Stores what a phone sends: each note once, with its receipt in the same transaction. What cannot be stored is refused with its
/// reason and stays on the phone.</summary>
public sealed class ReceiveWalk(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, LiveCommunity live, GroupClock clock)
{
    /// <summary>More come in further batches.</summary>
    public const int Most = 100;

    internal const string SomebodyElses = "Recorded by somebody else on this phone. It waits here until they sign in.";
    internal const string OtherPlace = "Recorded in another neighbourhood. It waits here until that one is open.";
    private const string NotYours = "This yard is gone from the record, or is no longer yours to record in. "
        + "Nothing is lost: it stays on this phone. Ask an organiser.";
    private readonly RecordNames names = new(database, neighbourhood);

    public async Task<WalkAnswer> SaveAsync(WalkBatch batch, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(batch);
        ArgumentNullException.ThrowIfNull(by);
        var notes = batch.Notes.DistinctBy(n => n.Id).OrderBy(n => n.SaidAtUtc).ThenBy(n => n.Id).ToList();
        await AddNamesAsync(notes, by, cancel);
        // A name that was added just now is in it.
        var loaded = await live.LoadedAsync(cancel);
        List<WalkReceipt> receipts = [];
        List<WalkDispute> disputes = [];
        var saved = await database.WriteAsync(
            async db =>
            {
                (receipts, disputes) = ([], []);
                var ids = notes.ConvertAll(n => n.Id);
                var before = await db.ReceivedNotes.Where(r => ids.Contains(r.ClientId)).Select(r => r.ClientId).ToHashSetAsync(cancel);
                receipts.AddRange(notes.Where(n => before.Contains(n.Id))
                    .Select(n => new WalkReceipt(n.Id, ReceiptState.StoredBefore, "")));
                var book = new WalkBook(db, neighbourhood.Id, by, clock, loaded);
                foreach (var yardNotes in notes.Where(n => !before.Contains(n.Id)).GroupBy(n => n.Yard))
                {
                    await StoreAsync(book, [.. yardNotes], batch.SentAtUtc, receipts, cancel);
                }

                disputes = await book.DisputesAsync(cancel);
                return book.Stored.Count == 0 ? Intent.Nothing
                    : by.Note($"recorded {Words.Count(book.Stored.Count, "note")} of a walk in "
                    + $"{Words.List([.. book.Yards.Order(StringComparer.Ordinal)])}");
            }, cancel);
        return saved.IsStored ? new(receipts, disputes) : new([.. notes.Select(n =>
            new WalkReceipt(n.Id, ReceiptState.Refused, saved.Problems[0].Message))], []);
    }

    private async Task StoreAsync(WalkBook book, List<WalkNote> notes, DateTime sentUtc, List<WalkReceipt> receipts,
        CancellationToken cancel)
    {
        var yard = await book.Db.Yards.SingleOrDefaultAsync(y => y.Code == notes[0].Yard, cancel);
        if (yard is not null && book.By.MayRecord(yard.OwnerId))
        {
            await book.OpenAsync(yard, notes, cancel);
        }

        foreach (var note in notes)
        {
            var refusal = note.MemberId != book.By.MemberId ? SomebodyElses
                : note.NeighbourhoodId != neighbourhood.Id ? OtherPlace
                : yard is null || !book.By.MayRecord(yard.OwnerId) ? NotYours
                : null;
            var when = WalkDay.Of(note, sentUtc, clock);
            refusal ??= await book.StoreAsync(yard!, note, when, cancel);
            receipts.Add(refusal is null ? new(note.Id, ReceiptState.Stored, when.Message) : new(note.Id, ReceiptState.Refused, refusal));
        }
    }

    /// <summary>Names that the catalogue does not list become recordable before what was seen under them is stored.</summary>
    private async Task AddNamesAsync(List<WalkNote> notes, CurrentUser by, CancellationToken cancel)
    {
        foreach (var yard in notes.Where(n => n is { AsWritten: true, Taxon.Length: > 0 } && n.MemberId == by.MemberId)
            .GroupBy(n => n.Yard))
        {
            await using var db = await database.CreateDbContextAsync(cancel);
            var id = await db.Yards.Where(y => y.Code == yard.Key).Select(y => (long?)y.Id).SingleOrDefaultAsync(cancel);
            if (id is { } there)
            {
                var index = (await live.LoadedAsync(cancel)).Names;
                // What is wrong with a name is said of the note that bears it.
                await names.AddAsync(there, [.. yard.Select(n => n.Taxon).Distinct(StringComparer.OrdinalIgnoreCase)
                    .Select(n => RecordedName.Of(n, index))], by, cancel);
            }
        }
    }
}
