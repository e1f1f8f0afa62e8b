using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Walks;

/// <summary>Animals seen on one plant of a yard.</summary>
/// <param name="Taxon">Null where they were seen in the yard and on no plant.</param>
/// <param name="Seen">Each group once, with how many days it was seen on, the most at once, when last, and what walkers called it.</param>
public sealed record SeenOn(CatalogueTaxon? Taxon, IReadOnlyList<SeenAnimal> Seen);

public sealed record SeenAnimal(WildlifeKind Kind, int Days, CountClass Most, DateOnly LastOn, IReadOnlyList<string> Names);

/// <summary>A walk of a yard, with its effort.</summary>
public sealed record WalkLine(DateOnly WalkedOn, int Minutes, int Looked);

/// <summary>Reads what walkers saw beside the plantings, for those who may see the yard.</summary>
public sealed class WildlifeQueries(NeighbourhoodDatabase database, LiveCommunity live)
{
    public const int WalksShown = 5;

    public async Task<IReadOnlyList<SeenOn>> OfYardAsync(long yardId, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        await using var db = await database.CreateDbContextAsync(cancel);
        if (!await MaySeeAsync(db, yardId, currentUser, cancel))
        {
            return [];
        }

        var rows = await db.Wildlife.AsNoTracking().Where(w => w.YardId == yardId).ToListAsync(cancel);
        // After the rows: the matrix then knows at least what they name.
        var loaded = await live.LoadedAsync(cancel);
        return [.. rows.GroupBy(w => w.TaxonId).Select(g => new SeenOn(g.Key is { } taxon ? loaded.Matrix.Taxa[loaded.TaxonIndex[taxon]]
            : null,
                [.. g.GroupBy(w => w.Kind).OrderBy(k => k.Key)
                    .Select(k => new SeenAnimal(k.Key, k.Select(w => w.ObservedOn).Distinct().Count(), k.Max(w => w.CountClass),
                    k.Max(w => w.ObservedOn),
                    [.. k.Select(w => w.Name).Where(n => n.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase)
                        .Order(StringComparer.Ordinal)]))]))
            .OrderBy(s => s.Taxon is null).ThenBy(s => s.Taxon?.DisplayName, StringComparer.Ordinal)];
    }

    /// <summary>The last walks, newest first.</summary>
    public async Task<IReadOnlyList<WalkLine>> WalksAsync(long yardId, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        await using var db = await database.CreateDbContextAsync(cancel);
        return !await MaySeeAsync(db, yardId, currentUser, cancel) ? []
            : await db.Walks.Where(w => w.YardId == yardId).OrderByDescending(w => w.WalkedOn).ThenByDescending(w => w.Id).Take(WalksShown)
                .Select(w => new WalkLine(w.WalkedOn, w.Minutes, w.Looked)).ToListAsync(cancel);
    }

    private static async Task<bool> MaySeeAsync(CommonGroundDb db, long yardId, CurrentUser currentUser, CancellationToken cancel) =>
        await db.Yards.Where(y => y.Id == yardId).Select(y => new { y.OwnerId }).SingleOrDefaultAsync(cancel) is { } yard
            && currentUser.MaySee(yard.OwnerId);
}
