using System.Text.Json;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Taxa;

/// <summary>A taxon the neighbourhood can record: a row of the catalogue, or an unlisted plain name.</summary>
public sealed class Taxon
{
    public int NeighbourhoodId { get; set; }
    public int Id { get; set; }
    public required string ScientificName { get; set; }

    /// <summary>Not in the catalogue: counts in richness, takes no part in C, bloom or suitability.</summary>
    public bool Unlisted { get; set; }

    /// <summary>The catalogue row as it was loaded. Kept whole, because it is only ever read whole.</summary>
    public required CatalogueTaxon Traits { get; set; }
}

internal sealed class TaxonMapping : IEntityTypeConfiguration<Taxon>
{
    private static readonly JsonSerializerOptions Json = new(
        )
    {
        DefaultIgnoreCondition = System.Text.Json.Serialization.JsonIgnoreCondition.WhenWritingDefault,
        IgnoreReadOnlyProperties = false
    };

    public void Configure(EntityTypeBuilder<Taxon> builder)
    {
        builder.HasHistory(RowKinds.Taxon);
        builder.ToTable("Taxa");
        builder.HasKey(t => new { t.NeighbourhoodId, t.Id });
        builder.Property(t => t.Id).ValueGeneratedNever();
        builder.HasOne<Neighbourhood>().WithMany().HasForeignKey(t => t.NeighbourhoodId);
        builder.Property(t => t.ScientificName).HasMaxLength(200);
        builder.HasIndex(t => new { t.NeighbourhoodId, t.ScientificName }).IsUnique();
        builder.Property(t => t.Traits).HasConversion(t => Write(t), text => Read(text),
            new Microsoft.EntityFrameworkCore.ChangeTracking.ValueComparer<CatalogueTaxon>(
            (a, b) => Write(a!) == Write(b!), t => Write(t).GetHashCode(StringComparison.Ordinal), t => t));
    }

    internal static string Write(CatalogueTaxon taxon) => JsonSerializer.Serialize(taxon, Json);

    internal static CatalogueTaxon Read(string text) => JsonSerializer.Deserialize<CatalogueTaxon>(text, Json)
        ?? throw new InvalidOperationException("A taxon's stored traits are empty; run the check command.");
}
