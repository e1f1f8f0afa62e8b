using CommonGround.Ecology.Pollinators;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Taxa;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Walks;

/// <summary>Animals seen on a plant on a day, in groups that a walker can tell apart.</summary>
public sealed class WildlifeRecord
{
    public const int LongestName = 100;

    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long YardId { get; set; }
    public long? BedId { get; set; }

    /// <summary>The plant they were on; null where they were seen in the yard.</summary>
    public int? TaxonId { get; set; }
    public WildlifeKind Kind { get; set; }
    public CountClass CountClass { get; set; }

    /// <summary>What the walker called them; may be empty.</summary>
    public string Name { get; set; } = "";
    public DateOnly ObservedOn { get; set; }
    public string Observer { get; set; } = "";
    public long? RecordedById { get; set; }
    public DateTime RecordedAtUtc { get; set; }
}

internal sealed class WildlifeMapping : IEntityTypeConfiguration<WildlifeRecord>
{
    public void Configure(EntityTypeBuilder<WildlifeRecord> builder)
    {
        builder.HasHistory(RowKinds.Wildlife);
        builder.ToTable("Wildlife");
        builder.HasRow(w => new { w.NeighbourhoodId, w.Id }, w => w.Id);
        builder.HasOne<Yard>().WithMany().HasForeignKey(w => new { w.NeighbourhoodId, w.YardId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Bed>().WithMany().HasForeignKey(w => new { w.NeighbourhoodId, w.BedId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Taxon>().WithMany().HasForeignKey(w => new { w.NeighbourhoodId, w.TaxonId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(w => new { w.NeighbourhoodId, w.RecordedById }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(w => w.Name).HasMaxLength(WildlifeRecord.LongestName);
        builder.Property(w => w.Observer).HasMaxLength(200);
        builder.HasIndex(w => new { w.NeighbourhoodId, w.YardId, w.ObservedOn });
    }
}
