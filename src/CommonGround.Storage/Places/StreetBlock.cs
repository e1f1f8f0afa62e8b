using CommonGround.Storage.History;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Places;

/// <summary>A street between two crossings, both sides.</summary>
public sealed class StreetBlock
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long StreetId { get; set; }

    /// <summary>Unique in its street, usually the two crossings.</summary>
    public required string Name { get; set; }

    /// <summary>GeoJSON geometry (LineString or Polygon, RFC 7946), or null until one is brought.</summary>
    public string? Geometry { get; set; }

    /// <summary>Half the length of the line or the centroid of the polygon, degrees; null without a geometry.</summary>
    public double? MiddleLatitude { get; set; }
    public double? MiddleLongitude { get; set; }
}

internal sealed class StreetBlockMapping : IEntityTypeConfiguration<StreetBlock>
{
    public void Configure(EntityTypeBuilder<StreetBlock> builder)
    {
        builder.HasHistory(RowKinds.Block);
        builder.ToTable("Blocks");
        builder.HasRow(b => new { b.NeighbourhoodId, b.Id }, b => b.Id);
        builder.HasOne<Street>().WithMany().HasForeignKey(b => new { b.NeighbourhoodId, b.StreetId }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(b => b.Name).HasMaxLength(200);
        builder.HasIndex(b => new { b.NeighbourhoodId, b.StreetId, b.Name }).IsUnique();
    }
}
