using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.ThisHalfMonth;

/// <summary>What was recorded lately. A walk is a day on which a yard was seen.</summary>
public sealed record Recently(DateOnly Since, int Walks, int Sightings, int NewYards, DateOnly? Last);

public sealed class RecentActivity(IDbContextFactory<CommonGroundDb> database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    public async Task<Recently> SinceAsync(DateOnly since, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var (id, today) = (neighbourhood.Id, clock.Today);
        var sightings = db.Sightings.Where(s => s.NeighbourhoodId == id && s.ObservedOn <= today);
        var walks = await sightings.Where(s => s.ObservedOn >= since).Select(s => new { s.YardId, s.ObservedOn }).Distinct().CountAsync(cancel);
        var seen = await sightings.CountAsync(s => s.ObservedOn >= since, cancel);
        var yards = await db.Yards.CountAsync(y => y.NeighbourhoodId == id && y.RegisteredOn >= since && y.RegisteredOn <= today, cancel);
        return new Recently(since, walks, seen, yards, await sightings.MaxAsync(s => (DateOnly?)s.ObservedOn, cancel));
    }

    /// <summary>Yards that nobody has seen since a day.</summary>
    public async Task<int> UnseenSinceAsync(DateOnly since, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Yards.CountAsync(y => y.NeighbourhoodId == neighbourhood.Id
            && !db.Sightings.Any(s => s.NeighbourhoodId == y.NeighbourhoodId && s.YardId == y.Id && s.ObservedOn >= since && s.ObservedOn <= clock.Today), cancel);
    }
}
