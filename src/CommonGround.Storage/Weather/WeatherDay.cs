using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Weather;

/// <summary>One day of the group's own weather record; either half may be missing.</summary>
public sealed class WeatherDay
{
    public int NeighbourhoodId { get; set; }
    public DateOnly Date { get; set; }
    public double? RainMillimetres { get; set; }
    public double? MinimumCelsius { get; set; }
    public double? MaximumCelsius { get; set; }
}

internal sealed class WeatherDayMapping : IEntityTypeConfiguration<WeatherDay>
{
    public void Configure(EntityTypeBuilder<WeatherDay> builder)
    {
        builder.HasHistory(RowKinds.Weather);
        builder.HasKey(w => new { w.NeighbourhoodId, w.Date });
        builder.HasOne<Neighbourhood>().WithMany().HasForeignKey(w => w.NeighbourhoodId);
        builder.ToTable(t => t.HasCheckConstraint("CK_WeatherDays_Rain", "\"RainMillimetres\" IS NULL OR \"RainMillimetres\" >= 0"));
    }
}
