using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Places;

/// <summary>A set of yards that the public has seen a block counted from. Kept, because a later set must not differ from it by one or two
/// yards.</summary>
public sealed class PublishedYards
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long BlockId { get; set; }

    /// <summary>Row numbers of the yards, ascending, with blanks between.</summary>
    public required string Yards { get; set; }
    public DateTime SinceUtc { get; set; }

    /// <summary>Sets of the neighbourhood are numbered as they are published, each number once: of two processes that publish at the same
    /// time one is refused and looks again.</summary>
    public long Number { get; set; }
}

internal sealed class PublishedYardsMapping : IEntityTypeConfiguration<PublishedYards>
{
    public void Configure(EntityTypeBuilder<PublishedYards> builder)
    {
        builder.ToTable("PublishedYards");
        builder.HasRow(p => new { p.NeighbourhoodId, p.Id }, p => p.Id);
        builder.HasOne<StreetBlock>().WithMany().HasForeignKey(p => new { p.NeighbourhoodId, p.BlockId }).OnDelete(DeleteBehavior.Cascade);
        builder.HasIndex(p => new { p.NeighbourhoodId, p.BlockId });
        builder.HasIndex(p => new { p.NeighbourhoodId, p.Number }).IsUnique();
    }
}
