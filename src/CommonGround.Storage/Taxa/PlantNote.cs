using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Taxa;

/// <summary>Somebody's note that something on a plant's page looks wrong; organisers read and close it.</summary>
public sealed class PlantNote
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public int TaxonId { get; set; }

    /// <summary>The catalogue's column it is about; empty for the plant as a whole.</summary>
    public string Trait { get; set; } = "";
    public string Text { get; set; } = "";
    public long? WrittenById { get; set; }
    public DateTime WrittenAtUtc { get; set; }
    public DateTime? ClosedAtUtc { get; set; }

    /// <summary>What came of it.</summary>
    public string Answer { get; set; } = "";

    /// <summary>Renewed by every save.</summary>
    public Guid Version { get; set; }
}

internal sealed class PlantNoteMapping : IEntityTypeConfiguration<PlantNote>
{
    public void Configure(EntityTypeBuilder<PlantNote> builder)
    {
        builder.HasHistory(RowKinds.PlantNote);
        builder.HasRow(n => new { n.NeighbourhoodId, n.Id }, n => n.Id);
        builder.Property(n => n.Trait).HasMaxLength(40);
        builder.Property(n => n.Text).HasMaxLength(1000);
        builder.Property(n => n.Answer).HasMaxLength(500);
        builder.Property(n => n.Version).IsConcurrencyToken().IsWorkedOut();
        builder.HasOne<Taxon>().WithMany().HasForeignKey(n => new { n.NeighbourhoodId, n.TaxonId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(n => new { n.NeighbourhoodId, n.WrittenById }).OnDelete(DeleteBehavior.Restrict);
        // Organisers ask for the open ones.
        builder.HasIndex(n => new { n.NeighbourhoodId, n.ClosedAtUtc });
    }
}
