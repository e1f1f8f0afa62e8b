using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Invasives;

/// <summary>What was done against one plant on a day.</summary>
/// <param name="Places">How many yards and blocks.</param>
/// <param name="SquareMetres">Ground treated, where it was said.</param>
/// <param name="PersonHours">Of all together, where they were said.</param>
public sealed record DoneLine(CatalogueTaxon Taxon, int Places, double SquareMetres, double PersonHours);

/// <summary>Sums up the treatments of a day, without naming a yard: it is hung up and handed round.</summary>
public sealed class WorkDone(NeighbourhoodDatabase database, LiveCommunity live)
{
    /// <summary>By plant, the most ground first; organisers only.</summary>
    public async Task<IReadOnlyList<DoneLine>> OnAsync(DateOnly day, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        if (!currentUser.MayOrganise)
        {
            return [];
        }

        await using var db = await database.CreateDbContextAsync(cancel);
        var rows = await db.Treatments.AsNoTracking().Where(t => t.TreatedOn == day)
            .Select(t => new { t.TaxonId, t.YardId, t.BlockId, t.AreaSquareMetres, t.PersonHours }).ToListAsync(cancel);
        var loaded = await live.LoadedAsync(cancel);
        return [.. rows.GroupBy(t => t.TaxonId).Select(g => new DoneLine(loaded.Matrix.Taxa[loaded.TaxonIndex[g.Key]],
            g.Select(t => (t.YardId, t.YardId is null ? t.BlockId : 0)).Distinct().Count(), g.Sum(t => t.AreaSquareMetres ?? 0),
            g.Sum(t => t.PersonHours ?? 0))).OrderByDescending(d => d.SquareMetres).ThenBy(d => d.Taxon.DisplayName,
                StringComparer.Ordinal)];
    }

    /// <summary>Days with treatments, the newest first.</summary>
    public async Task<IReadOnlyList<DateOnly>> DaysAsync(CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        await using var db = await database.CreateDbContextAsync(cancel);
        return !currentUser.MayOrganise ? [] : await db.Treatments.Select(t => t.TreatedOn).Distinct().OrderByDescending(d => d).Take(30)
            .ToListAsync(cancel);
    }
}
