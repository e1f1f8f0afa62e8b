using System.Text.Json;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Sites;
using CommonGround.Planning.GapFilling;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Streets;

/// <summary>A block's line or outline, [longitude, latitude] pairs; empty where none was brought.</summary>
public sealed record BlockShapeOnMap(int Block, bool Closed, IReadOnlyList<(double Longitude, double Latitude)> Points);

/// <summary>Reads streets and blocks with their figures.</summary>
public sealed class StreetQueries(NeighbourhoodDatabase database, LiveCommunity live, GroupClock clock)
{
    public Task<Figures> FiguresAsync(CurrentUser currentUser, CancellationToken cancel = default) =>
        live.FiguresAsync(currentUser.MayOrganise, cancel);

    public async Task<IReadOnlyList<BlockShapeOnMap>> ShapesAsync(CancellationToken cancel = default)
    {
        var loaded = await live.LoadedAsync(cancel);
        await using var db = await database.CreateDbContextAsync(cancel);
        var stored = await db.Blocks.Where(b => b.Geometry != null).Select(b => new { b.Id, b.Geometry }).ToListAsync(cancel);
        return [.. stored.Where(b => loaded.BlockIndex.ContainsKey(b.Id)).Select(b => Shape(loaded.BlockIndex[b.Id], b.Geometry!))
            .OrderBy(s => s.Block)];
    }

    /// <summary>The yards of a block that the reader may open, with their figures.</summary>
    public async Task<IReadOnlyList<(string Code, SiteMeasures Site)>> YardsOfBlockAsync(int block, CurrentUser currentUser,
        CancellationToken cancel = default)
    {
        var loaded = await live.LoadedAsync(cancel);
        var matrix = loaded.Matrix;
        var ids = matrix.YardsOfBlock(block).Select(y => matrix.Yards[y].YardId).ToList();
        await using var db = await database.CreateDbContextAsync(cancel);
        var yards = await db.Yards.Where(y => ids.Contains(y.Id)).Select(y => new { y.Id, y.Code, y.OwnerId }).ToListAsync(cancel);
        return [.. yards.Where(y => currentUser.MaySee(y.OwnerId)).OrderBy(y => y.Code, StringComparer.Ordinal)
            .Select(y => (y.Code, SiteMeasures.Of(SiteCommunity.Of([matrix.Yards[matrix.PositionOf(y.Id)!.Value]]), matrix.Taxa,
            loaded.Rules.Season, null)))];
    }

    /// <summary>The last day somebody saw a yard of the block; for the public, of those it sees counted.</summary>
    public async Task<DateOnly?> LastWalkAsync(int block, CurrentUser currentUser, CancellationToken cancel = default)
    {
        var matrix = (await live.LoadedAsync(cancel)).Matrix;
        var ids = matrix.YardsOfBlock(block).Select(y => matrix.Yards[y]).Where(y => currentUser.MayOrganise || y.Shared)
            .Select(y => y.YardId).ToList();
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Sightings.Where(s => ids.Contains(s.YardId) && s.ObservedOn <= clock.Today).MaxAsync(s => (DateOnly?)s.ObservedOn,
            cancel);
    }

    /// <summary>The light and moisture most of a block's yards have, by block index: the ground that suggestions are made for.</summary>
    public async Task<IReadOnlyDictionary<int, GrowingSite>> GroundAsync(CurrentUser currentUser, CancellationToken cancel = default)
    {
        var loaded = await live.LoadedAsync(cancel);
        await using var db = await database.CreateDbContextAsync(cancel);
        var yards = await db.Yards.Select(y => new { y.Id, y.BlockId, y.Light, y.Moisture }).ToListAsync(cancel);
        bool Counts(long yard) => currentUser.MayOrganise || (loaded.Matrix.PositionOf(yard) is { } at && loaded.Matrix.Yards[at].Shared);
        return yards.Where(y => Counts(y.Id) && loaded.BlockIndex.ContainsKey(y.BlockId)).GroupBy(y => loaded.BlockIndex[y.BlockId])
            .ToDictionary(g => g.Key, g => new GrowingSite(
            g.Where(y => y.Light is not null).GroupBy(y => y.Light).OrderByDescending(l => l.Count()).FirstOrDefault()?.Key,
            g.Where(y => y.Moisture is not null).GroupBy(y => y.Moisture).OrderByDescending(m => m.Count()).FirstOrDefault()?.Key,
            TallestMetres: 1.5));
    }

    /// <summary>The ground most yards of a street have; the blocks' grounds of <see cref="GroundAsync"/>, each counted once.</summary>
    public static GrowingSite GroundOfStreet(Figures figures, int street, IReadOnlyDictionary<int, GrowingSite> ground)
    {
        var blocks = figures.Matrix.BlocksOfStreet(street).Where(ground.ContainsKey).Select(b => ground[b]).ToList();
        return new(
            blocks.Where(b => b.Light is not null).GroupBy(b => b.Light).OrderByDescending(l => l.Count()).FirstOrDefault()?.Key,
            blocks.Where(b => b.Moisture is not null).GroupBy(b => b.Moisture).OrderByDescending(m => m.Count()).FirstOrDefault()?.Key,
            TallestMetres: 1.5);
    }

    /// <summary>Plants that, one after the other, close a block's gaps on its usual ground.</summary>
    public static IReadOnlyList<GapSuggestion> Suggestions(Figures figures, int block, GrowingSite ground, int count, ForageIndex forage)
    {
        var matrix = figures.Matrix;
        var present = CommunityMeasures.CommunityOfBlock(matrix, block).Taxa.Select(t => matrix.Taxa[t.Taxon].ScientificName)
            .ToHashSet(StringComparer.Ordinal);
        return GapSuggestions.For(matrix.Taxa, present, Figures.InFlower(figures.Blocks[block]), figures.Season, ground, Nearby(matrix),
            count, forage);
    }

    public static IReadOnlyDictionary<string, int> Nearby(CommunityMatrix matrix) =>
        matrix.Yards.SelectMany(y => y.Presences).GroupBy(p => p.Taxon).ToDictionary(g => matrix.Taxa[g.Key].ScientificName,
            g => g.Count(), StringComparer.Ordinal);

    private static BlockShapeOnMap Shape(int block, string geometry)
    {
        using var document = JsonDocument.Parse(geometry);
        var coordinates = document.RootElement.GetProperty("coordinates");
        var closed = document.RootElement.GetProperty("type").GetString() == "Polygon";
        var points = (closed ? coordinates[0] : coordinates).EnumerateArray().Select(p => (p[0].GetDouble(), p[1].GetDouble())).ToList();
        return new BlockShapeOnMap(block, closed, points);
    }
}
