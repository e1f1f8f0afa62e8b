using System.Globalization;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Publishing;

/// <summary>
/// Which yards the public sees counted. A block shows with three or more sharing yards, and no linear combination of all sets that were
/// ever published rests on fewer than three: whoever keeps every old page and adds and subtracts as he likes never holds the part of one
/// household, or of two. A withdrawal therefore hides the block at once, unless a set that may be shown is left; newcomers wait for
/// company.
/// </summary>
public static class PublicSets
{
    /// <summary>A block of fewer yards is not shown: two households could tell each other's.</summary>
    public const int FewestYards = 3;

    /// <summary>Yards left out of a new set at most: those that joined last.</summary>
    private const int MostLeftOut = 2;

    /// <summary>The set to show: the largest published one of which everybody still agrees, or a larger new one that may be
    /// published.</summary>
    /// <param name="sharing">Yards of one block whose households let them count now.</param>
    /// <param name="published">Every set the block was counted from so far, oldest first.</param>
    /// <param name="elsewhere">Sets of other blocks that have a yard in common with these, as after a yard was put on another
    /// block.</param>
    public static (IReadOnlySet<long> Shown, bool IsNew) Choose(IReadOnlySet<long> sharing, IReadOnlyList<IReadOnlySet<long>> published,
        IReadOnlyList<IReadOnlySet<long>>? elsewhere = null)
    {
        var shown = Shown(sharing, published);
        RowSpace? space = null;
        for (var without = 0; without <= MostLeftOut; without++)
        {
            var wanted = sharing.Order().Take(sharing.Count - without).ToHashSet();
            if (wanted.Count < FewestYards || wanted.Count <= shown.Count)
            {
                break;
            }

            space ??= new RowSpace([.. published, .. elsewhere ?? []], sharing);
            if (space.StaysSafeWith(wanted))
            {
                return (wanted, true);
            }
        }

        return (shown, false);
    }

    /// <summary>The largest published set of which everybody still agrees, of several the newest; empty where there is none.</summary>
    public static IReadOnlySet<long> Shown(IReadOnlySet<long> sharing, IReadOnlyList<IReadOnlySet<long>> published)
    {
        ArgumentNullException.ThrowIfNull(sharing);
        ArgumentNullException.ThrowIfNull(published);
        return published.Reverse().Where(p => p.IsSubsetOf(sharing)).MaxBy(p => p.Count) ?? new HashSet<long>();
    }

    /// <summary>Row numbers of all yards that the public sees counted. Reads only.</summary>
    /// <param name="db">The database, as one neighbourhood sees it.</param>
    /// <param name="sharing">Block and yard of all that share.</param>
    public static async Task<IReadOnlySet<long>> ShownAsync(CommonGroundDb db, IEnumerable<(long Block, long Yard)> sharing,
        CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(db);
        var published = (await db.PublishedYards.AsNoTracking().OrderBy(p => p.Number).Select(p => new { p.BlockId, p.Yards })
            .ToListAsync(cancel)).ToLookup(p => p.BlockId, p => Read(p.Yards));
        return sharing.GroupBy(s => s.Block, s => s.Yard).SelectMany(b => Shown(b.ToHashSet(), [.. published[b.Key]])).ToHashSet();
    }

    /// <summary>Publishes what may be shown by now: the one place that does, inside the transaction of the write that changed who
    /// shares.</summary>
    internal static async Task<IReadOnlyList<PublishedYards>> NewAsync(CommonGroundDb db, int neighbourhoodId, CancellationToken cancel)
    {
        var sharing = await db.Yards.AcrossNeighbourhoods().Where(y => y.NeighbourhoodId == neighbourhoodId && y.Shared)
            .Select(y => new { y.BlockId, y.Id }).ToListAsync(cancel);
        var rows = await db.PublishedYards.AcrossNeighbourhoods().AsNoTracking().Where(p => p.NeighbourhoodId == neighbourhoodId)
            .OrderBy(p => p.Number).Select(p => new { p.BlockId, p.Yards, p.Number }).ToListAsync(cancel);
        var number = rows.Count == 0 ? 0 : rows[^1].Number;
        var published = rows.ConvertAll(r => (r.BlockId, Yards: (IReadOnlySet<long>)Read(r.Yards)));
        var fresh = new List<PublishedYards>();
        foreach (var block in sharing.GroupBy(s => s.BlockId, s => s.Id).OrderBy(g => g.Key))
        {
            var now = block.ToHashSet();
            var (set, isNew) = Choose(now, [.. published.Where(p => p.BlockId == block.Key).Select(p => p.Yards)],
                Linked(now, block.Key, published));
            if (isNew)
            {
                published.Add((block.Key, set));
                fresh.Add(new PublishedYards
                {
                    NeighbourhoodId = neighbourhoodId,
                    BlockId = block.Key,
                    Yards = Write(set),
                    SinceUtc = DateTime.UtcNow,
                    Number = ++number
                });
            }
        }

        return fresh;
    }

    /// <summary>Sets of other blocks that hang together with the block's by common yards.</summary>
    private static List<IReadOnlySet<long>> Linked(IReadOnlySet<long> sharing, long block,
        List<(long BlockId, IReadOnlySet<long> Yards)> published)
    {
        var reached = published.Where(p => p.BlockId == block).SelectMany(p => p.Yards).Concat(sharing).ToHashSet();
        var left = published.Where(p => p.BlockId != block).Select(p => p.Yards).ToList();
        var linked = new List<IReadOnlySet<long>>();
        while (left.FindAll(p => p.Overlaps(reached)) is { Count: > 0 } found)
        {
            linked.AddRange(found);
            reached.UnionWith(found.SelectMany(f => f));
            left.RemoveAll(found.Contains);
        }

        return linked;
    }

    private static HashSet<long> Read(string yards) => yards.Split(' ').Select(y => long.Parse(y, CultureInfo.InvariantCulture))
        .ToHashSet();

    private static string Write(IEnumerable<long> yards) =>
        string.Join(' ', yards.Order().Select(y => y.ToString(CultureInfo.InvariantCulture)));
}
