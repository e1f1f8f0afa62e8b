using CommonGround.Interchange.Photos;
using CommonGround.Interchange.Walks;
using CommonGround.Storage;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Walks;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Photos;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Walks;

/// <summary>Stores a photo that a walker took of a plant, by the way of all photos: decoded, turned upright and drawn anew without its
/// place.</summary>
public sealed class ReceivePhoto(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, YardPhotos photos, GroupClock clock)
{
    public async Task<WalkReceipt> SaveAsync(WalkNote note, DateTime sentUtc, IFormFile file, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(note);
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(by);
        if (note.MemberId != by.MemberId || note.NeighbourhoodId != neighbourhood.Id || note.Photo is null)
        {
            return Refused(note, note.MemberId != by.MemberId ? ReceiveWalk.SomebodyElses : note.NeighbourhoodId != neighbourhood.Id
                ? ReceiveWalk.OtherPlace : "This is no photo.");
        }

        await using var db = await database.CreateDbContextAsync(cancel);
        if (await db.ReceivedNotes.AnyAsync(r => r.ClientId == note.Id, cancel))
        {
            return new(note.Id, ReceiptState.StoredBefore, "");
        }

        var yard = await db.Yards.Where(y => y.Code == note.Yard).Select(y => (long?)y.Id).SingleOrDefaultAsync(cancel);
        if (file.Length > CleanPhoto.LargestFile)
        {
            return Refused(note,
                $"The photo has {file.Length / 1048576.0:0.0} MB; one may have up to {CleanPhoto.LargestFile / 1048576} MB.");
        }

        using var bytes = new MemoryStream();
        await file.CopyToAsync(bytes, cancel);
        var when = WalkDay.Of(note, sentUtc, clock);
        var draft = new PhotoDraft
        {
            Caption = note.Photo.Caption,
            TakenOn = note.Photo.TakenOn > clock.Today ? when.Day
            : note.Photo.TakenOn
        };
        var plant = await PlantAsync(db, note, yard, cancel);
        var problems = await photos.AddAsync(yard ?? 0, draft, bytes.ToArray(), plant, by, cancel);
        // The same photo came twice at once: one of them holds.
        return problems.Count == 0 ? new(note.Id, ReceiptState.Stored, when.Message)
            : await db.ReceivedNotes.AnyAsync(r => r.ClientId == note.Id, cancel) ? new(note.Id, ReceiptState.StoredBefore, "")
            : Refused(note, problems[0].Message);

        async Task<PhotoOf> PlantAsync(CommonGroundDb there, WalkNote of, long? yardId, CancellationToken stop)
        {
            var last = await there.Sightings.Where(s => s.Id == of.LastSightingId && s.YardId == yardId)
                .Select(s => new { s.BedId, s.TaxonId, s.Patch }).SingleOrDefaultAsync(stop);
            var bed = last?.BedId ?? await there.Beds.Where(b => b.Id == of.BedId && b.YardId == yardId).Select(b => (long?)b.Id)
                .SingleOrDefaultAsync(stop);
            var taxon = last?.TaxonId ?? await there.Taxa.Where(t => t.ScientificName == of.Taxon).Select(t => (int?)t.Id)
                .FirstOrDefaultAsync(stop);
            var patch = last?.Patch ?? of.Patch.Trim();
            return new(bed, taxon, patch.Length > Sighting.LongestPatch ? "" : patch,
                photo => Received.Of(of, photo.YardId, photo.Id, when.AtUtc, clock.UtcNow));
        }
    }

    private static WalkReceipt Refused(WalkNote note, string why) => new(note.Id, ReceiptState.Refused, why);
}
