namespace CommonGround.Planning.Conversion;

/// <summary>A place of the staggered grid: row from the kerb, place in the row.</summary>
internal readonly record struct GridCell(int Row, int Place);

/// <summary>Exactly as many places as there are plugs, all inside the bed, and a path through them from the kerb back.</summary>
internal sealed class PlugGrid
{
    /// <summary>Rows stand this share of the spacing apart: half the root of three.</summary>
    public const double RowShare = 0.8660254037844386;

    /// <summary>Plugs keep at least this share of the spacing from the edge.</summary>
    private const double EdgeShare = 0.22;

    /// <summary>A back row with this share of its places is as good as full; rather than less, plugs stand up to a seventh
    /// closer.</summary>
    private const double FullEnough = 0.5, Closer = 0.86;

    private readonly double west;
    private readonly double south;

    private PlugGrid(double spacing, double west, double south, IReadOnlyList<GridCell> cells)
    {
        Spacing = spacing;
        (this.west, this.south) = (west, south);
        var rows = cells.Select(c => c.Row).Distinct().Order().ToList();
        var deep = rows.Count <= 5 ? 2 : 3;
        // Three rows: an edging of the lowest, and two rows behind it.
        var band = rows.Index().ToDictionary(r => r.Item, r => rows.Count == 3 ? Math.Min(r.Index, 1)
            : Math.Min(r.Index / deep, Math.Max(0, (rows.Count / deep) - 1)));
        Path = [.. cells.OrderBy(c => band[c.Row]).ThenBy(c => band[c.Row] % 2 == 0 ? East(c) : -East(c)).ThenBy(c => c.Row)];
        Bands = [.. Path.GroupBy(c => band[c.Row]).OrderBy(g => g.Key).Select(g => g.Count())];
    }

    /// <summary>Metres from plug to plug.</summary>
    public double Spacing { get; }

    /// <summary>All places in the order in which drifts are dealt out: neighbours on the path are neighbours in the bed.</summary>
    public IReadOnlyList<GridCell> Path { get; }

    /// <summary>Places in each band of rows, from the kerb back.</summary>
    public IReadOnlyList<int> Bands { get; }

    public PlanPoint At(GridCell cell) => new(East(cell), south + (cell.Row * RowShare * Spacing));

    /// <param name="bed">Corners in order, either way round.</param>
    /// <param name="band">Depth from the kerb's side that may be planted, m; null for all.</param>
    /// <param name="count">Places wanted, 1 or more.</param>
    public static PlugGrid Of(IReadOnlyList<PlanPoint> bed, double? band, int count)
    {
        var area = Math.Min(Area(bed), band is { } deep ? deep * (bed.Max(p => p.East) - bed.Min(p => p.East)) : double.MaxValue);
        var spacing = 1.3 * Math.Sqrt(area / (RowShare * count));
        PlugGrid? first = null;
        while (true)
        {
            foreach (var (cells, west, south) in Shifts.Select(s => Places(bed, band, spacing, s.East, s.North))
                .Where(p => p.Cells.Count >= count))
            {
                var kept = Fewer(cells, count);
                var found = new PlugGrid(spacing, west, south, kept);
                // A back row of a plug or two looks lost: somewhat closer they find room in the rows before it.
                if (kept.Count(c => c.Row == kept[^1].Row) >= FullEnough * cells.Count(c => c.Row == kept[^1].Row)) return found;
                first ??= found;
            }

            if (first is not null && spacing < Closer * first.Spacing) return first;
            spacing *= 0.985;
        }
    }

    /// <summary>Whether a point lies inside, by the even–odd rule.</summary>
    internal static bool Inside(IReadOnlyList<PlanPoint> bed, double east, double north)
    {
        var inside = false;
        for (int i = 0, j = bed.Count - 1; i < bed.Count; j = i++)
        {
            var (a, b) = (bed[i], bed[j]);
            if (a.North > north != b.North > north && east < ((b.East - a.East) * (north - a.North) / (b.North - a.North)) + a.East)
                inside = !inside;
        }

        return inside;
    }

    /// <summary>Metres to the nearest edge.</summary>
    internal static double ToEdge(IReadOnlyList<PlanPoint> bed, double east, double north)
    {
        var least = double.MaxValue;
        for (int i = 0, j = bed.Count - 1; i < bed.Count; j = i++)
        {
            var (a, b) = (bed[i], bed[j]);
            var (dx, dy) = (b.East - a.East, b.North - a.North);
            var along = (dx * dx) + (dy * dy) is var square and > 0
                ? Math.Clamp((((east - a.East) * dx) + ((north - a.North) * dy)) / square, 0, 1) : 0;
            least = Math.Min(least, Math.Sqrt(Math.Pow(east - a.East - (along * dx), 2) + Math.Pow(north - a.North - (along * dy), 2)));
        }

        return least;
    }

    private static IEnumerable<(double East, double North)> Shifts => [(0, 0), (0.5, 0), (0.25, 0), (0.75, 0), (0, 0.5), (0.5, 0.5),
        (0.25, 0.5), (0.75, 0.5)];

    private double East(GridCell cell) => west + ((cell.Place + (cell.Row % 2 == 0 ? 0 : 0.5)) * Spacing);

    private static (List<GridCell> Cells, double West, double South) Places(IReadOnlyList<PlanPoint> bed, double? band, double spacing,
        double shiftEast, double shiftNorth)
    {
        var (left, right, low, high) = (bed.Min(p => p.East), bed.Max(p => p.East), bed.Min(p => p.North), bed.Max(p => p.North));
        var keep = EdgeShare * spacing;
        var (west, south) = (left + keep + (shiftEast * spacing) - spacing, low + keep + (shiftNorth * spacing * RowShare));
        var cells = new List<GridCell>();
        for (var row = 0; south + (row * RowShare * spacing) <= high; row++)
        {
            var north = south + (row * RowShare * spacing);
            for (var place = 0; west + (place * spacing) <= right; place++)
            {
                var east = west + ((place + (row % 2 == 0 ? 0 : 0.5)) * spacing);
                if (Inside(bed, east, north) && ToEdge(bed, east, north) >= keep - 1e-9
                    && (band is not { } deep || north - Kerb(bed, east) <= deep))
                    cells.Add(new(row, place));
            }
        }

        return (cells, west, south);
    }

    /// <summary>The surplus goes from both ends of the back row.</summary>
    private static List<GridCell> Fewer(List<GridCell> cells, int count)
    {
        double middle = cells.Average(c => c.Place);
        return [.. cells.OrderBy(c => c.Row).ThenBy(c => Math.Abs(c.Place - middle)).ThenBy(c => c.Place).Take(count)];
    }

    /// <summary>North of the kerb's side at one east: the lowest edge there.</summary>
    private static double Kerb(IReadOnlyList<PlanPoint> bed, double east)
    {
        var lowest = double.MaxValue;
        for (int i = 0, j = bed.Count - 1; i < bed.Count; j = i++)
        {
            var (a, b) = (bed[i], bed[j]);
            if (east < Math.Min(a.East, b.East) || east > Math.Max(a.East, b.East)) continue;
            lowest = Math.Min(lowest, a.East == b.East ? Math.Min(a.North, b.North)
                : a.North + ((b.North - a.North) * (east - a.East) / (b.East - a.East)));
        }

        return lowest;
    }

    private static double Area(IReadOnlyList<PlanPoint> bed)
    {
        var sum = 0.0;
        for (int i = 0, j = bed.Count - 1; i < bed.Count; j = i++)
        {
            sum += (bed[j].East * bed[i].North) - (bed[i].East * bed[j].North);
        }

        return Math.Abs(sum) / 2;
    }
}
