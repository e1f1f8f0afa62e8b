using CommonGround.Storage.History;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Places;

public sealed class Street
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public required string Name { get; set; }
}

internal sealed class StreetMapping : IEntityTypeConfiguration<Street>
{
    public void Configure(EntityTypeBuilder<Street> builder)
    {
        builder.HasHistory(RowKinds.Street);
        builder.HasRow(s => new { s.NeighbourhoodId, s.Id }, s => s.Id);
        builder.HasOne<Neighbourhood>().WithMany().HasForeignKey(s => s.NeighbourhoodId);
        builder.Property(s => s.Name).HasMaxLength(200);
        builder.HasIndex(s => new { s.NeighbourhoodId, s.Name }).IsUnique();
    }
}
