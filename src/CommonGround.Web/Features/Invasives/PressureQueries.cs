using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Sites;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Invasives;

/// <summary>A source, as organisers read it.</summary>
/// <param name="Place">Code of the yard, or the block's name.</param>
/// <param name="Share">Of the pressure at the place asked about, or of all blocks together.</param>
public sealed record SourceLine(Infestation Source, string Plant, string Place, string BlockName, CaseAt At, double Share, double? ShareLow,
    double? ShareHigh, double? Metres);

/// <summary>Where pressure comes from. It names yards, so it is for organisers alone; the public sees a block's pressure as
/// before.</summary>
public sealed class PressureQueries(Storage.NeighbourhoodDatabase database, LiveCommunity live)
{
    /// <summary>The sources of a block, the greatest share first; null where there is no such block.</summary>
    public async Task<IReadOnlyList<SourceLine>?> OfBlockAsync(long blockId, CurrentUser currentUser, CancellationToken cancel = default)
    {
        Require(currentUser);
        var loaded = await live.LoadedAsync(cancel);
        if (!loaded.BlockIndex.TryGetValue(blockId, out var block))
        {
            return null;
        }

        var matrix = loaded.Matrix;
        var codes = await CodesAsync(cancel);
        return [.. PressureShares.At(matrix, matrix.Blocks[block].Latitude, matrix.Blocks[block].Longitude, loaded.Rules.Pressure,
            ControlCalendar.Distance).Select(s => Line(matrix, codes, matrix.Infestations[s.Infestation], s.Share, s.ShareLow, s.ShareHigh,
            s.Metres))];
    }

    /// <summary>The sources of all blocks together, the greatest first.</summary>
    public async Task<IReadOnlyList<SourceLine>> OfAllAsync(CurrentUser currentUser, CancellationToken cancel = default)
    {
        Require(currentUser);
        var loaded = await live.LoadedAsync(cancel);
        var matrix = loaded.Matrix;
        var sent = new double[matrix.Infestations.Count];
        foreach (var block in matrix.Blocks)
        {
            foreach (var share in PressureShares.At(matrix, block.Latitude, block.Longitude, loaded.Rules.Pressure, _ => null))
            {
                sent[share.Infestation] += share.Pressure;
            }
        }

        var all = sent.Sum();
        var codes = await CodesAsync(cancel);
        return [.. sent.Index().Where(s => s.Item > 0).OrderByDescending(s => s.Item)
            .Select(s => Line(matrix, codes, matrix.Infestations[s.Index], s.Item / all, null, null, null))];
    }

    private async Task<Dictionary<long, string>> CodesAsync(CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Yards.ToDictionaryAsync(y => y.Id, y => y.Code, cancel);
    }

    private static SourceLine Line(CommunityMatrix matrix, Dictionary<long, string> codes, Infestation source, double share, double? low,
        double? high, double? metres)
    {
        var taxon = matrix.Taxa[source.Taxon];
        var code = source.YardId is { } yard ? codes.GetValueOrDefault(yard, "") : "";
        var block = source.Block < 0 ? "" :
            $"{matrix.Streets[matrix.Blocks[source.Block].Street].Name}, {matrix.Blocks[source.Block].Name}";
        return new(source, taxon.DisplayName, code.Length > 0 ? code : block, block,
            new(code, code.Length > 0 || source.Block < 0 ? 0 : matrix.Blocks[source.Block].BlockId, taxon.ScientificName), share, low,
                high,
            metres);
    }

    private static void Require(CurrentUser currentUser)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        if (!currentUser.MayOrganise)
        {
            throw new InvalidOperationException("Sources of pressure name yards: only organisers ask for them.");
        }
    }
}
