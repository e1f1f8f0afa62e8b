namespace CommonGround.Planning.Conversion;

/// <summary>The edge of a drift: its plugs' six-sided cells run together, corners cut, and nothing beyond the bed.</summary>
internal static class DriftOutline
{
    private const int Roundings = 2;

    public static IReadOnlyList<IReadOnlyList<PlanPoint>> Of(IReadOnlyList<GridCell> cells, PlugGrid grid, IReadOnlyList<PlanPoint> bed)
    {
        // Corners are named on the grid's own scale, so that two cells name the same corner alike.
        var edges = new HashSet<((int, int) From, (int, int) To)>();
        var places = new Dictionary<(int, int), PlanPoint>();
        foreach (var cell in cells)
        {
            var corners = Corners(cell, grid, places);
            for (var i = 0; i < 6; i++)
            {
                // An edge that two cells share runs both ways, and is none of the drift's.
                if (!edges.Remove((corners[(i + 1) % 6], corners[i]))) edges.Add((corners[i], corners[(i + 1) % 6]));
            }
        }

        var next = edges.ToDictionary(e => e.From, e => e.To);
        var loops = new List<IReadOnlyList<PlanPoint>>();
        while (next.Count > 0)
        {
            var loop = new List<PlanPoint>();
            for (var at = next.Keys.Min(); next.Remove(at, out var to); at = to)
            {
                loop.Add(places[at]);
            }

            IReadOnlyList<PlanPoint> edge = loop;
            for (var i = 0; i < Roundings; i++)
            {
                edge = Rounded(edge);
            }

            edge = Within(edge, bed);
            if (edge.Count > 2) loops.Add(edge);
        }

        return loops;
    }

    private static (int, int)[] Corners(GridCell cell, PlugGrid grid, Dictionary<(int, int), PlanPoint> places)
    {
        var middle = grid.At(cell);
        // East in half spacings, north in sixths of two rows: whole numbers at every corner.
        var (east, north) = ((2 * cell.Place) + (cell.Row % 2 == 0 ? 0 : 1), 3 * cell.Row);
        (int East, int North)[] around = [(1, 1), (0, 2), (-1, 1), (-1, -1), (0, -2), (1, -1)];
        return [.. around.Select(c =>
        {
            places[(east + c.East, north + c.North)] = new(middle.East + (c.East * grid.Spacing / 2),
                middle.North + (c.North * grid.Spacing * PlugGrid.RowShare / 3));
            return (east + c.East, north + c.North);
        })];
    }

    /// <summary>Each corner cut at a quarter of its edges; an edge that two drifts share is cut alike from both sides.</summary>
    private static List<PlanPoint> Rounded(IReadOnlyList<PlanPoint> loop)
    {
        var cut = new List<PlanPoint>(loop.Count * 2);
        for (var i = 0; i < loop.Count; i++)
        {
            var (a, b) = (loop[i], loop[(i + 1) % loop.Count]);
            cut.Add(new((0.75 * a.East) + (0.25 * b.East), (0.75 * a.North) + (0.25 * b.North)));
            cut.Add(new((0.25 * a.East) + (0.75 * b.East), (0.25 * a.North) + (0.75 * b.North)));
        }

        return cut;
    }

    /// <summary>What lies within a bed without re-entrant corners; other beds leave the edge as it is.</summary>
    private static IReadOnlyList<PlanPoint> Within(IReadOnlyList<PlanPoint> loop, IReadOnlyList<PlanPoint> bed)
    {
        double Turn(PlanPoint a, PlanPoint b, PlanPoint p) => ((b.East - a.East) * (p.North - a.North))
            - ((b.North - a.North) * (p.East - a.East));
        var turns = Enumerable.Range(0, bed.Count).Select(i => Turn(bed[i], bed[(i + 1) % bed.Count], bed[(i + 2) % bed.Count])).ToList();
        var way = turns.Exists(t => t > 1e-12) ? 1 : -1;
        if (turns.Exists(t => t * way < -1e-12)) return loop;
        var kept = loop;
        for (var i = 0; i < bed.Count; i++)
        {
            var (a, b) = (bed[i], bed[(i + 1) % bed.Count]);
            var from = kept;
            var cut = new List<PlanPoint>();
            for (var k = 0; k < from.Count; k++)
            {
                var (p, q) = (from[k], from[(k + 1) % from.Count]);
                var (one, two) = (way * Turn(a, b, p), way * Turn(a, b, q));
                if (one >= 0) cut.Add(p);
                if (one >= 0 != two >= 0)
                    cut.Add(new(p.East + ((q.East - p.East) * one / (one - two)), p.North + ((q.North - p.North) * one / (one - two))));
            }

            kept = cut;
        }

        return kept;
    }
}
