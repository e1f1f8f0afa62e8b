using CommonGround.Ecology.Taxa;
using CommonGround.Storage.History;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Places;

/// <summary>One planted area of a yard.</summary>
public sealed class Bed
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long YardId { get; set; }
    public required string Name { get; set; }

    /// <summary>Null while nobody has measured it (a bed first named by a sighting).</summary>
    public double? AreaSquareMetres { get; set; }
    public DateOnly? EstablishedOn { get; set; }

    /// <summary>Light and moisture where they differ from the yard's.</summary>
    public Light? Light { get; set; }
    public Moisture? Moisture { get; set; }

    /// <summary>Renewed with every save of the bed or of a sighting in it.</summary>
    public Guid Version { get; set; }
}

internal sealed class BedMapping : IEntityTypeConfiguration<Bed>
{
    public void Configure(EntityTypeBuilder<Bed> builder)
    {
        builder.HasHistory(RowKinds.Bed);
        builder.ToTable(t => t.HasCheckConstraint("CK_Beds_Area", "\"AreaSquareMetres\" IS NULL OR \"AreaSquareMetres\" > 0"));
        builder.HasRow(b => new { b.NeighbourhoodId, b.Id }, b => b.Id);
        builder.HasOne<Yard>().WithMany().HasForeignKey(b => new { b.NeighbourhoodId, b.YardId }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(b => b.Name).HasMaxLength(100);
        builder.Property(b => b.Version).IsConcurrencyToken().IsWorkedOut();
        builder.HasIndex(b => new { b.NeighbourhoodId, b.YardId, b.Name }).IsUnique();
    }
}
