using System.Text.Json;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Storage;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Walks;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Record;

/// <summary>
/// What a line at the desk says, kept as a statement beside those of walkers where the sighting alone would not tell it: on a day that
/// somebody walked, and where the line says again what was known. Notes of phones that come later are then joined with it in the same way
/// as if they had come before.
/// </summary>
internal static class DeskStatements
{
    /// <param name="row">The day's sighting, as the line left it.</param>
    /// <param name="known">As it was known before the line.</param>
    public static async Task AddAsync(CommonGroundDb db, Sighting row, PlantingDraft line, KnownPlanting? known, CurrentUser by,
        DateTime nowUtc, CancellationToken cancel)
    {
        // Of a new sighting nothing can have been said yet.
        var isNew = db.Entry(row).State == EntityState.Added;
        List<ReceivedNote> notes = isNew ? [] : await db.ReceivedNotes.Where(n => n.RowId == row.Id).ToListAsync(cancel);
        if (notes.Count == 0 && !Repeats(line, known))
        {
            return;
        }

        var said = new LookSaid
        {
            Finding = row.Finding,
            CoverSquareMetres = line.KeepsCover || row.Finding != Finding.Growing ? null : row.CoverSquareMetres,
            Count = line.KeepsCover ? null : row.Count,
            CoverDerived = line.KeepsCover ? null : row.CoverDerived,
            GrowthStage = line.GrowthStage,
            Origin = line.Origin,
            Certainty = line.Certainty,
            Qualifier = line.Qualifier.Length > 0 ? line.Qualifier : null,
            Remark = line.Remarks.Length > 0 ? line.Remarks : null,
        };
        var note = new WalkNote(Guid.NewGuid(), Guid.Empty, WalkNoteKind.Look, by.MemberId, row.NeighbourhoodId, nowUtc, nowUtc,
            "")
        { Look = said, Settles = [.. notes.Select(n => n.ClientId)] };
        notes.ForEach(n => n.Left = "");
        var kept = Received.Of(note, row.YardId, row.Id, nowUtc, nowUtc);
        kept.Left = JsonSerializer.Serialize(WalkedPlanting.Of(row));
        db.ReceivedNotes.Add(kept);
    }

    private static bool Repeats(PlantingDraft line, KnownPlanting? known) => known is not null
        && (line.Origin == known.Origin || line.Certainty == known.Certainty || line.CoverSquareMetres == known.CoverSquareMetres
            || (line.Count is not null && line.Count == known.Count));
}
