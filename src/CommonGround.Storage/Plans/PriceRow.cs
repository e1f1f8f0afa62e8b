using CommonGround.Storage.History;
using CommonGround.Storage.Taxa;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Plans;

/// <summary>What a taxon costs here; null where the group has no price and a default is taken.</summary>
public sealed class PriceRow
{
    public int NeighbourhoodId { get; set; }
    public int TaxonId { get; set; }

    /// <summary>Money for a gram of pure live seed.</summary>
    public double? SeedPerGram { get; set; }
    public double? PlugEach { get; set; }
}

internal sealed class PriceRowMapping : IEntityTypeConfiguration<PriceRow>
{
    public void Configure(EntityTypeBuilder<PriceRow> builder)
    {
        builder.HasHistory(RowKinds.Price);
        builder.ToTable("Prices", t =>
        {
            t.HasCheckConstraint("CK_Prices_Seed", "\"SeedPerGram\" IS NULL OR \"SeedPerGram\" >= 0");
            t.HasCheckConstraint("CK_Prices_Plug", "\"PlugEach\" IS NULL OR \"PlugEach\" >= 0");
        });
        builder.HasKey(p => new { p.NeighbourhoodId, p.TaxonId });
        builder.Property(p => p.TaxonId).ValueGeneratedNever();
        builder.HasOne<Taxon>().WithMany().HasForeignKey(p => new { p.NeighbourhoodId, p.TaxonId }).OnDelete(DeleteBehavior.Restrict);
    }
}
