using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Community;

/// <summary>One neighbourhood with its clock and its matrix, which everybody who looks at it shares.</summary>
public sealed record Place(CurrentNeighbourhood Neighbourhood, GroupClock Clock, LiveCommunity Live, string Host, bool OpenSignUp);

/// <summary>The neighbourhoods of this deployment, with one live community each for as long as the program runs.</summary>
[System.Diagnostics.CodeAnalysis.SuppressMessage("Design", "CA1001",
    Justification = "It lives as long as the program; a semaphore whose wait handle nobody asks for holds nothing to free.")]
public sealed class Neighbourhoods(IDbContextFactory<CommonGroundDb> database, TimeProvider time)
{
    private readonly SemaphoreSlim gate = new(1, 1);
    private long stamp = -1;
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

    /// <summary>Brings the list up to date where any process changed it.</summary>
    public async Task FollowAsync(CancellationToken cancel = default)
    {
        if (await ChangeStamps.ReadNeighbourhoodsAsync(database, cancel) != Interlocked.Read(ref stamp))
        {
            await ReadAsync(cancel);
        }
    }

    public async Task ReadAsync(CancellationToken cancel = default)
    {
        await gate.WaitAsync(cancel);
        try
        {
            // The number first: a change that comes while the list is read is then followed the next time.
            var now = await ChangeStamps.ReadNeighbourhoodsAsync(database, cancel);
            await using var db = await database.CreateDbContextAsync(cancel);
            var rows = await db.Neighbourhoods.AsNoTracking().OrderBy(n => n.Id).ToListAsync(cancel);
            var known = places.ToDictionary(p => p.Neighbourhood.Id);
            places = [.. rows.Select(row => Make(row, known.GetValueOrDefault(row.Id)))];
            Interlocked.Exchange(ref stamp, now);
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>After a write that is stored: where the list cannot be read just now, the old one stands a little longer.</summary>
    public Task<IReadOnlyList<Problem>> TryReadAsync(CancellationToken cancel = default) => Door.TryAsync(async () =>
    {
        await ReadAsync(cancel);
        return [];
    });

    /// <summary>Gives back the memory of neighbourhoods that nobody has looked at for a while, and of the longest unused ones where too
    /// much is held.</summary>
    /// <param name="idle">Unused for so long.</param>
    /// <param name="mostCells">Yard and taxon pairs to hold in all; the one used last always stays.</param>
    /// <returns>How many were forgotten.</returns>
    public int ForgetIdle(TimeSpan idle, long mostCells)
    {
        var held = places.Where(p => p.Live.CellsHeld > 0).OrderByDescending(p => p.Live.LastUsed).ToList();
        var before = time.GetUtcNow() - idle;
        var forgotten = 0;
        var cells = 0L;
        foreach (var place in held)
        {
            cells += place.Live.CellsHeld;
            if (place.Live.LastUsed < before || (cells > mostCells && place != held[0]))
            {
                cells -= place.Live.CellsHeld;
                place.Live.Forget();
                forgotten++;
            }
        }

        return forgotten;
    }

    private Place Make(Neighbourhood row, Place? before)
    {
        var neighbourhood = new CurrentNeighbourhood(row.Id, row.Name, row.IsDemo)
        {
            PlaceName = row.PlaceName,
            Locality = row.ToLocality()
        };
        if (before is null)
        {
            var clock = new GroupClock(time, row.TimeZone, row.DemoToday);
            return new Place(neighbourhood, clock, new LiveCommunity(new CommunityQueries(database.In(row.Id), neighbourhood), clock,
                time), row.Host, row.OpenSignUp);
        }

        before.Clock.MoveTo(row.TimeZone);
        return before with { Neighbourhood = neighbourhood, Host = row.Host, OpenSignUp = row.OpenSignUp };
    }
}
