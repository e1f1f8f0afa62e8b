using CommonGround.Ecology.Taxa;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Taxa;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Plantings;

/// <summary>A dated record of one taxon in one bed, or in one patch of it. A planting is not stored: it is the latest sighting of a bed,
/// taxon and patch on or before a day.</summary>
public sealed class Sighting
{
    public const int LongestPatch = 60, LongestPlace = 60;

    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long YardId { get; set; }
    public long BedId { get; set; }
    public int TaxonId { get; set; }

    /// <summary>Which of several patches of the taxon in the bed, such as "by the gate"; empty where there is only one.</summary>
    public string Patch { get; set; } = "";
    public DateOnly ObservedOn { get; set; }

    /// <summary>What the look found. In records of earlier versions a cover of 0 alone says that the planting has ended.</summary>
    public Finding Finding { get; set; }

    /// <summary>Ground covered, m²; 0 where it was not found, has died or has ended.</summary>
    public double CoverSquareMetres { get; set; }
    public int? Count { get; set; }

    /// <summary>The cover was worked out from the count and the catalogue's spacing.</summary>
    public bool CoverDerived { get; set; }
    public Origin Origin { get; set; }
    public Certainty Certainty { get; set; }

    /// <summary>"cf." or "aff." where the observer wrote it (Darwin Core identificationQualifier); else empty.</summary>
    public string Qualifier { get; set; } = "";

    /// <summary>Who checked the name, if anybody did (Darwin Core identifiedBy, identificationVerificationStatus); else empty.</summary>
    public string VerifiedBy { get; set; } = "";

    /// <summary>BBCH principal growth stage, 0–9.</summary>
    public int? GrowthStage { get; set; }

    /// <summary>Where in the bed, in words; empty where nobody said.</summary>
    public string PlaceInBed { get; set; } = "";

    /// <summary>Seed collected from it that day, g; null where none was.</summary>
    public double? SeedCollectedGrams { get; set; }
    public string Observer { get; set; } = "";
    public long? RecordedById { get; set; }
    public string Remarks { get; set; } = "";
    public DateTime RecordedAtUtc { get; set; }
}

internal sealed class SightingMapping : IEntityTypeConfiguration<Sighting>
{
    public void Configure(EntityTypeBuilder<Sighting> builder)
    {
        builder.HasHistory(RowKinds.Sighting);
        builder.ToTable(t =>
        {
            t.HasCheckConstraint("CK_Sightings_Cover", "\"CoverSquareMetres\" >= 0");
            t.HasCheckConstraint("CK_Sightings_Count", "\"Count\" IS NULL OR \"Count\" >= 0");
            t.HasCheckConstraint("CK_Sightings_Finding", "\"Finding\" = 'Growing' OR \"CoverSquareMetres\" = 0");
            t.HasCheckConstraint("CK_Sightings_Seed", "\"SeedCollectedGrams\" IS NULL OR \"SeedCollectedGrams\" > 0");
            t.HasCheckConstraint("CK_Sightings_Stage", "\"GrowthStage\" IS NULL OR \"GrowthStage\" BETWEEN 0 AND 9");
        });
        builder.HasRow(s => new { s.NeighbourhoodId, s.Id }, s => s.Id);
        builder.HasOne<Yard>().WithMany().HasForeignKey(s => new { s.NeighbourhoodId, s.YardId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Bed>().WithMany().HasForeignKey(s => new { s.NeighbourhoodId, s.BedId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Taxon>().WithMany().HasForeignKey(s => new { s.NeighbourhoodId, s.TaxonId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(s => new { s.NeighbourhoodId, s.RecordedById }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(s => s.Qualifier).HasMaxLength(8);
        builder.Property(s => s.Observer).HasMaxLength(200);
        builder.Property(s => s.Patch).HasMaxLength(Sighting.LongestPatch);
        builder.Property(s => s.VerifiedBy).HasMaxLength(200);
        builder.Property(s => s.PlaceInBed).HasMaxLength(Sighting.LongestPlace);
        // One record a day of each patch.
        builder.HasIndex(s => new { s.NeighbourhoodId, s.YardId, s.BedId, s.TaxonId, s.Patch, s.ObservedOn }).IsUnique();
    }
}
