using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Plans;

/// <summary>A conversion plan somebody kept for a yard: what was asked, and which mix was chosen. The figures are worked out anew from
/// these.</summary>
public sealed class SavedPlan
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long YardId { get; set; }

    /// <summary>1, 2, 3… within the yard.</summary>
    public int Number { get; set; }

    /// <summary>The request as JSON.</summary>
    public required string Request { get; set; }

    /// <summary>Share of the ground by scientific name, as JSON: the mix that was shown when it was kept.</summary>
    public required string Shares { get; set; }

    public DateOnly MadeOn { get; set; }
    public long? MadeById { get; set; }
    public DateTime MadeAtUtc { get; set; }
}

internal sealed class SavedPlanMapping : IEntityTypeConfiguration<SavedPlan>
{
    public void Configure(EntityTypeBuilder<SavedPlan> builder)
    {
        builder.HasHistory(RowKinds.Plan);
        builder.ToTable("Plans", t => t.HasCheckConstraint("CK_Plans_Number", "\"Number\" >= 1"));
        builder.HasRow(p => new { p.NeighbourhoodId, p.Id }, p => p.Id);
        builder.HasOne<Yard>().WithMany().HasForeignKey(p => new { p.NeighbourhoodId, p.YardId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(p => new { p.NeighbourhoodId, p.MadeById }).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(p => new { p.NeighbourhoodId, p.YardId, p.Number }).IsUnique();
    }
}
