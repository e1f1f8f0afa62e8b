using System.Text.Json;
using CommonGround.Interchange.GeoJson;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Streets;

/// <summary>Reads the stored streets, blocks and yards as a drawing. It holds exact places, so only organisers get one.</summary>
public sealed class DrawingQueries(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood)
{
    /// <summary>Ends of blocks within so many metres are one crossing.</summary>
    private const double SameCrossingMetres = 3;

    /// <summary>The middle of the group's place, where nothing is drawn yet; null where the group has not said where it is.</summary>
    public GeoPoint? Place => neighbourhood.Locality is { } place ? new GeoPoint(place.Latitude, place.Longitude) : null;

    public async Task<DrawnGround> LoadAsync(CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        if (!currentUser.MayOrganise)
        {
            return DrawnGround.Empty;
        }

        await using var db = await database.CreateDbContextAsync(cancel);
        var streets = await db.Streets.AsNoTracking().OrderBy(s => s.Name).ToListAsync(cancel);
        var blocks = await db.Blocks.AsNoTracking().OrderBy(b => b.Id).ToListAsync(cancel);
        var yards = await db.Yards.AsNoTracking().OrderBy(y => y.Code)
            .Select(y => new { y.Id, y.BlockId, y.Code, y.Latitude, y.Longitude }).ToListAsync(cancel);
        var crossings = new List<DrawnCrossing>();
        var drawn = blocks.ConvertAll(b => Drawn(b, crossings));
        return new DrawnGround(crossings, streets.ConvertAll(s => new DrawnStreet(s.Id, s.Name, s.Name)), drawn,
            [.. yards.Select(y => new DrawnYard(y.Id, y.BlockId, y.Code, new(y.Latitude, y.Longitude), null))
                .Select(y => y with { Began = y.Told })],
            [.. streets.Select(s => s.Id), .. blocks.Select(b => b.Id), .. yards.Select(y => y.Id)], new Dictionary<long, long>());
    }

    /// <summary>What of a block the drawing may alter, to see whether somebody else altered it since.</summary>
    internal static string Told(StreetBlock block) => $"{block.StreetId}|{block.Name}|{block.Geometry}";

    private static DrawnBlock Drawn(StreetBlock block, List<DrawnCrossing> crossings)
    {
        GeoPoint? middle = block is { MiddleLatitude: { } north, MiddleLongitude: { } east } ? new GeoPoint(north, east) : null;
        var line = block.Geometry is null ? null : LineIn(block.Geometry);
        if (line is null)
        {
            return new DrawnBlock(block.Id, block.StreetId, block.Name, null, null, [], block.Geometry, middle, Told(block));
        }

        var ends = block.Name.Split(" to ", 2, StringSplitOptions.TrimEntries);
        var (from, to) = (CrossingAt(line[0], ends.Length == 2 ? ends[0] : "", crossings),
            CrossingAt(line[^1], ends.Length == 2 ? ends[1] : "", crossings));
        List<GeoPoint> between = [.. line.Skip(1).SkipLast(1)];
        return new DrawnBlock(block.Id, block.StreetId, block.Name, from.Id, to.Id, between, block.Geometry, middle, Told(block),
            GeoJsonText.Geometry(GeoShape.Line([from.At, .. between, to.At])));
    }

    private static DrawnCrossing CrossingAt(GeoPoint at, string name, List<DrawnCrossing> crossings)
    {
        if (crossings.Find(c => DrawnLines.Metres(c.At, at) <= SameCrossingMetres) is { } known)
        {
            return known;
        }

        // Crossings are not rows. Their number comes of their place, so that it is the same when the page is loaded again; below zero, so
        // that it is nobody else's.
        var number = -1 - (HashOf(BitConverter.DoubleToInt64Bits(at.Latitude), BitConverter.DoubleToInt64Bits(at.Longitude)) >>> 1);
        crossings.Add(new DrawnCrossing(number, at, name));
        return crossings[^1];
    }

    /// <summary>Mixes two numbers (the finaliser of SplitMix64: Steele, Lea and Flood 2014).</summary>
    private static long HashOf(long a, long b)
    {
        var z = unchecked((ulong)a + (0x9E3779B97F4A7C15UL * (ulong)b));
        z = unchecked((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL);
        z = unchecked((z ^ (z >> 27)) * 0x94D049BB133111EBUL);
        return unchecked((long)(z ^ (z >> 31)));
    }

    /// <summary>The positions of a stored line; null for an outline.</summary>
    private static List<GeoPoint>? LineIn(string geometry)
    {
        using var document = JsonDocument.Parse(geometry);
        return document.RootElement.GetProperty("type").GetString() != "LineString" ? null
            : [.. document.RootElement.GetProperty("coordinates").EnumerateArray()
                .Select(p => new GeoPoint(p[1].GetDouble(), p[0].GetDouble()))];
    }
}
