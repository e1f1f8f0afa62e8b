using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Photos;

/// <summary>A photo as a yard's page shows it.</summary>
public sealed record PhotoLine(long Id, string Caption, DateOnly TakenOn);

/// <summary>Reads photos, for those who may see them.</summary>
public sealed class PhotoQueries(NeighbourhoodDatabase database, LiveCommunity live)
{
    public const int OfABlock = 3;

    public const int OfATaxon = 12;

    /// <summary>All photos of a yard, newest first; none for those who may not see it.</summary>
    public async Task<IReadOnlyList<PhotoLine>> OfYardAsync(long yardId, CurrentUser currentUser, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var yard = await db.Yards.Where(y => y.Id == yardId).Select(y => new { y.OwnerId }).SingleOrDefaultAsync(cancel);
        return yard is null || !currentUser.MaySee(yard.OwnerId) ? []
            : await db.Photos.Where(p => p.YardId == yardId).OrderByDescending(p => p.TakenOn).ThenByDescending(p => p.Id)
                .Select(p => new PhotoLine(p.Id, p.Caption, p.TakenOn)).ToListAsync(cancel);
    }

    /// <summary>The photos of one planting, newest first; none for those who may not see its yard.</summary>
    public async Task<IReadOnlyList<PhotoLine>> OfPlantingAsync(long yardId, long bedId, int taxonId, string patch, CurrentUser currentUser,
        CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var yard = await db.Yards.Where(y => y.Id == yardId).Select(y => new { y.OwnerId }).SingleOrDefaultAsync(cancel);
        return yard is null || !currentUser.MaySee(yard.OwnerId) ? []
            : await db.Photos.Where(p => p.YardId == yardId && p.BedId == bedId && p.TaxonId == taxonId && p.Patch == patch)
                .OrderByDescending(p => p.TakenOn).ThenByDescending(p => p.Id)
                .Select(p => new PhotoLine(p.Id, p.Caption, p.TakenOn)).ToListAsync(cancel);
    }

    /// <summary>The newest photos of a plant in the yards that somebody may see.</summary>
    public async Task<IReadOnlyList<(PhotoLine Photo, string Yard)>> OfTaxonAsync(string name, CurrentUser currentUser,
        CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var yards = await db.Yards.Select(y => new { y.Id, y.Code, y.OwnerId }).ToListAsync(cancel);
        var mine = yards.Where(y => currentUser.MaySee(y.OwnerId)).ToDictionary(y => y.Id, y => y.Code);
        if (mine.Count == 0)
        {
            return [];
        }

        var photos = await db.Photos.Where(p => db.Taxa.Any(t => t.Id == p.TaxonId && t.ScientificName == name))
            .OrderByDescending(p => p.TakenOn).ThenByDescending(p => p.Id).Select(p => new { p.Id, p.Caption, p.TakenOn, p.YardId })
            .ToListAsync(cancel);
        return [.. photos.Where(p => mine.ContainsKey(p.YardId)).Take(OfATaxon)
            .Select(p => (new PhotoLine(p.Id, p.Caption, p.TakenOn), mine[p.YardId]))];
    }

    /// <summary>Up to three photos that households of a block show to everyone, one a yard while there are enough yards; none unless the
    /// public sees the block at all.</summary>
    /// <remarks>Captions stay behind, and the order is that of the files' random names: nothing tells whose they are.</remarks>
    public async Task<IReadOnlyList<(long Id, DateOnly TakenOn)>> OfBlockAsync(int block, CancellationToken cancel = default)
    {
        var seen = await live.FiguresAsync(organiser: false, cancel);
        if (!seen.Shown.Contains(block))
        {
            return [];
        }

        var blockId = (await live.LoadedAsync(cancel)).BlockIndex.Single(b => b.Value == block).Key;
        await using var db = await database.CreateDbContextAsync(cancel);
        var photos = await db.Photos.Where(p => db.Yards.Any(y => y.Id == p.YardId && y.BlockId == blockId && y.PhotosShared))
            .Select(p => new { p.Id, p.YardId, p.TakenOn, p.FileName }).ToListAsync(cancel);
        return [.. photos.GroupBy(p => p.YardId).SelectMany(g => g.OrderByDescending(p => p.TakenOn).ThenByDescending(p => p.Id).Index())
            .OrderBy(p => p.Index).ThenByDescending(p => p.Item.TakenOn).ThenBy(p => Random(p.Item.FileName), StringComparer.Ordinal)
            .Take(OfABlock)
            .OrderBy(p => Random(p.Item.FileName), StringComparer.Ordinal).Select(p => (p.Item.Id, p.Item.TakenOn))];
    }

    /// <summary>The file of a photo of this yard.</summary>
    public async Task<string?> FileOfYardAsync(string code, long id, CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Photos.Where(p => p.Id == id && db.Yards.Any(y => y.Id == p.YardId && y.Code == code)).Select(p => p.FileName)
            .SingleOrDefaultAsync(cancel);
    }

    /// <summary>The file of a photo that its household shows to everyone as of now.</summary>
    public async Task<string?> SharedFileAsync(long id, CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Photos.Where(p => p.Id == id && db.Yards.Any(y => y.Id == p.YardId && y.PhotosShared)).Select(p => p.FileName)
            .SingleOrDefaultAsync(cancel);
    }

    private static string Random(string fileName) => fileName[(fileName.IndexOf('/', StringComparison.Ordinal) + 1)..];
}
