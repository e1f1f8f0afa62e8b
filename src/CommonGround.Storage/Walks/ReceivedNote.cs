using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Walks;

/// <summary>
/// That a note made on a phone has been stored, with what it said. Without history of its own: it stays when what it brought is undone, so
/// that a phone which did not hear the answer and sends again stores nothing twice. Of one planting and day these are the statements that
/// are joined.
/// </summary>
public sealed class ReceivedNote
{
    public int NeighbourhoodId { get; set; }

    /// <summary>Made on the phone.</summary>
    public Guid ClientId { get; set; }

    /// <summary>The yard, whether it is still there or not.</summary>
    public long YardId { get; set; }

    /// <summary>The row it went into: a sighting, an infestation, wildlife, a photo or a walk; null where it only took others
    /// back.</summary>
    public long? RowId { get; set; }
    public long? MemberId { get; set; }

    /// <summary>When it was said, by the site's clock.</summary>
    public DateTime SaidAtUtc { get; set; }
    public DateTime ReceivedAtUtc { get; set; }

    /// <summary>What it said, as JSON; emptied once nobody can bring anything for the same day any more, or the yard is gone for
    /// good.</summary>
    public string Said { get; set; } = "";

    /// <summary>On the newest note of a sighting: the sighting as it was worked out then, as JSON. What differs from it was changed by
    /// another way since.</summary>
    public string Left { get; set; } = "";
}

internal sealed class ReceivedNoteMapping : IEntityTypeConfiguration<ReceivedNote>
{
    public void Configure(EntityTypeBuilder<ReceivedNote> builder)
    {
        builder.ToTable("ReceivedNotes");
        builder.HasKey(r => new { r.NeighbourhoodId, r.ClientId });
        builder.Property(r => r.ClientId).ValueGeneratedNever();
        builder.HasOne<Neighbourhood>().WithMany().HasForeignKey(r => r.NeighbourhoodId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(r => new { r.NeighbourhoodId, r.RowId });
    }
}
