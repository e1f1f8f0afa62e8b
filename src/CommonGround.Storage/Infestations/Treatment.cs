using CommonGround.Ecology.Invasives;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Taxa;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Infestations;

/// <summary>Something that was done against an unwanted taxon in a yard or, where the yard is not known, on a block.</summary>
public sealed class Treatment
{
    public const int LongestWho = 200, LongestQualification = 300, LongestRemarks = 4000;

    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long BlockId { get; set; }
    public long? YardId { get; set; }
    public int TaxonId { get; set; }
    public DateOnly TreatedOn { get; set; }
    public ControlMethod Method { get; set; }

    /// <summary>Ground that was treated; null where nobody said.</summary>
    public double? AreaSquareMetres { get; set; }

    /// <summary>Of all who worked together; null where nobody said.</summary>
    public double? PersonHours { get; set; }
    public string Who { get; set; } = "";

    /// <summary>Whoever wrote a herbicide down said that the label was read and followed.</summary>
    public bool LabelFollowed { get; set; }

    /// <summary>The applicator's licence or training, in their own words.</summary>
    public string Qualification { get; set; } = "";
    public string Remarks { get; set; } = "";
    public long? RecordedById { get; set; }
    public DateTime RecordedAtUtc { get; set; }
}

/// <summary>What somebody decided about a case.</summary>
public enum CaseStepKind { Moved, Closed, Opened }

/// <summary>A case is one unwanted taxon at one place: a step puts its next date off, closes it or opens it again.</summary>
public sealed class CaseStep
{
    public const int LongestReason = 500;

    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long BlockId { get; set; }
    public long? YardId { get; set; }
    public int TaxonId { get; set; }
    public CaseStepKind Kind { get; set; }
    public DateOnly SaidOn { get; set; }

    /// <summary>The day it is put off to.</summary>
    public DateOnly? Until { get; set; }
    public string Reason { get; set; } = "";
    public string Who { get; set; } = "";
    public long? RecordedById { get; set; }
    public DateTime RecordedAtUtc { get; set; }
}

internal sealed class TreatmentMapping : IEntityTypeConfiguration<Treatment>
{
    public void Configure(EntityTypeBuilder<Treatment> builder)
    {
        builder.HasHistory(RowKinds.Treatment);
        builder.ToTable("Treatments", t =>
        {
            t.HasCheckConstraint("CK_Treatments_Area", "\"AreaSquareMetres\" IS NULL OR \"AreaSquareMetres\" >= 0");
            t.HasCheckConstraint("CK_Treatments_Hours", "\"PersonHours\" IS NULL OR \"PersonHours\" >= 0");
        });
        builder.HasRow(t => new { t.NeighbourhoodId, t.Id }, t => t.Id);
        builder.HasOne<StreetBlock>().WithMany().HasForeignKey(t => new { t.NeighbourhoodId, t.BlockId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Yard>().WithMany().HasForeignKey(t => new { t.NeighbourhoodId, t.YardId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Taxon>().WithMany().HasForeignKey(t => new { t.NeighbourhoodId, t.TaxonId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(t => new { t.NeighbourhoodId, t.RecordedById }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(t => t.Who).HasMaxLength(Treatment.LongestWho);
        builder.Property(t => t.Qualification).HasMaxLength(Treatment.LongestQualification);
        builder.Property(t => t.Remarks).HasMaxLength(Treatment.LongestRemarks);
        builder.HasIndex(t => new { t.NeighbourhoodId, t.BlockId, t.YardId, t.TaxonId });
    }
}

internal sealed class CaseStepMapping : IEntityTypeConfiguration<CaseStep>
{
    public void Configure(EntityTypeBuilder<CaseStep> builder)
    {
        builder.HasHistory(RowKinds.CaseStep);
        builder.ToTable("CaseSteps");
        builder.HasRow(s => new { s.NeighbourhoodId, s.Id }, s => s.Id);
        builder.HasOne<StreetBlock>().WithMany().HasForeignKey(s => new { s.NeighbourhoodId, s.BlockId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Yard>().WithMany().HasForeignKey(s => new { s.NeighbourhoodId, s.YardId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Taxon>().WithMany().HasForeignKey(s => new { s.NeighbourhoodId, s.TaxonId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(s => new { s.NeighbourhoodId, s.RecordedById }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(s => s.Reason).HasMaxLength(CaseStep.LongestReason);
        builder.Property(s => s.Who).HasMaxLength(Treatment.LongestWho);
        builder.HasIndex(s => new { s.NeighbourhoodId, s.BlockId, s.YardId, s.TaxonId });
    }
}
