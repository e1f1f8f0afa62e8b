using System.Text.Json;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Saving;
using CommonGround.Storage.Walks;
using CommonGround.Web.Features.Record;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Walks;

/// <summary>
/// All days of one planting while notes of walks are stored in it. Each day that walkers spoke of is worked out from everything said of it,
/// so it comes to the same whatever the order in which phones send; days that nobody walked are left alone.
/// </summary>
internal sealed class PlantingDays(CommonGroundDb db, int neighbourhoodId, CatalogueTaxon? taxon, List<Sighting> rows,
    List<ReceivedNote> received)
{
    /// <summary>What was received for each sighting, by its number.</summary>
    private readonly Dictionary<long, List<ReceivedNote>> notes = received.Where(n => n.RowId is not null).GroupBy(n => n.RowId!.Value)
        .ToDictionary(g => g.Key, g => g.ToList());
    private bool opened;

    public IReadOnlyList<Sighting> Rows => rows;

    /// <summary>As last known growing before a day; it says what a look need not say.</summary>
    public Sighting? Before(DateOnly day) => rows.Where(s => s.ObservedOn < day && s.Finding != Finding.NotFound)
        .MaxBy(s => s.ObservedOn) is { CoverSquareMetres: > 0 } last ? last : null;

    public Sighting? Of(DateOnly day) => rows.Find(s => s.ObservedOn == day);

    public IReadOnlyList<ReceivedNote> NotesOf(Sighting row) => notes.GetValueOrDefault(row.Id) ?? [];

    /// <summary>Adds what was said of a day, and works that day and the walked days after it out anew.</summary>
    public async Task AddAsync(ReceivedNote note, WalkNote said, DateOnly day, Func<Sighting> make, CancellationToken cancel)
    {
        await OpenAsync(cancel);
        if (Of(day) is not { } row)
        {
            row = make();
            rows.Add(row);
            db.Sightings.Add(row);
        }
        else if (!notes.ContainsKey(row.Id))
        {
            await CaptureAsync(row, cancel);
        }

        note.RowId = row.Id;
        Keep(note);
        WorkOut(said.Over.Count > 0 ? DateOnly.MinValue : day);
    }

    /// <summary>Where two people said different things of a day.</summary>
    public LookDispute? DisputeOf(Sighting row) => LookJoin.Dispute(StatementsOf(row));

    /// <summary>Every day of which two people said different things and nobody chose between them, here or by a later edit.</summary>
    public async Task<IReadOnlyList<(Sighting Row, LookDispute Dispute)>> DisputesAsync(CancellationToken cancel)
    {
        await OpenAsync(cancel);
        return [.. rows.Select(r => (Row: r, Dispute: DisputeOf(r))).Where(d => d.Dispute is not null)
            .Select(d => (d.Row, d.Dispute!))];
    }

    /// <summary>Before anything is worked out anew, whatever else changed the walked days is taken as said at the desk.</summary>
    private async Task OpenAsync(CancellationToken cancel)
    {
        if (opened)
        {
            return;
        }

        opened = true;
        foreach (var row in rows.Where(r => notes.ContainsKey(r.Id)).ToList())
        {
            await CaptureAsync(row, cancel);
        }
    }

    private async Task CaptureAsync(Sighting row, CancellationToken cancel)
    {
        var left = NotesOf(row).FirstOrDefault(n => n.Left.Length > 0)?.Left;
        var before = left is null ? WorkedOut(row, StatementsOf(row)) : JsonSerializer.Deserialize<WalkedPlanting>(left)!;
        if (before.ChangedInto(WalkedPlanting.Of(row)) is not { } difference)
        {
            return;
        }

        var last = await LastEditAsync(row, cancel);
        // Whoever edited it had before them what was said until then.
        var edit = new WalkNote(Guid.NewGuid(), Guid.Empty, WalkNoteKind.Look, last.Member, neighbourhoodId, last.AtUtc, last.AtUtc, "")
        {
            Look = difference,
            Settles = [.. StatementsOf(row).Select(s => s.Id)],
        };
        Keep(Received.Of(edit, row.YardId, row.Id, last.AtUtc, last.AtUtc));
    }

    private void Keep(ReceivedNote note)
    {
        // The same batch was stored by another connection between two looks: the next look finds its receipt.
        if (db.ReceivedNotes.Local.Any(n => n.ClientId == note.ClientId))
        {
            throw new OvertakenException();
        }

        db.ReceivedNotes.Add(note);
        if (!notes.TryGetValue(note.RowId!.Value, out var list))
        {
            notes[note.RowId.Value] = list = [];
        }

        list.Add(note);
    }

    /// <summary>Who edited a sighting last, and when: history knows, or else the sighting itself.</summary>
    private async Task<(long? Member, DateTime AtUtc)> LastEditAsync(Sighting row, CancellationToken cancel)
    {
        var key = row.Id.ToString(System.Globalization.CultureInfo.InvariantCulture);
        var last = await db.ChangedRows.Where(r => r.Kind == RowKinds.Sighting && r.RowKey == key).OrderByDescending(r => r.ChangeId)
            .Join(db.Changes, r => new { r.NeighbourhoodId, Id = r.ChangeId }, c => new { c.NeighbourhoodId, c.Id }, (r, c) =>
                new { c.MemberId, c.AtUtc }).FirstOrDefaultAsync(cancel);
        return last is null ? (row.RecordedById, row.RecordedAtUtc) : (last.MemberId, last.AtUtc);
    }

    private void WorkOut(DateOnly from)
    {
        foreach (var row in rows.Where(r => r.ObservedOn >= from && notes.ContainsKey(r.Id)).OrderBy(r => r.ObservedOn).ToList())
        {
            var statements = StatementsOf(row);
            if (statements.TrueForAll(s => s.AtDesk))
            {
                continue; // Nobody walked that day: a line for an earlier day changes no later record.
            }

            var back = statements.SelectMany(s => s.Over).ToHashSet();
            if (statements.TrueForAll(s => back.Contains(s.Id) || s.Said == new LookSaid()))
            {
                // Everything said of the day was taken back: there is no such day.
                rows.Remove(row);
                db.Sightings.Remove(row);
                continue;
            }

            var worked = WorkedOut(row, statements);
            worked.Fill(row);
            row.RecordedById = statements.Where(s => !back.Contains(s.Id)).MaxBy(s => (s.AtUtc, s.Id))!.Person;
            foreach (var note in NotesOf(row))
            {
                note.Left = "";
            }

            NotesOf(row)[^1].Left = JsonSerializer.Serialize(worked);
        }
    }

    private WalkedPlanting WorkedOut(Sighting row, List<LookStatement> statements) =>
        WalkedPlanting.Of(Before(row.ObservedOn), rows.Where(r => r.ObservedOn > row.ObservedOn && r.CoverSquareMetres > 0)
            .MinBy(r => r.ObservedOn), LookJoin.Said(statements), taxon);

    private List<LookStatement> StatementsOf(Sighting row) => [.. NotesOf(row).Where(n => n.Said.Length > 0).Select(Statement)];

    private static LookStatement Statement(ReceivedNote note)
    {
        var said = JsonSerializer.Deserialize(note.Said, WalkJson.Default.WalkNote)!;
        return new(note.ClientId, note.MemberId, note.SaidAtUtc, said.Look ?? new LookSaid(), said.Over, said.Settles,
            said.WalkId == Guid.Empty);
    }
}
