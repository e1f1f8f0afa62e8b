using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.History;

/// <summary>A number that the whole site counts, whatever the neighbourhood.</summary>
public sealed class SiteCounter
{
    /// <summary>Moves with every change to the list of neighbourhoods: a name, a time zone, a new one.</summary>
    public const string Neighbourhoods = "neighbourhoods";

    /// <summary>Counts the programs that were started on this database; see <see cref="RowIds"/>.</summary>
    public const string Programs = "programs";

    public required string Name { get; set; }
    public long Value { get; set; }
}

internal sealed class SiteCounterMapping : IEntityTypeConfiguration<SiteCounter>
{
    public void Configure(EntityTypeBuilder<SiteCounter> builder)
    {
        builder.ToTable("SiteCounters");
        builder.HasKey(c => c.Name);
        builder.Property(c => c.Name).HasMaxLength(40);
    }
}
