using CommonGround.Ecology.Sites;
using CommonGround.Planning.GapFilling;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Streets;

/// <summary>A yard that has room for more, with plants of its own; organisers only.</summary>
public sealed record LateYard(string Code, double LawnSquareMetres, GrowingSite Ground, IReadOnlyList<GapSuggestion> Plants)
{
    /// <summary>Its household said that it would plant.</summary>
    public bool Willing { get; init; }
}

/// <summary>A block in the order of what can be done.</summary>
/// <param name="Covered">Late half-months covered now; <paramref name="After"/> with its plants grown.</param>
public sealed record LateBlock(int Block, int Covered, int After, GrowingSite Ground, IReadOnlyList<GapSuggestion> Plants,
    IReadOnlyList<LateYard> Yards);

/// <summary>Where the late season runs out, and what could be planted where: each place its own plants.</summary>
public sealed class LateSeasonQueries(NeighbourhoodDatabase database, LiveCommunity live, StreetQueries streets, VisitorQueries visitors)
{
    /// <summary>Plants of a block, of a yard; blocks and yards that one plant is proposed for; yards named on a block.</summary>
    private const int OfBlock = 3, OfYard = 2, MostBlocks = 4, MostYards = 3, YardsOfBlock = 3;

    /// <summary>Less lawn than this is no bed, m².</summary>
    private const double LeastLawn = 4;

    /// <summary>The blocks that may be shown: those where the plants named close most late half-months first, the emptiest before the
    /// others. Yards stand with them for organisers alone.</summary>
    public async Task<IReadOnlyList<LateBlock>> BlocksAsync(Figures figures, CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(figures);
        ArgumentNullException.ThrowIfNull(currentUser);
        var ground = await streets.GroundAsync(currentUser, cancel);
        var (matrix, forage) = (figures.Matrix, visitors.Of(figures.Matrix.Taxa));
        var nearby = StreetQueries.Nearby(matrix);
        // Only gaps of the late season are looked at: spring has its own plants.
        var late = figures.Season with { First = figures.Season.LateFrom };
        List<int> emptiest = [.. figures.Shown.OrderBy(b => figures.LateCovered(figures.Blocks[b])).ThenBy(b => b)];
        GrowingSite Ground(int block) => ground.GetValueOrDefault(block) ?? new(null, null, 1.5);
        var plants = SpreadSuggestions.Of(matrix.Taxa, emptiest.Select(b => Site(figures, b, $"{b}", Ground(b))), late, nearby,
            OfBlock, MostBlocks, forage);
        var yards = currentUser.MayOrganise ? await YardsAsync(figures, emptiest, cancel) : [];
        // Yards of one block get no plant twice: together they close more than each alone.
        var sites = yards.Select(y => Site(figures, y.Block, y.Code, y.Ground) with { Group = $"block {y.Block}" });
        var ofYards = SpreadSuggestions.Of(matrix.Taxa, sites, late, nearby, OfYard, MostYards, forage);
        return [.. emptiest.Select(b =>
        {
            var now = figures.LateCovered(figures.Blocks[b]);
            var closed = plants[$"{b}"].SelectMany(s => s.Closes).Distinct().Count();
            return new LateBlock(b, now, now + closed, Ground(b), plants[$"{b}"],
                [.. yards.Where(y => y.Block == b).Select(y => new LateYard(y.Code, y.Lawn, y.Ground, ofYards[y.Code])
                { Willing = y.Willing })]);
        }).OrderByDescending(b => b.After - b.Covered).ThenBy(b => b.Covered).ThenBy(b => b.Block)];
    }

    private static GapSite Site(Figures figures, int block, string key, GrowingSite ground)
    {
        var matrix = figures.Matrix;
        return new(key, CommunityMeasures.CommunityOfBlock(matrix, block).Taxa.Select(t => matrix.Taxa[t.Taxon].ScientificName)
            .ToHashSet(StringComparer.Ordinal), Figures.InFlower(figures.Blocks[block]), ground);
    }

    /// <summary>The yards of each block that has a gap: those whose household would plant, then those with most lawn.</summary>
    private async Task<List<(int Block, string Code, double Lawn, GrowingSite Ground, bool Willing)>> YardsAsync(Figures figures,
        List<int> blocks, CancellationToken cancel)
    {
        var index = (await live.LoadedAsync(cancel)).BlockIndex;
        await using var db = await database.CreateDbContextAsync(cancel);
        var rows = await db.Yards.Where(y => y.LawnSquareMetres >= LeastLawn)
            .Select(y => new { y.Code, y.BlockId, y.LawnSquareMetres, y.Light, y.Moisture, y.WouldPlant }).ToListAsync(cancel);
        return [.. rows.Where(r => index.ContainsKey(r.BlockId)).GroupBy(r => index[r.BlockId])
            .Where(g => blocks.Contains(g.Key) && figures.LateCovered(figures.Blocks[g.Key]) < figures.LateHalves)
            .OrderBy(g => blocks.IndexOf(g.Key)).SelectMany(g => g.OrderByDescending(r => r.WouldPlant)
                .ThenByDescending(r => r.LawnSquareMetres)
                .ThenBy(r => r.Code, StringComparer.Ordinal).Take(YardsOfBlock)
                .Select(r => (g.Key, r.Code, r.LawnSquareMetres!.Value, new GrowingSite(r.Light, r.Moisture, 1.5), r.WouldPlant)))];
    }
}
