using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.History;

/// <summary>
/// The number of a neighbourhood's newest change. Every save moves it in its own transaction, so whoever compares it knows whether
/// what they hold still stands. Its row is locked until the save is stored: changes become visible in the order of their numbers.
/// </summary>
public sealed class ChangeStamp
{
    public int NeighbourhoodId { get; set; }
    public long LastChange { get; set; }
}

internal sealed class ChangeStampMapping : IEntityTypeConfiguration<ChangeStamp>
{
    public void Configure(EntityTypeBuilder<ChangeStamp> builder)
    {
        builder.ToTable("ChangeStamps");
        builder.HasKey(s => s.NeighbourhoodId);
        builder.Property(s => s.NeighbourhoodId).ValueGeneratedNever();
        builder.HasOne<Neighbourhood>().WithOne().HasForeignKey<ChangeStamp>(s => s.NeighbourhoodId).OnDelete(DeleteBehavior.Cascade);
    }
}
