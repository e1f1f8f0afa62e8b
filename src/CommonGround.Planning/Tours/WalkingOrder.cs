namespace CommonGround.Planning.Tours;

/// <summary>In which order guests walk from stop to stop.</summary>
public static class WalkingOrder
{
    /// <summary>Stops up to which the shortest way is found exactly.</summary>
    public const int Exact = 11;

    private const double MetresPerDegree = 111_195; // mean earth radius 6,371.0088 km (IUGG)

    /// <summary>The order of stops whose way from first to last is shortest, as the crow flies; guests begin at either end.</summary>
    /// <param name="stops">Latitude and longitude, degrees. Any number.</param>
    /// <returns>Positions in <paramref name="stops"/>, each once. The end that lies further north comes first, so that the same stops
    /// always give the same order. Empty for no stops.</returns>
    /// <remarks>Up to <see cref="Exact"/> stops by dynamic programming over subsets (Held and Karp 1962); more begin with the nearest
    /// neighbour and are mended by reversing pieces (2-opt, Croes 1958), which may stay some percent longer than the shortest.</remarks>
    public static IReadOnlyList<int> Of(IReadOnlyList<(double Latitude, double Longitude)> stops)
    {
        ArgumentNullException.ThrowIfNull(stops);
        if (stops.Count < 2)
        {
            return [.. Enumerable.Range(0, stops.Count)];
        }

        var metres = Metres(stops);
        var way = stops.Count <= Exact ? Shortest(metres, stops.Count) : Mended(metres, stops.Count);
        return stops[way[0]].Latitude >= stops[way[^1]].Latitude ? way : [.. way.Reverse()];
    }

    /// <summary>Length of a way, m.</summary>
    public static double Length(IReadOnlyList<(double Latitude, double Longitude)> stops, IReadOnlyList<int> way)
    {
        ArgumentNullException.ThrowIfNull(stops);
        ArgumentNullException.ThrowIfNull(way);
        var metres = Metres(stops);
        return Enumerable.Range(1, Math.Max(0, way.Count - 1)).Sum(i => metres[way[i - 1], way[i]]);
    }

    private static double[,] Metres(IReadOnlyList<(double Latitude, double Longitude)> stops)
    {
        var n = stops.Count;
        var metres = new double[n, n];
        var shrink = n == 0 ? 1 : Math.Cos(stops.Average(s => s.Latitude) * Math.PI / 180);
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                metres[i, j] = MetresPerDegree * Math.Sqrt(Math.Pow(stops[i].Latitude - stops[j].Latitude, 2)
                    + Math.Pow((stops[i].Longitude - stops[j].Longitude) * shrink, 2));
            }
        }

        return metres;
    }

    private static int[] Shortest(double[,] metres, int n)
    {
        var (best, before) = (new double[1 << n, n], new int[1 << n, n]);
        for (var set = 1; set < 1 << n; set++)
        {
            for (var last = 0; last < n; last++)
            {
                if ((set & (1 << last)) == 0)
                {
                    continue;
                }

                var rest = set & ~(1 << last);
                (best[set, last], before[set, last]) = (rest == 0 ? 0 : double.PositiveInfinity, -1);
                for (var from = 0; from < n; from++)
                {
                    if ((rest & (1 << from)) != 0 && best[rest, from] + metres[from, last] < best[set, last])
                    {
                        (best[set, last], before[set, last]) = (best[rest, from] + metres[from, last], from);
                    }
                }
            }
        }

        var all = (1 << n) - 1;
        var way = new int[n];
        var at = Enumerable.Range(0, n).MinBy(last => best[all, last]);
        for (var i = n - 1; i >= 0; i--)
        {
            way[i] = at;
            (all, at) = (all & ~(1 << at), before[all, at]);
        }

        return way;
    }

    private static int[] Mended(double[,] metres, int n)
    {
        var left = Enumerable.Range(1, n - 1).ToList();
        List<int> way = [0];
        while (left.Count > 0)
        {
            var next = left.MinBy(s => metres[way[^1], s]);
            way.Add(next);
            left.Remove(next);
        }

        double Step(int i, int j) => i < 0 || j >= n ? 0 : metres[way[i], way[j]];
        for (var better = true; better;)
        {
            better = false;
            for (var i = 0; i < n - 1; i++)
            {
                for (var j = i + 1; j < n; j++)
                {
                    var now = Step(i - 1, i) + Step(j, j + 1);
                    var then = (i == 0 ? 0 : metres[way[i - 1], way[j]]) + (j == n - 1 ? 0 : metres[way[i], way[j + 1]]);
                    if (then < now - 1e-9)
                    {
                        way.Reverse(i, j - i + 1);
                        better = true;
                    }
                }
            }
        }

        return [.. way];
    }
}
