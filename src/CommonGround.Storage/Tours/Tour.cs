using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Tours;

/// <summary>A walk of guests through the yards of one street, or one yard, on one day. Which yards it stops at is not kept: those whose
/// households let themselves be visited when it is read.</summary>
public sealed class Tour
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }

    /// <summary>In its page's address: whoever has it may open the page until the day after.</summary>
    public required string Key { get; set; }
    public DateOnly On { get; set; }

    /// <summary>The street, or the one yard; exactly one of them. A place that is gone leaves the tour without stops.</summary>
    public long? StreetId { get; set; }
    public long? YardId { get; set; }

    /// <summary>Where and when guests meet, and what the steward says first.</summary>
    public string Meet { get; set; } = "";
}

internal sealed class TourMapping : IEntityTypeConfiguration<Tour>
{
    public void Configure(EntityTypeBuilder<Tour> builder)
    {
        builder.HasHistory(RowKinds.Tour);
        builder.ToTable("Tours", t => t.HasCheckConstraint("CK_Tours_Place", "(\"StreetId\" IS NULL) <> (\"YardId\" IS NULL)"));
        builder.HasRow(t => new { t.NeighbourhoodId, t.Id }, t => t.Id);
        // Neither street nor yard: a place that goes must not wait for a tour, and a tour without its place shows nothing.
        builder.HasOne<Neighbourhood>().WithMany().HasForeignKey(t => t.NeighbourhoodId);
        builder.Property(t => t.Key).HasMaxLength(20);
        builder.Property(t => t.Meet).HasMaxLength(300);
        builder.HasIndex(t => new { t.NeighbourhoodId, t.Key }).IsUnique();
    }
}
