namespace CommonGround.Planning.WorkDays;

/// <summary>The shortest walk through places that are already chosen, begun and ended anywhere.</summary>
/// <remarks>Held and Karp (1962), J. SIAM 10:196–210, up to 13 places; from there on the nearest next place, mended by turning stretches
/// round (2-opt, Croes 1958).</remarks>
public static class WalkOrder
{
    private const int MostExact = 13;

    /// <summary>Chosen cases in the order of the walk, and its length, m.</summary>
    /// <param name="begin">A walk that is known, of all places chosen: where there are too many to try all, it is mended.</param>
    public static (IReadOnlyList<int> Order, double Metres) Of(WorkDayAsked asked, IReadOnlyList<int> chosen,
        IReadOnlyList<int>? begin = null)
    {
        ArgumentNullException.ThrowIfNull(asked);
        ArgumentNullException.ThrowIfNull(chosen);
        var places = chosen.Select(c => asked.Cases[c].Place).Distinct().Order().ToArray();
        if (places.Length == 0)
        {
            return ([], 0);
        }

        var way = places.Length <= MostExact ? Exact(asked.MetresBetween, places) : Mended(asked.MetresBetween,
            begin?.Count == places.Length ? [.. begin] : Nearest(asked.MetresBetween, places));
        return ([.. way.SelectMany(p => chosen.Where(c => asked.Cases[c].Place == p).OrderByDescending(c
            => asked.Cases[c].PressureRemoved))],
            Length(asked.MetresBetween, way));
    }

    private static double Length(IReadOnlyList<IReadOnlyList<double>> metres, int[] way) =>
        way.Zip(way.Skip(1), (a, b) => metres[a][b]).Sum();

    private static int[] Exact(IReadOnlyList<IReadOnlyList<double>> metres, int[] places)
    {
        var n = places.Length;
        var best = new double[1 << n, n];
        var before = new int[1 << n, n];
        for (var set = 1; set < 1 << n; set++)
        {
            for (var last = 0; last < n; last++)
            {
                if ((set >> last & 1) == 0)
                {
                    continue;
                }

                var rest = set & ~(1 << last);
                (best[set, last], before[set, last]) = (rest == 0 ? 0 : double.PositiveInfinity, -1);
                for (var previous = 0; previous < n; previous++)
                {
                    if ((rest >> previous & 1) == 1 && best[rest, previous] + metres[places[previous]][places[last]] is var way
                        && way < best[set, last])
                    {
                        (best[set, last], before[set, last]) = (way, previous);
                    }
                }
            }
        }

        var all = (1 << n) - 1;
        var at = Enumerable.Range(0, n).MinBy(last => best[all, last]);
        var order = new int[n];
        for (var i = n - 1; i >= 0; i--)
        {
            order[i] = places[at];
            (all, at) = (all & ~(1 << at), before[all, at]);
        }

        return order;
    }

    private static int[] Nearest(IReadOnlyList<IReadOnlyList<double>> metres, int[] places)
    {
        var left = places.ToList();
        var way = new List<int> { left[0] };
        left.RemoveAt(0);
        while (left.Count > 0)
        {
            var next = left.MinBy(p => metres[way[^1]][p]);
            way.Add(next);
            left.Remove(next);
        }

        return [.. way];
    }

    private static int[] Mended(IReadOnlyList<IReadOnlyList<double>> metres, int[] order)
    {
        for (var better = true; better;)
        {
            better = false;
            for (var from = 0; from < order.Length - 1; from++)
            {
                for (var to = from + 1; to < order.Length; to++)
                {
                    var now = (from > 0 ? metres[order[from - 1]][order[from]] : 0)
                        + (to < order.Length - 1 ? metres[order[to]][order[to + 1]] : 0);
                    var turned = (from > 0 ? metres[order[from - 1]][order[to]] : 0)
                        + (to < order.Length - 1 ? metres[order[from]][order[to + 1]] : 0);
                    if (turned < now - 1e-9)
                    {
                        Array.Reverse(order, from, to - from + 1);
                        better = true;
                    }
                }
            }
        }

        return order;
    }
}
