namespace CommonGround.Interchange.Walks;

/// <summary>What a phone sends at once.</summary>
/// <param name="SentAtUtc">The phone's clock when it sent: from it the site tells how far that clock is off.</param>
public sealed record WalkBatch(DateTime SentAtUtc, IReadOnlyList<WalkNote> Notes);

/// <summary>What became of a note. Refused: it stays on the phone, with the reason.</summary>
public enum ReceiptState { Stored, StoredBefore, Refused }

/// <summary>The site's word on one note.</summary>
/// <param name="Message">Why it was refused, or what the walker should know of how it was stored; else empty.</param>
public sealed record WalkReceipt(Guid Id, ReceiptState State, string Message);

/// <summary>The site's answer to a batch.</summary>
/// <param name="Receipts">One for each note.</param>
/// <param name="Disputes">Plantings of which two people said different things on one day.</param>
public sealed record WalkAnswer(IReadOnlyList<WalkReceipt> Receipts, IReadOnlyList<WalkDispute> Disputes);

/// <summary>Two or more people, one planting, one day, and what they say differs.</summary>
public sealed record WalkDispute(string Yard, long BedId, string Bed, string Taxon, string CommonName, string Patch, DateOnly Day,
    long SightingId, IReadOnlyList<DisputeSide> Sides)
{
    /// <summary>The note by which somebody lets the record show what one of them said.</summary>
    /// <param name="memberId">Who chooses.</param>
    /// <param name="afterUtc">When the site was asked last, by its clock.</param>
    public WalkNote Choice(DisputeSide side, long? memberId, int neighbourhoodId, DateTime saidAtUtc, DateTime afterUtc)
    {
        ArgumentNullException.ThrowIfNull(side);
        return new(Guid.NewGuid(), Guid.Empty, WalkNoteKind.Look, memberId, neighbourhoodId, saidAtUtc, afterUtc, Yard)
        {
            BedId = BedId,
            Taxon = Taxon,
            Patch = Patch,
            LastSightingId = SightingId,
            Look = side.Said,
            Settles = [.. Sides.SelectMany(s => s.Ids)],
            Day = Day,
        };
    }
}

/// <summary>What one of them said.</summary>
/// <param name="Ids">Their notes.</param>
/// <param name="Mine">Said by whoever asks.</param>
public sealed record DisputeSide(string Who, bool Mine, IReadOnlyList<Guid> Ids, LookSaid Said);
