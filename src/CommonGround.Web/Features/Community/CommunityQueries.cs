using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Publishing;
using CommonGround.Web.Features.Plants;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Community;

/// <summary>Builds the community matrix: the one way from stored sightings and infestations to measures.</summary>
public sealed class CommunityQueries(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood)
{
    /// <summary>Number of the newest change.</summary>
    public Task<long> StampAsync(CancellationToken cancel = default) => ChangeStamps.ReadAsync(database, cancel);

    /// <summary>The whole matrix as of a day, all of it read as of one moment.</summary>
    public async Task<LoadedCommunity> LoadAsync(DateOnly asOf, CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        await using var reading = await db.BeginReadingAsync(cancel);
        var id = neighbourhood.Id;
        var stamp = await ChangeStamps.ReadAsync(db, cancel);
        var rules = GroupRules.Read(await db.Neighbourhoods.Where(n => n.Id == id).Select(n => n.Settings).SingleAsync(cancel));
        var taxa = await db.Taxa.AsNoTracking().OrderBy(t => t.Id).ToListAsync(cancel);
        var streets = await db.Streets.OrderBy(s => s.Name).Select(s => new StreetSite(s.Id, s.Name)).ToListAsync(cancel);
        var streetIndex = Index(streets.Select(s => s.StreetId));
        var blocks = await db.Blocks.OrderBy(b => b.Id)
            .Select(b => new BlockPlace(b.Id, b.StreetId, b.Name, b.MiddleLatitude, b.MiddleLongitude)).ToListAsync(cancel);
        var yards = await db.Yards.OrderBy(y => y.Id)
            .Select(y => new YardPlace(y.Id, y.BlockId, y.Latitude, y.Longitude, y.Shared)).ToListAsync(cancel);
        var shown = await PublicSets.ShownAsync(db, yards.Where(y => y.Shared).Select(y => (y.BlockId, y.Id)), cancel);
        yards = yards.ConvertAll(y => y with { Shared = shown.Contains(y.Id) });
        var yardIndex = Index(yards.Select(y => y.Id));
        var middles = Middles(blocks, yards);
        // A block that has neither a shape nor a yard lies nowhere: it takes no part.
        blocks.RemoveAll(b => !middles.ContainsKey(b.Id));
        var blockIndex = Index(blocks.Select(b => b.Id));
        var taxonIndex = taxa.Select((t, i) => (t.Id, i)).ToDictionary(p => p.Id, p => p.i);

        var (seen, count) = await SightingsAsync(db.Sightings.AsNoTracking().Where(s => s.ObservedOn <= asOf), cancel);
        var infestations = await InfestationsAsync(db, asOf, null, cancel);
        var (traits, dates) = await GroupBloom.MovedAsync(db, taxa, await GroupTraits.OfAsync(db, taxa, cancel), rules, shown, asOf,
            cancel);
        var rows = new YardRows(yards, yardIndex, blockIndex, taxonIndex,
            StillPresent.Of(traits, asOf, rules)).Build(seen.AsSpan(0, count), infestations);
        var sites = blocks.ConvertAll(b => new BlockSite(b.Id, b.Name, streetIndex[b.StreetId], middles[b.Id].Latitude,
            middles[b.Id].Longitude));
        var unwanted = infestations.FindAll(i => i.YardId is not null || blockIndex.ContainsKey(i.BlockId))
            .ConvertAll(i => Place(i, yards, yardIndex, sites, blockIndex, taxonIndex));
        return new LoadedCommunity(new CommunityMatrix(asOf, traits, streets, sites, rows, unwanted), blockIndex, taxonIndex,
            new Lazy<NameIndex>(() => new NameIndex(traits)), rules)
        {
            PublicBlocks = PublicBlocks(blocks, sites, yards),
            Stamp = stamp,
            Dates = dates,
        };
    }

    /// <summary>The community with the yards read again that were recorded in since; null where more changed than plantings, and all must
    /// be read.</summary>
    public async Task<LoadedCommunity?> FollowAsync(LoadedCommunity held, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(held);
        await using var db = await database.CreateDbContextAsync(cancel);
        await using var reading = await db.BeginReadingAsync(cancel);
        var stamp = await ChangeStamps.ReadAsync(db, cancel);
        // Where own records date the bloom, one more of them may move it everywhere.
        if (held.Rules.OwnBloom || await ChangedYards.SinceAsync(db, held.Stamp, stamp, cancel) is not { } changed)
        {
            return null;
        }

        var matrix = held.Matrix;
        foreach (var yardId in changed)
        {
            if (matrix.PositionOf(yardId) is null || await LoadYardAsync(db, held, yardId, cancel) is not { } row)
            {
                return null;
            }

            matrix = matrix.With(row);
        }

        return held with { Matrix = matrix, Stamp = stamp };
    }

    /// <summary>One yard's row, to put in place of the old one.</summary>
    internal async Task<YardCommunity?> LoadYardAsync(CommonGroundDb db, LoadedCommunity community, long yardId, CancellationToken cancel)
    {
        var id = neighbourhood.Id;
        var asOf = community.Matrix.AsOf;
        var yard = await db.Yards.Where(y => y.Id == yardId)
            .Select(y => new YardPlace(y.Id, y.BlockId, y.Latitude, y.Longitude, y.Shared)).ToListAsync(cancel);
        if (yard.Count == 0 || !community.BlockIndex.ContainsKey(yard[0].BlockId))
        {
            return null;
        }

        var (seen, count) = await SightingsAsync(db.Sightings.AsNoTracking().Where(s => s.YardId == yardId && s.ObservedOn <= asOf),
            cancel);
        var infestations = await InfestationsAsync(db, asOf, yardId, cancel);
        // Whether the public sees it counted is settled for the whole block at once, when the matrix is read.
        yard[0] = yard[0] with { Shared = community.Matrix.PositionOf(yardId) is { } at && community.Matrix.Yards[at].Shared };
        return new YardRows(yard, Index([yardId]), community.BlockIndex, community.TaxonIndex,
            StillPresent.Of(community.Matrix.Taxa, asOf, community.Rules)).Build(seen.AsSpan(0, count), infestations)[0];
    }

    private static async Task<(Seen[] Rows, int Count)> SightingsAsync(IQueryable<Storage.Plantings.Sighting> sightings,
        CancellationToken cancel)
    {
        var rows = new Seen[256];
        var count = 0;
        // Looked for and not found ends nothing: what was known before stands.
        var query = sightings.Where(s => s.Finding != Finding.NotFound)
            .Select(s => new Seen(s.YardId, s.BedId, s.TaxonId, s.Patch, s.ObservedOn, s.CoverSquareMetres,
            s.Certainty == Certainty.Tentative));
        await foreach (var row in query.AsAsyncEnumerable().WithCancellation(cancel))
        {
            if (count == rows.Length)
            {
                Array.Resize(ref rows, count * 2);
            }

            rows[count++] = row;
        }

        return (rows, count);
    }

    private static async Task<List<Unwanted>> InfestationsAsync(CommonGroundDb db, DateOnly asOf, long? yardId, CancellationToken cancel)
    {
        var query = db.Infestations.Where(i => i.ObservedOn <= asOf);
        if (yardId is not null)
        {
            query = query.Where(i => i.YardId == yardId);
        }

        var all = await query.Select(i => new Unwanted(i.Id, i.BlockId, i.YardId, i.TaxonId, i.ObservedOn, i.AreaSquareMetres,
            i.CoverPercent / 100, i.GrowthStage)).ToListAsync(cancel);
        // The latest record of a place and taxon counts; area 0 closes it. A yard is the same place whichever block it was on then.
        return [.. all.GroupBy(i => (Block: i.YardId is null ? i.BlockId : 0, i.YardId, i.TaxonId))
            .Select(g => g.OrderBy(i => i.ObservedOn).ThenBy(i => i.Id).Last())
            .Where(i => i.Area > 0)
            .OrderBy(i => i.Id)];
    }

    private static Infestation Place(Unwanted i, List<YardPlace> yards, Dictionary<long, int> yardIndex, List<BlockSite> blocks,
        Dictionary<long, int> blockIndex, Dictionary<int, int> taxonIndex)
    {
        if (i.YardId is { } id)
        {
            var yard = yards[yardIndex[id]];
            return new Infestation(taxonIndex[i.TaxonId], yard.Latitude, yard.Longitude, i.Area, i.Cover, i.Stage, id,
                blockIndex[yard.BlockId]);
        }

        var block = blockIndex[i.BlockId];
        return new Infestation(taxonIndex[i.TaxonId], blocks[block].Latitude, blocks[block].Longitude, i.Area, i.Cover, i.Stage, null,
            block);
    }

    /// <summary>A block's middle: of its geometry, else the mean of its yards' points; no entry where neither is known.</summary>
    private static Dictionary<long, (double Latitude, double Longitude)> Middles(List<BlockPlace> blocks, List<YardPlace> yards)
    {
        var means = yards.GroupBy(y => y.BlockId).ToDictionary(g => g.Key, g => (g.Average(y => y.Latitude), g.Average(y => y.Longitude)));
        foreach (var block in blocks)
        {
            if (block is { Latitude: { } latitude, Longitude: { } longitude })
            {
                means[block.Id] = (latitude, longitude);
            }
        }

        return means;
    }

    private static List<BlockSite> PublicBlocks(List<BlockPlace> blocks, List<BlockSite> sites, List<YardPlace> yards)
    {
        var shown = Middles(blocks, yards.FindAll(y => y.Shared));
        var drawn = blocks.Where(b => b.Latitude is not null).Select(b => b.Id).ToHashSet();
        double Told(long block, double degrees) => drawn.Contains(block) ? degrees : Math.Round(degrees, PublicView.MiddleDecimals);
        // One that the public sees nothing of has no place for it either.
        return sites.ConvertAll(s => shown.TryGetValue(s.BlockId, out var middle)
            ? s with { Latitude = Told(s.BlockId, middle.Latitude), Longitude = Told(s.BlockId, middle.Longitude) }
            : s with { Latitude = 0, Longitude = 0 });
    }

    private static Dictionary<long, int> Index(IEnumerable<long> ids) => ids.Select((id, i) => (id, i)).ToDictionary(p => p.id, p => p.i);

    private sealed record BlockPlace(long Id, long StreetId, string Name, double? Latitude, double? Longitude);
}

/// <summary>The matrix with the way from stored row numbers to its indices.</summary>
public sealed record LoadedCommunity(CommunityMatrix Matrix, IReadOnlyDictionary<long, int> BlockIndex,
    IReadOnlyDictionary<int, int> TaxonIndex, Lazy<NameIndex> NamesOnDemand, GroupRules Rules)
{
    /// <summary>Number of the newest change that is in it.</summary>
    public required long Stamp { get; init; }

    /// <summary>Blocks as the public may place them.</summary>
    public required IReadOnlyList<BlockSite> PublicBlocks { get; init; }

    /// <summary>What the dates of bloom rest on.</summary>
    public required BloomDates Dates { get; init; }

    public Figures Figures(bool sharedOnly)
    {
        var figures = Community.Figures.Of(Matrix, sharedOnly, Rules, PublicBlocks);
        figures.Dates = Dates;
        return figures;
    }

    /// <summary>Finds taxa by name, for as long as this catalogue stands.</summary>
    public NameIndex Names => NamesOnDemand.Value;
}

internal sealed record YardPlace(long Id, long BlockId, double Latitude, double Longitude, bool Shared);

internal sealed record Unwanted(long Id, long BlockId, long? YardId, int TaxonId, DateOnly ObservedOn, double Area, double Cover,
    int? Stage);

[System.Runtime.InteropServices.StructLayout(System.Runtime.InteropServices.LayoutKind.Auto)]
internal readonly record struct Seen(long YardId, long BedId, int TaxonId, string Patch, DateOnly ObservedOn, double Cover, bool Tentative);
