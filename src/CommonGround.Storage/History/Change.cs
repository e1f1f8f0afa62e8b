using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.History;

/// <summary>One write: who, when, what and from where. Never altered, never deleted; the database itself refuses.</summary>
public sealed class Change
{
    public int NeighbourhoodId { get; set; }

    /// <summary>Grows with time.</summary>
    public long Id { get; set; }
    public DateTime AtUtc { get; set; }

    /// <summary>What was done, such as "recorded plantings in LA-07".</summary>
    public required string What { get; set; }

    /// <summary>Null: the program itself, or whoever has the machine.</summary>
    public long? MemberId { get; set; }

    /// <summary>As what they did it; null for the program.</summary>
    public Role? By { get; set; }

    /// <summary>The network it came from, shortened, or "the machine".</summary>
    public string From { get; set; } = "";

    /// <summary>The change this one took back.</summary>
    public long? UndoOfId { get; set; }

    /// <summary>From then on what these rows held is erased for good, and the change can no longer be undone.</summary>
    public DateTime? EraseAtUtc { get; set; }
}

internal sealed class ChangeMapping : IEntityTypeConfiguration<Change>
{
    public void Configure(EntityTypeBuilder<Change> builder)
    {
        builder.ToTable("Changes");
        builder.HasRow(c => new { c.NeighbourhoodId, c.Id }, c => c.Id);
        builder.HasOne<Neighbourhood>().WithMany().HasForeignKey(c => c.NeighbourhoodId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(c => c.What).HasMaxLength(300);
        builder.Property(c => c.From).HasMaxLength(64);
        builder.HasIndex(c => new { c.NeighbourhoodId, c.UndoOfId });
        builder.HasIndex(c => c.EraseAtUtc);
    }
}
