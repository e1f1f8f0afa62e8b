using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Walks;

/// <summary>One visit to a yard that yields sightings (Darwin Core Event), with its duration as effort (samplingEffort).</summary>
public sealed class Walk
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long YardId { get; set; }
    public DateOnly WalkedOn { get; set; }

    /// <summary>From the first tap to the end, minutes.</summary>
    public int Minutes { get; set; }

    /// <summary>Plantings looked at.</summary>
    public int Looked { get; set; }
    public string Observer { get; set; } = "";
    public long? RecordedById { get; set; }
    public DateTime RecordedAtUtc { get; set; }
}

internal sealed class WalkMapping : IEntityTypeConfiguration<Walk>
{
    public void Configure(EntityTypeBuilder<Walk> builder)
    {
        builder.HasHistory(RowKinds.Walk);
        builder.ToTable("Walks", t => t.HasCheckConstraint("CK_Walks_Effort", "\"Minutes\" >= 1 AND \"Looked\" >= 0"));
        builder.HasRow(w => new { w.NeighbourhoodId, w.Id }, w => w.Id);
        builder.HasOne<Yard>().WithMany().HasForeignKey(w => new { w.NeighbourhoodId, w.YardId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(w => new { w.NeighbourhoodId, w.RecordedById }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(w => w.Observer).HasMaxLength(200);
        builder.HasIndex(w => new { w.NeighbourhoodId, w.YardId, w.WalkedOn });
    }
}
