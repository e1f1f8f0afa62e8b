using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Plants;

/// <summary>A taxon's bloom in one year as people saw it.</summary>
/// <param name="First">First day somebody saw it in flower.</param>
/// <param name="Last">Last day.</param>
/// <param name="Yards">Yards in which somebody did.</param>
public sealed record PlantYear(int Year, DateOnly First, DateOnly Last, int Yards);

/// <summary>One planting of the taxon that the reader may open.</summary>
/// <param name="SightingId">Its newest sighting.</param>
public sealed record PlantingLineOfYears(string Yard, string Patch, long SightingId, IReadOnlyList<Visit> Visits, Certainty Certainty,
    string Observer);

/// <summary>What the years saw of a plant, as far as the reader may know.</summary>
/// <param name="Years">Oldest first. For everybody only years in which three yards that are counted in public had it in flower.</param>
/// <param name="Plantings">Of the yards the reader may open.</param>
/// <param name="Own">What the neighbourhood's own records say, whether they are used or not; null with too few of them.</param>
public sealed record PlantYears(IReadOnlyList<PlantYear> Years, IReadOnlyList<PlantingLineOfYears> Plantings, OwnBloomWindow? Own)
{
    public static PlantYears None { get; } = new([], [], null);
}

/// <summary>Reads the sightings of one plant over the years.</summary>
public sealed class PlantYearQueries(NeighbourhoodDatabase database, LiveCommunity live, GroupClock clock)
{
    public async Task<PlantYears> OfAsync(CatalogueTaxon taxon, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        ArgumentNullException.ThrowIfNull(currentUser);
        var loaded = await live.LoadedAsync(cancel);
        await using var db = await database.CreateDbContextAsync(cancel);
        if (await db.Taxa.Where(t => t.ScientificName == taxon.ScientificName).Select(t => (int?)t.Id)
            .SingleOrDefaultAsync(cancel) is not { } id)
        {
            return PlantYears.None;
        }

        var rows = await db.Sightings.AsNoTracking().Where(s => s.TaxonId == id && s.ObservedOn <= clock.Today).ToListAsync(cancel);
        var places = rows.Select(r => r.YardId).Distinct().ToList();
        var yards = await db.Yards.AsNoTracking().Where(y => places.Contains(y.Id)).Select(y => new { y.Id, y.Code, y.OwnerId })
            .ToDictionaryAsync(y => y.Id, cancel);
        var counted = loaded.Matrix.Yards.Where(y => y.Shared).Select(y => y.YardId).ToHashSet();
        var flowering = rows.Where(s => s.GrowthStage == GrowthStage.Flowering && s.CoverSquareMetres > 0
            && (currentUser.MayOrganise || counted.Contains(s.YardId)));
        var years = flowering.GroupBy(s => s.ObservedOn.Year).OrderBy(g => g.Key)
            .Select(g => new PlantYear(g.Key, g.Min(s => s.ObservedOn), g.Max(s => s.ObservedOn),
            g.Select(s => s.YardId).Distinct().Count()))
            .Where(y => currentUser.MayOrganise || y.Yards >= Figures.YardsToShow).ToList();
        var mine = rows.Where(s => yards.TryGetValue(s.YardId, out var yard) && currentUser.MaySee(yard.OwnerId))
            .GroupBy(s => (s.YardId, s.BedId, s.Patch))
            .Select(g => (g.Key, Newest: g.MaxBy(s => s.ObservedOn)!, All: g))
            .Select(g => new PlantingLineOfYears(yards[g.Key.YardId].Code, g.Key.Patch, g.Newest.Id,
            [.. g.All.OrderBy(s => s.ObservedOn).Select(PlantingStory.VisitOf)], g.Newest.Certainty, g.Newest.Observer))
            .OrderBy(p => p.Yard, StringComparer.Ordinal).ThenBy(p => p.Patch, StringComparer.Ordinal).ToList();
        return new PlantYears(years, mine, await OwnAsync(db, loaded, taxon, id, counted, cancel));
    }

    /// <summary>Taxa for which the neighbourhood's own records are enough, with their usual windows; for the page where a group decides to
    /// use them.</summary>
    public async Task<IReadOnlyList<(CatalogueTaxon Taxon, OwnBloomWindow Own)>> OwnAsync(CancellationToken cancel = default)
    {
        var loaded = await live.LoadedAsync(cancel);
        await using var db = await database.CreateDbContextAsync(cancel);
        var warmth = await Warmth.ReadAsync(db, loaded.Rules, clock.Today, cancel);
        var looks = await GroupBloom.LooksAsync(db, null, loaded.Matrix.Yards.Where(y => y.Shared).Select(y => y.YardId).ToHashSet(),
            clock.Today, cancel);
        return [.. loaded.TaxonIndex.Where(t => looks.ContainsKey(t.Key))
            .Select(t => (Taxon: loaded.Matrix.Taxa[t.Value], Own: GroupBloom.Own(loaded.Matrix.Taxa[t.Value], looks[t.Key], warmth)))
            .Where(t => t.Own is not null).Select(t => (t.Taxon, t.Own!)).OrderBy(t => t.Item2.FirstDay)
            .ThenBy(t => t.Taxon.ScientificName, StringComparer.Ordinal)];
    }

    private async Task<OwnBloomWindow?> OwnAsync(CommonGroundDb db, LoadedCommunity loaded, CatalogueTaxon taxon, int id,
        HashSet<long> counted, CancellationToken cancel) =>
        GroupBloom.Own(taxon, (await GroupBloom.LooksAsync(db, id, counted, clock.Today, cancel)).GetValueOrDefault(id) ?? [],
            await Warmth.ReadAsync(db, loaded.Rules, clock.Today, cancel));
}
