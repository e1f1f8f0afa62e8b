using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Storage;
using CommonGround.Storage.Infestations;
using CommonGround.Storage.Places;
using CommonGround.Storage.Walks;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Walks;

/// <summary>Stores what a walker saw beside the plantings: wildlife, unwanted plants, and the walk itself. Each note is a row of its
/// own.</summary>
internal sealed class WalkSideNotes(WalkBook book)
{
    private const int LongestRemark = 4000, LongestWalkMinutes = 24 * 60;

    /// <summary>What stands against the note, or null when it is stored.</summary>
    public async Task<string?> StoreAsync(Yard yard, WalkNote note, ReceivedNote receipt, WalkDay when, List<ReceivedNote> received,
        CancellationToken cancel)
    {
        var refusal = note switch
        {
            { Wildlife: { } wildlife } => Wildlife(yard, note, wildlife, receipt, when),
            { Unwanted: { } unwanted } => await UnwantedAsync(yard, note, unwanted, receipt, when, cancel),
            { End: { } end } => End(yard, end, receipt, when),
            { Over.Count: > 0 } => null,
            _ => "This note says nothing that can be stored. Let it go from this phone.",
        };
        if (refusal is not null)
        {
            return refusal;
        }

        await RemoveAsync(note, received, cancel);
        book.Db.ReceivedNotes.Add(receipt);
        received.Add(receipt);
        return null;
    }

    private string? Wildlife(Yard yard, WalkNote note, WildlifeSaid said, ReceivedNote receipt, WalkDay when)
    {
        var taxonId = book.TaxonId(note.Taxon);
        if (note.Taxon.Length > 0 && taxonId is null)
        {
            return $"The record has no plant called “{note.Taxon}”. This stays on the phone until you let it go.";
        }

        if (said.Name.Length > WildlifeRecord.LongestName)
        {
            return $"A name of an animal has at most {WildlifeRecord.LongestName} letters.";
        }

        var row = new WildlifeRecord
        {
            NeighbourhoodId = book.NeighbourhoodId,
            Id = RowIds.Next(),
            YardId = yard.Id,
            BedId = book.BedOf(note.BedId)?.Id,
            TaxonId = taxonId,
            Kind = said.Kind,
            CountClass = said.Count,
            Name = said.Name.Trim(),
            ObservedOn = when.Day,
            Observer = book.By.Name,
            RecordedById = book.By.MemberId,
            RecordedAtUtc = book.Clock.UtcNow,
        };
        book.Db.Wildlife.Add(row);
        receipt.RowId = row.Id;
        return null;
    }

    private async Task<string?> UnwantedAsync(Yard yard, WalkNote note, UnwantedSaid said, ReceivedNote receipt, WalkDay when,
        CancellationToken cancel)
    {
        if (book.TaxonId(note.Taxon) is not { } taxonId)
        {
            return $"The record has no plant called “{note.Taxon}”. This stays on the phone until you let it go.";
        }

        if (!(said.AreaSquareMetres >= 0 && said.AreaSquareMetres <= yard.AreaSquareMetres))
        {
            return $"{said.AreaSquareMetres:0.#} m² is more than the yard, which is {yard.AreaSquareMetres:0.#} m². Give the ground it "
                + $"stands on in this yard.";
        }

        if (!(said.CoverPercent is >= 0 and <= 100) || said.GrowthStage is < 0 or > 9 || said.Remark.Length > LongestRemark)
        {
            return "Cover is 0 to 100 %, a growth stage 0 to 9, a remark at most 4,000 letters.";
        }

        // Of one yard, plant and day what was said last holds; each note stays in what was received.
        var rows = await book.Db.Infestations.Where(i => i.YardId == yard.Id && i.TaxonId == taxonId && i.ObservedOn == when.Day)
            .ToListAsync(cancel);
        rows.AddRange(book.Db.Infestations.Local.Where(i => i.YardId == yard.Id && i.TaxonId == taxonId && i.ObservedOn == when.Day
            && !rows.Contains(i)));
        var ids = rows.ConvertAll(r => (long?)r.Id);
        var before = (await book.Db.ReceivedNotes.Where(r => ids.Contains(r.RowId)).ToListAsync(cancel))
            .Concat(book.Db.ReceivedNotes.Local.Where(r => ids.Contains(r.RowId))).Distinct().ToList();
        var walked = rows.Find(r => before.Exists(b => b.RowId == r.Id));
        var row = walked ?? new InfestationRecord
        {
            NeighbourhoodId = book.NeighbourhoodId,
            Id = RowIds.Next(),
            BlockId = yard.BlockId,
            YardId = yard.Id,
            TaxonId = taxonId,
            ObservedOn = when.Day
        };
        receipt.RowId = row.Id;
        if (walked is not null && before.Exists(b => b.RowId == row.Id && (b.SaidAtUtc, b.ClientId)
            .CompareTo((receipt.SaidAtUtc, receipt.ClientId)) > 0))
        {
            return null;
        }

        var doubt = said.Certainty == Certainty.Certain ? "" : $"{said.Certainty.ToString().ToLowerInvariant()} name";
        (row.AreaSquareMetres, row.CoverPercent, row.GrowthStage) = (said.AreaSquareMetres, said.CoverPercent, said.GrowthStage);
        row.Remarks = string.Join("; ", new[] { doubt, said.Remark.Trim() }.Where(r => r.Length > 0));
        (row.Certainty, row.RecordedAtUtc) = (said.Certainty, book.Clock.UtcNow);
        if (walked is null)
        {
            book.Db.Infestations.Add(row);
        }

        return null;
    }

    private string? End(Yard yard, EndSaid said, ReceivedNote receipt, WalkDay when)
    {
        if (said is not { Minutes: >= 1 and <= LongestWalkMinutes, Looked: >= 0 })
        {
            return "A walk takes from one minute to a day.";
        }

        var row = new Storage.Walks.Walk
        {
            NeighbourhoodId = book.NeighbourhoodId,
            Id = RowIds.Next(),
            YardId = yard.Id,
            WalkedOn = when.Day,
            Minutes = said.Minutes,
            Looked = said.Looked,
            Observer = book.By.Name,
            RecordedById = book.By.MemberId,
            RecordedAtUtc = book.Clock.UtcNow,
        };
        book.Db.Walks.Add(row);
        receipt.RowId = row.Id;
        return null;
    }

    /// <summary>Takes back what earlier notes brought.</summary>
    private async Task RemoveAsync(WalkNote note, List<ReceivedNote> received, CancellationToken cancel)
    {
        foreach (var rowId in received.Where(r => note.Over.Contains(r.ClientId)).Select(r => r.RowId).OfType<long>())
        {
            object? row = await book.Db.Wildlife.SingleOrDefaultAsync(w => w.Id == rowId, cancel)
                ?? (object?)await book.Db.Infestations.SingleOrDefaultAsync(i => i.Id == rowId, cancel)
                ?? await book.Db.Walks.SingleOrDefaultAsync(w => w.Id == rowId, cancel);
            if (row is not null)
            {
                book.Db.Remove(row);
            }
        }
    }
}
