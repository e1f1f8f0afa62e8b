using CommonGround.Interchange.GeoJson;
using CommonGround.Interchange.MapFiles;
using CommonGround.Web.Hosting;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Streets;

/// <summary>A map file that somebody brought, and how they want it read.</summary>
public sealed class MapFileChoice
{
    /// <summary>Blocks taken from one file: a neighbourhood, not a town.</summary>
    public const int MostBlocks = 2000;

    private static readonly Lazy<MapProjections> Projections = new(() =>
    {
        using var table = File.OpenText(Path.Combine(SiteOptions.SeedFolder, "projections.csv"));
        return MapProjections.Read(table);
    });

    private readonly MapFile brought;
    private readonly GeoPoint? near;
    private MapPlacing placing;
    private PlaneSystem? own;
    private List<(BroughtBlock Block, double Metres)>? placed;

    public MapFileChoice(MapFile file, GeoPoint? near)
    {
        ArgumentNullException.ThrowIfNull(file);
        (brought, this.near) = (file, near);
        Layer = file.Layers.OrderByDescending(l => l.ColumnLike(MapFile.StreetWords) is not null).ThenByDescending(l => l.Features.Count)
            .First();
        placing = Begin();
    }

    public string FileName => brought.FileName;
    public IReadOnlyList<MapLayer> Layers => brought.Layers;
    public MapLayer Layer { get; private set; }
    public int? StreetColumn { get; private set; }
    public int? BlockColumn { get; private set; }
    public MapPlacing Placing => placing;

    /// <summary>The system the file describes itself, where it does.</summary>
    public PlaneSystem? Own => own;

    /// <summary>Every system that can be chosen, likely ones first.</summary>
    public static IReadOnlyList<PlaneSystem> Systems => Projections.Value.Known;

    /// <summary>Only what lies within so many kilometres of the group's place; null takes all.</summary>
    public double? WithinKilometres { get; set; } = 1;

    public bool KnowsPlace => near is not null;

    /// <summary>The blocks to take: named, placed and near enough.</summary>
    public IReadOnlyList<BroughtBlock> Blocks =>
        [.. Placed().Where(b => b.Block.Street.Length > 0 && IsNear(b.Metres)).Select(b => b.Block)];

    /// <summary>What is left out, in words; empty where nothing is.</summary>
    public string LeftOut
    {
        get
        {
            var (all, close) = (Placed(), Placed().FindAll(b => IsNear(b.Metres)));
            var unnamed = close.Count(b => b.Block.Street.Length == 0);
            string[] said =
            [
                Said(Layer.Features.Count - all.Count, "line without a place on the earth", "lines without a place on the earth"),
                Said(all.Count - close.Count, "line further off", "lines further off"),
                Said(unnamed, "line without a street’s name", "lines without a street’s name"),
                Said(Layer.LeftOut, "point or empty shape", "points and empty shapes"),
            ];
            return string.Join(", ", said.Where(s => s.Length > 0));
        }
    }

    public void ChooseLayer(string name)
    {
        Layer = brought.Layers.First(l => l.Name == name);
        placing = Begin();
    }

    public void ChooseColumns(int? street, int? block) => (StreetColumn, BlockColumn, placed) = (street, block, null);

    /// <summary>Reads the numbers otherwise than was thought.</summary>
    public void ChooseSystem(PlacingKind kind, int code)
    {
        var system = kind == PlacingKind.Plane ? Systems.FirstOrDefault(s => s.Code == code) ?? own : null;
        placing = placing with { Kind = kind, System = system };
        placed = null;
    }

    private MapPlacing Begin()
    {
        (StreetColumn, BlockColumn, placed) = (Layer.ColumnLike(MapFile.StreetWords), Layer.ColumnLike(MapFile.BlockWords), null);
        BlockColumn = BlockColumn == StreetColumn ? null : BlockColumn;
        var read = MapPlacing.Of(Layer, Projections.Value, near);
        own = read.System;
        return read;
    }

    private bool IsNear(double metres) => WithinKilometres is not { } most || near is null || metres <= most * 1000;

    private List<(BroughtBlock Block, double Metres)> Placed()
    {
        if (placed is not null)
        {
            return placed;
        }

        var way = placing.Way();
        placed = [];
        foreach (var feature in Layer.Features)
        {
            var points = feature.Points.Select(way).ToList();
            if (points.TrueForAll(p => p is { Latitude: >= 0 }))
            {
                List<GeoPoint> line = [.. points.Select(p => p!.Value)];
                placed.Add((new BroughtBlock(Name(feature, StreetColumn), Name(feature, BlockColumn), feature.Closed, line),
                    near is { } here ? line.Min(p => DrawnLines.Metres(here, p)) : 0));
            }
        }

        return placed;
    }

    private static string Said(int count, string one, string many) => count > 0 ? Words.Count(count, one, many) : "";

    private static string Name(MapFeature feature, int? column) => column is { } at ? feature.Values[at] : "";
}
