using CommonGround.Storage;
using CommonGround.Storage.Saving;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Plants;

/// <summary>A note that something looks wrong, as organisers read it.</summary>
public sealed record NoteLine(long Id, string ScientificName, string CommonName, string Trait, string Text, string Who,
    DateTime WrittenAtUtc, DateTime? ClosedAtUtc, string Answer);

/// <summary>"This looks wrong": members write a note, organisers read and close it.</summary>
public sealed class PlantNotes(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    public const int LongestText = 1000, LongestAnswer = 500, MostOpenOfOne = 50;

    /// <summary>Open notes, oldest first; of one plant where it is named. Members see none but hear that theirs arrived.</summary>
    public async Task<IReadOnlyList<NoteLine>> OpenAsync(CurrentUser currentUser, string? scientificName = null,
        CancellationToken cancel = default)
    {
        if (!currentUser.May(Permission.OverridePlant))
        {
            return [];
        }

        await using var db = await database.CreateDbContextAsync(cancel);
        var rows = await db.PlantNotes.AsNoTracking().Where(n => n.ClosedAtUtc == null)
            .Join(db.Taxa.Where(t => (scientificName == null || t.ScientificName == scientificName)), n => n.TaxonId, t => t.Id,
            (n, t) => new { Note = n, Taxon = t })
            .OrderBy(p => p.Note.WrittenAtUtc).Take(200).ToListAsync(cancel);
        var names = await db.Members.ToDictionaryAsync(m => m.Id, m => m.Name, cancel);
        return [.. rows.Select(p => new NoteLine(p.Note.Id, p.Taxon.ScientificName, p.Taxon.Traits.DisplayName, p.Note.Trait, p.Note.Text,
            p.Note.WrittenById is { } who ? names.GetValueOrDefault(who, "") : "", p.Note.WrittenAtUtc, p.Note.ClosedAtUtc,
                p.Note.Answer))];
    }

    /// <returns>Problems; empty when the note is before the organisers.</returns>
    public async Task<IReadOnlyList<Problem>> WriteAsync(string scientificName, string trait, string text, CurrentUser by,
        CancellationToken cancel = default)
    {
        text = text.Trim();
        if (!by.May(Permission.DoubtPlant))
        {
            return [new("", "Members of the group write notes. Sign in, or ask an organiser.")];
        }

        if (text.Length is 0 or > LongestText || trait.Length > 40)
        {
            return [new("note", text.Length == 0 ? "Say what looks wrong, and what you think is right."
                : $"The note has {text.Length} characters; shorten it to {LongestText}.")];
        }

        return (await database.WriteAsync(
            async db =>
            {
                if (await db.Taxa.SingleOrDefaultAsync(t => t.ScientificName == scientificName, cancel) is not { } taxon)
                {
                    return Intent.Refuse("", "This plant is no longer in the catalogue.");
                }

                if (by.MemberId is { } member && await db.PlantNotes.CountAsync(n => n.WrittenById == member && n.ClosedAtUtc == null,
                    cancel) >= MostOpenOfOne)
                {
                    return Intent.Refuse("", $"You have {MostOpenOfOne} open notes. Wait until an organiser has read some of them.");
                }

                db.PlantNotes.Add(new PlantNote
                {
                    NeighbourhoodId = neighbourhood.Id,
                    Id = RowIds.Next(),
                    TaxonId = taxon.Id,
                    Trait = trait,
                    Text = text,
                    WrittenById = by.MemberId,
                    WrittenAtUtc = clock.UtcNow
                });
                return by.Note($"noted that something about {taxon.Traits.DisplayName} looks wrong");
            }, cancel)).Problems;
    }

    /// <returns>Problems; empty when the note is closed.</returns>
    public async Task<IReadOnlyList<Problem>> CloseAsync(long noteId, string answer, CurrentUser by, CancellationToken cancel = default)
    {
        answer = answer.Trim();
        if (!by.May(Permission.OverridePlant))
        {
            return [new("", "Organisers close notes.")];
        }

        if (answer.Length > LongestAnswer)
        {
            return [new("answer", $"The answer has {answer.Length} characters; shorten it to {LongestAnswer}.")];
        }

        return (await database.WriteAsync(
            async db =>
            {
                if (await db.PlantNotes.SingleOrDefaultAsync(n => n.Id == noteId, cancel) is not { } note)
                {
                    return Intent.Refuse("", "This note is no longer there.");
                }

                if (note.ClosedAtUtc is not null)
                {
                    return note.Answer == answer ? Intent.Nothing
                        : Intent.Refuse("", $"Somebody else closed this note already, with the answer “{note.Answer}”.");
                }

                (note.ClosedAtUtc, note.Answer) = (clock.UtcNow, answer);
                return by.Note("closed a note about a plant");
            }, cancel)).Problems;
    }
}
