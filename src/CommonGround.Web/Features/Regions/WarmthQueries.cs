using CommonGround.Storage;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Features.Regions;

/// <summary>Reads what the imported weather record says of a year's months.</summary>
public sealed class WarmthQueries(NeighbourhoodDatabase database, GroupClock clock)
{
    /// <summary>Twelve mean temperatures, °C; null where fewer than twenty days of a month are recorded.</summary>
    public async Task<IReadOnlyList<double?>> ImportedAsync(int year, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var months = await Warmth.MonthsAsync(db, null, clock.Today, cancel);
        return months.GetValueOrDefault(year) ?? new double?[12];
    }
}
