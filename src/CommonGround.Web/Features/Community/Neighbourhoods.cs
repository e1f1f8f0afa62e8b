using CommonGround.Storage;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Community;

/// <summary>One neighbourhood with its clock and its matrix, which everybody who looks at it shares.</summary>
public sealed record Place(CurrentNeighbourhood Neighbourhood, GroupClock Clock, LiveCommunity Live, string Host, bool OpenSignUp);

/// <summary>The neighbourhoods of this deployment. Read once, and again after a write to one of them.</summary>
public sealed class Neighbourhoods(IDbContextFactory<CommonGroundDb> database, TimeProvider time)
{
    private volatile IReadOnlyList<Place> places = [];

    public IReadOnlyList<Place> All => places;

    /// <summary>The only one, if there is only one.</summary>
    public Place? Lone => places is [var only] ? only : null;

    public Place? Find(int id) => places.FirstOrDefault(p => p.Neighbourhood.Id == id);

    /// <summary>By the host asked for, else by what the reader chose, else the first.</summary>
    public Place For(string host, string? chosen) =>
        places.FirstOrDefault(p => p.Host.Length > 0 && p.Host.Equals(host, StringComparison.OrdinalIgnoreCase))
        ?? places.FirstOrDefault(p => p.Neighbourhood.Id.ToString(System.Globalization.CultureInfo.InvariantCulture) == chosen)
        ?? places[0];

    public async Task ReadAsync(CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var rows = await db.Neighbourhoods.AsNoTracking().OrderBy(n => n.Id).ToListAsync(cancel);
        var known = places;
        places = [.. rows.Select(row => Make(row, known.FirstOrDefault(p => p.Neighbourhood.Id == row.Id)))];
    }

    private Place Make(Neighbourhood row, Place? before)
    {
        var neighbourhood = new CurrentNeighbourhood(row.Id, row.Name, row.IsDemo);
        // The matrix in memory stays unless the clock it was made by has changed.
        if (before is not null && before.Clock.TimeZone == row.TimeZone)
        {
            return before with { Neighbourhood = neighbourhood, Host = row.Host, OpenSignUp = row.OpenSignUp };
        }

        var clock = new GroupClock(time, row.TimeZone, row.DemoToday);
        return new Place(neighbourhood, clock, new LiveCommunity(new CommunityQueries(database.In(row.Id), neighbourhood), clock), row.Host, row.OpenSignUp);
    }
}
