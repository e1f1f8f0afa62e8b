using System.Globalization;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Community;

/// <summary>
/// Which yards the public sees counted. A block shows with three or more sharing yards, and any two sets it was ever counted from are the same or differ
/// by three yards or more: whoever keeps an old page and subtracts it from a new one never holds one household's part.
/// A withdrawal therefore hides the block at once, unless a set that may be shown is left; newcomers wait until three have come.
/// </summary>
public sealed class PublicSets(NeighbourhoodDatabase database, int neighbourhoodId)
{
    /// <summary>The set to show, and whether it is new and must be kept.</summary>
    /// <param name="sharing">Yards of one block whose households let them count now.</param>
    /// <param name="published">Every set the block was counted from so far, oldest first.</param>
    public static (IReadOnlySet<long> Shown, bool IsNew) Choose(IReadOnlySet<long> sharing, IReadOnlyList<IReadOnlySet<long>> published)
    {
        ArgumentNullException.ThrowIfNull(sharing);
        ArgumentNullException.ThrowIfNull(published);
        // All that share; failing that, all but the newest one or two, so that a large block does not vanish for one household.
        for (var without = 0; without < Figures.YardsToShow; without++)
        {
            var wanted = sharing.Order().Take(sharing.Count - without).ToHashSet();
            if (wanted.Count < Figures.YardsToShow)
            {
                break;
            }

            if (published.Any(p => p.SetEquals(wanted)))
            {
                return (wanted, false);
            }

            if (published.All(p => Distance(p, wanted) >= Figures.YardsToShow))
            {
                return (wanted, true);
            }
        }

        // Else the newest earlier set of which everybody still agrees.
        return (published.LastOrDefault(p => p.IsSubsetOf(sharing)) ?? new HashSet<long>(), false);
    }

    private static int Distance(IReadOnlySet<long> one, HashSet<long> other) => one.Count + other.Count - (2 * one.Count(other.Contains));

    /// <summary>Row numbers of all yards the public sees counted; sets shown for the first time are kept.</summary>
    internal async Task<IReadOnlySet<long>> ShownAsync(IReadOnlyList<YardPlace> yards, CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var kept = (await db.PublishedYards.AsNoTracking().Where(p => p.NeighbourhoodId == neighbourhoodId).OrderBy(p => p.Id).Select(p => new { p.BlockId, p.Yards }).ToListAsync(cancel))
            .ToLookup(p => p.BlockId, p => Read(p.Yards));
        var shown = new HashSet<long>();
        var fresh = new HashSet<long>();
        var rows = new List<PublishedYards>();
        foreach (var block in yards.Where(y => y.Shared).GroupBy(y => y.BlockId))
        {
            var (set, isNew) = Choose(block.Select(y => y.Id).ToHashSet(), [.. kept[block.Key]]);
            (isNew ? fresh : shown).UnionWith(set);
            if (isNew)
            {
                rows.Add(new PublishedYards { NeighbourhoodId = neighbourhoodId, BlockId = block.Key, Yards = Write(set), SinceUtc = DateTime.UtcNow });
            }
        }

        // A set that cannot be kept in mind, on a full disk say, is not shown either: a later one might differ from it by one yard.
        if (rows.Count > 0 && (await database.WriteUnnotedAsync(there => there.PublishedYards.AddRangeAsync(rows, cancel), cancel)).IsStored)
        {
            shown.UnionWith(fresh);
        }

        return shown;
    }

    private static HashSet<long> Read(string yards) => yards.Split(' ').Select(y => long.Parse(y, CultureInfo.InvariantCulture)).ToHashSet();

    private static string Write(IEnumerable<long> yards) => string.Join(' ', yards.Order().Select(y => y.ToString(CultureInfo.InvariantCulture)));
}
