using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Taxa;

/// <summary>A value that the group has put in the catalogue's place. It stands in a row of its own, so a newer catalogue never touches
/// it.</summary>
public sealed class PlantOverride
{
    public int NeighbourhoodId { get; set; }
    public int TaxonId { get; set; }

    /// <summary>The catalogue's column.</summary>
    public string Trait { get; set; } = "";

    /// <summary>As a catalogue file would hold it.</summary>
    public string Value { get; set; } = "";
    public string Reason { get; set; } = "";
    public long? SetById { get; set; }
    public DateTime SetAtUtc { get; set; }

    /// <summary>Renewed by every save.</summary>
    public Guid Version { get; set; }
}

internal sealed class PlantOverrideMapping : IEntityTypeConfiguration<PlantOverride>
{
    public void Configure(EntityTypeBuilder<PlantOverride> builder)
    {
        builder.HasHistory(RowKinds.PlantOverride);
        builder.HasKey(o => new { o.NeighbourhoodId, o.TaxonId, o.Trait });
        builder.Property(o => o.TaxonId).ValueGeneratedNever();
        builder.Property(o => o.Trait).HasMaxLength(40);
        builder.Property(o => o.Value).HasMaxLength(200);
        builder.Property(o => o.Reason).HasMaxLength(500);
        builder.Property(o => o.Version).IsConcurrencyToken().IsWorkedOut();
        builder.HasOne<Taxon>().WithMany().HasForeignKey(o => new { o.NeighbourhoodId, o.TaxonId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(o => new { o.NeighbourhoodId, o.SetById }).OnDelete(DeleteBehavior.Restrict);
    }
}
