using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.ThisHalfMonth;

/// <summary>What was recorded lately. A walk is a day on which a yard was seen.</summary>
public sealed record Recently(DateOnly Since, int Walks, int Sightings, int NewYards, DateOnly? Last);

/// <summary>Reads what was recorded lately: organisers of all yards, others of those the public sees counted.</summary>
public sealed class RecentActivity(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, LiveCommunity live, GroupClock clock)
{
    public async Task<Recently> SinceAsync(DateOnly since, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        await using var db = await database.CreateDbContextAsync(cancel);
        var (id, today) = (neighbourhood.Id, clock.Today);
        var yards = await CountedAsync(currentUser, cancel);
        var sightings = db.Sightings.Where(s => s.ObservedOn <= today && (yards == null || yards.Contains(s.YardId)));
        var walks = await sightings.Where(s => s.ObservedOn >= since).Select(s => new { s.YardId, s.ObservedOn }).Distinct()
            .CountAsync(cancel);
        var seen = await sightings.CountAsync(s => s.ObservedOn >= since, cancel);
        var made = await db.Yards.CountAsync(y => y.RegisteredOn >= since && y.RegisteredOn <= today
            && (yards == null || yards.Contains(y.Id)), cancel);
        return new Recently(since, walks, seen, made, await sightings.MaxAsync(s => (DateOnly?)s.ObservedOn, cancel));
    }

    /// <summary>Yards that nobody has seen since a day.</summary>
    public async Task<int> UnseenSinceAsync(DateOnly since, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        await using var db = await database.CreateDbContextAsync(cancel);
        var yards = await CountedAsync(currentUser, cancel);
        return await db.Yards.CountAsync(y => (yards == null || yards.Contains(y.Id))
            && !db.Sightings.Any(s => s.YardId == y.Id && s.ObservedOn >= since && s.ObservedOn <= clock.Today), cancel);
    }

    /// <summary>Null: all.</summary>
    private async Task<List<long>?> CountedAsync(CurrentUser currentUser, CancellationToken cancel) =>
        currentUser.MayOrganise ? null : [.. (await live.NowAsync(cancel)).Yards.Where(y => y.Shared).Select(y => y.YardId)];
}
