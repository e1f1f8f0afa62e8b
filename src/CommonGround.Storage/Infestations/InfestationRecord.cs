using CommonGround.Ecology.Taxa;
using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using CommonGround.Storage.Taxa;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Infestations;

/// <summary>A dated record of an unwanted taxon in a yard or, where the yard is not known, on a block. The latest of a place and taxon
/// counts; area 0 closes it.</summary>
public sealed class InfestationRecord
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long BlockId { get; set; }
    public long? YardId { get; set; }
    public int TaxonId { get; set; }
    public DateOnly ObservedOn { get; set; }
    public double AreaSquareMetres { get; set; }

    /// <summary>Share of the area covered, 0–100 %.</summary>
    public double CoverPercent { get; set; }

    /// <summary>BBCH principal growth stage, 0–9.</summary>
    public int? GrowthStage { get; set; }
    public Certainty Certainty { get; set; }
    public string Remarks { get; set; } = "";
    public DateTime RecordedAtUtc { get; set; }
}

internal sealed class InfestationMapping : IEntityTypeConfiguration<InfestationRecord>
{
    public void Configure(EntityTypeBuilder<InfestationRecord> builder)
    {
        builder.HasHistory(RowKinds.Infestation);
        builder.ToTable("Infestations", t =>
        {
            t.HasCheckConstraint("CK_Infestations_Area", "\"AreaSquareMetres\" >= 0");
            t.HasCheckConstraint("CK_Infestations_Cover", "\"CoverPercent\" BETWEEN 0 AND 100");
            t.HasCheckConstraint("CK_Infestations_Stage", "\"GrowthStage\" IS NULL OR \"GrowthStage\" BETWEEN 0 AND 9");
        });
        builder.Property(i => i.Certainty).HasDefaultValue(Certainty.Certain);
        builder.HasRow(i => new { i.NeighbourhoodId, i.Id }, i => i.Id);
        builder.HasOne<StreetBlock>().WithMany().HasForeignKey(i => new { i.NeighbourhoodId, i.BlockId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Yard>().WithMany().HasForeignKey(i => new { i.NeighbourhoodId, i.YardId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Taxon>().WithMany().HasForeignKey(i => new { i.NeighbourhoodId, i.TaxonId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(i => new { i.NeighbourhoodId, i.BlockId, i.YardId, i.TaxonId, i.ObservedOn });
    }
}
