using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Taxa;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Places;

/// <summary>A picture of a yard. The file lies in the data folder's photos; this row says whose it is and that it is whole.</summary>
public sealed class Photo
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long YardId { get; set; }

    /// <summary>Below the folder of photos; made by the program, never what the file was called.</summary>
    public required string FileName { get; set; }

    /// <summary>Of the stored bytes, as hexadecimal.</summary>
    public required string Sha256 { get; set; }
    public string Caption { get; set; } = "";
    public DateOnly TakenOn { get; set; }

    /// <summary>The bed and the plant it shows; null where it shows the yard.</summary>
    public long? BedId { get; set; }
    public int? TaxonId { get; set; }

    /// <summary>Which patch of the plant; empty where there is only one.</summary>
    public string Patch { get; set; } = "";
    public long? AddedById { get; set; }
    public DateTime AddedAtUtc { get; set; }
}

internal sealed class PhotoMapping : IEntityTypeConfiguration<Photo>
{
    public void Configure(EntityTypeBuilder<Photo> builder)
    {
        builder.HasHistory(RowKinds.Photo);
        builder.ToTable("Photos");
        builder.HasRow(p => new { p.NeighbourhoodId, p.Id }, p => p.Id);
        builder.HasOne<Yard>().WithMany().HasForeignKey(p => new { p.NeighbourhoodId, p.YardId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(p => new { p.NeighbourhoodId, p.AddedById }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(p => p.FileName).HasMaxLength(100);
        builder.Property(p => p.Sha256).HasMaxLength(64);
        builder.Property(p => p.Caption).HasMaxLength(200);
        builder.Property(p => p.Patch).HasMaxLength(Sighting.LongestPatch);
        builder.HasOne<Bed>().WithMany().HasForeignKey(p => new { p.NeighbourhoodId, p.BedId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Taxon>().WithMany().HasForeignKey(p => new { p.NeighbourhoodId, p.TaxonId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(p => new { p.NeighbourhoodId, p.YardId });
    }
}
