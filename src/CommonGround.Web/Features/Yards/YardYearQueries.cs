using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Yards;

/// <summary>One planting over the years.</summary>
/// <param name="SightingId">Its newest sighting.</param>
/// <param name="FirstBloom">First day in flower of the newest year in which somebody saw it so.</param>
/// <param name="LastBloom">Last day of that year.</param>
public sealed record PlantingOfYears(CatalogueTaxon Taxon, string Patch, long SightingId, IReadOnlyList<Visit> Visits, Certainty Certainty,
    double CoverSquareMetres, DateOnly? FirstBloom, DateOnly? LastBloom);

/// <summary>A yard's plantings over the years, bed by bed.</summary>
/// <param name="Years">Oldest first, without a break.</param>
public sealed record YardYears(string Code, IReadOnlyList<int> Years,
    IReadOnlyList<(string Bed, IReadOnlyList<PlantingOfYears> Plantings)> Beds, int Sightings)
{
    /// <summary>First and last day seen in flower, by taxon and year, over all beds.</summary>
    public IReadOnlyList<(CatalogueTaxon Taxon, IReadOnlyList<YardBloom> Years)> Bloom { get; init; } = [];
}

/// <summary>Reads every sighting of a yard, for those who may see it.</summary>
public sealed class YardYearQueries(NeighbourhoodDatabase database, LiveCommunity live, GroupClock clock)
{
    /// <summary>Null where there is no such yard or the reader may not see it.</summary>
    public async Task<YardYears?> OfAsync(string code, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        await using var db = await database.CreateDbContextAsync(cancel);
        var yard = await db.Yards.AsNoTracking().Where(y => y.Code == code).Select(y => new { y.Id, y.Code, y.OwnerId })
            .SingleOrDefaultAsync(cancel);
        if (yard is null || !currentUser.MaySee(yard.OwnerId))
        {
            return null;
        }

        var beds = await db.Beds.AsNoTracking().Where(b => b.YardId == yard.Id).OrderBy(b => b.Name).Select(b => new { b.Id, b.Name })
            .ToListAsync(cancel);
        var rows = await db.Sightings.AsNoTracking().Where(s => s.YardId == yard.Id && s.ObservedOn <= clock.Today).ToListAsync(cancel);
        var loaded = await live.LoadedAsync(cancel);
        var plantings = rows.GroupBy(s => (s.BedId, s.TaxonId, s.Patch))
            .Select(g => (g.Key.BedId, Line: Line(loaded.Matrix.Taxa[loaded.TaxonIndex[g.Key.TaxonId]], [.. g.OrderBy(s => s.ObservedOn)])))
            .OrderBy(p => p.Line.Taxon.Bloom?.Start ?? 99).ThenBy(p => p.Line.Taxon.ScientificName, StringComparer.Ordinal)
            .ThenBy(p => p.Line.Patch, StringComparer.Ordinal).ToLookup(p => p.BedId, p => p.Line);
        var from = rows.Select(s => s.ObservedOn.Year).DefaultIfEmpty(clock.Today.Year).Min();
        return new YardYears(yard.Code, [.. Enumerable.Range(from, clock.Today.Year - from + 1)],
            [.. beds.Select(b => (b.Name, (IReadOnlyList<PlantingOfYears>)[.. plantings[b.Id]])).Where(b => b.Item2.Count > 0)],
                rows.Count)
        { Bloom = Bloom(loaded, rows) };
    }

    private static IReadOnlyList<(CatalogueTaxon, IReadOnlyList<YardBloom>)> Bloom(LoadedCommunity loaded,
        IReadOnlyList<Storage.Plantings.Sighting> rows) =>
        [.. rows.Where(s => s.GrowthStage is not null && s.CoverSquareMetres > 0).GroupBy(s => s.TaxonId)
            .Select(g => (Taxon: loaded.Matrix.Taxa[loaded.TaxonIndex[g.Key]],
            Looks: g.Select(s => new BloomLook(s.YardId, s.ObservedOn, s.GrowthStage!.Value))))
            .Select(g => (g.Taxon, (IReadOnlyList<YardBloom>)[.. ObservedFlowering.ByYardAndYear(g.Taxon.UsualBloom ?? g.Taxon.Bloom,
            g.Looks).Where(y => y.First is not null)]))
            .Where(g => g.Item2.Count > 0).OrderBy(g => g.Taxon.Bloom?.Start ?? 99).ThenBy(g => g.Taxon.ScientificName,
            StringComparer.Ordinal)];

    private static PlantingOfYears Line(CatalogueTaxon taxon, IReadOnlyList<Storage.Plantings.Sighting> rows)
    {
        var newest = rows[^1];
        var flowering = rows.Where(s => s.CoverSquareMetres > 0 && s.GrowthStage == GrowthStage.Flowering).GroupBy(s => s.ObservedOn.Year)
            .MaxBy(g => g.Key);
        return new(taxon, newest.Patch, newest.Id, [.. rows.Select(PlantingStory.VisitOf)], newest.Certainty, newest.CoverSquareMetres,
            flowering?.Min(s => s.ObservedOn), flowering?.Max(s => s.ObservedOn));
    }
}
