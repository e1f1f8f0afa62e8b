namespace CommonGround.Planning.Walking;

/// <summary>The shortest walk through places, begun and ended anywhere.</summary>
/// <remarks>Dynamic programming over subsets where the places are few (Held and Karp 1962, J. SIAM 10:196–210); more begin with a known
/// walk or the nearest next place and are mended by turning stretches round (2-opt, Croes 1958), which may stay some percent
/// longer.</remarks>
internal static class ShortestWalk
{
    /// <summary>Every place once, in the order of the walk.</summary>
    /// <param name="metres">Place × place, symmetric.</param>
    /// <param name="mostExact">Places up to which the shortest is found exactly; time and memory double with each.</param>
    /// <param name="begin">A walk that is known, of all places, to be mended where there are more.</param>
    public static int[] Through(double[,] metres, int mostExact, int[]? begin = null)
    {
        var n = metres.GetLength(0);
        return n == 0 ? [] : n <= mostExact ? Exact(metres, n) : Mended(metres, begin?.Length == n ? begin : Nearest(metres, n));
    }

    /// <summary>Length of a walk, m.</summary>
    public static double Length(double[,] metres, IReadOnlyList<int> walk) => walk.Zip(walk.Skip(1), (a, b) => metres[a, b]).Sum();

    private static int[] Exact(double[,] metres, int n)
    {
        var (best, before) = (new double[1 << n, n], new int[1 << n, n]);
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
                for (var from = 0; from < n; from++)
                {
                    if ((rest >> from & 1) == 1 && best[rest, from] + metres[from, last] is var way && way < best[set, last])
                    {
                        (best[set, last], before[set, last]) = (way, from);
                    }
                }
            }
        }

        var all = (1 << n) - 1;
        var walk = new int[n];
        var at = Enumerable.Range(0, n).MinBy(last => best[all, last]);
        for (var i = n - 1; i >= 0; i--)
        {
            walk[i] = at;
            (all, at) = (all & ~(1 << at), before[all, at]);
        }

        return walk;
    }

    private static int[] Nearest(double[,] metres, int n)
    {
        var left = Enumerable.Range(1, n - 1).ToList();
        List<int> walk = [0];
        while (left.Count > 0)
        {
            var next = left.MinBy(p => metres[walk[^1], p]);
            walk.Add(next);
            left.Remove(next);
        }

        return [.. walk];
    }

    private static int[] Mended(double[,] metres, int[] begin)
    {
        int[] walk = [.. begin];
        for (var better = true; better;)
        {
            better = false;
            for (var from = 0; from < walk.Length - 1; from++)
            {
                for (var to = from + 1; to < walk.Length; to++)
                {
                    var now = (from > 0 ? metres[walk[from - 1], walk[from]] : 0)
                        + (to < walk.Length - 1 ? metres[walk[to], walk[to + 1]] : 0);
                    var turned = (from > 0 ? metres[walk[from - 1], walk[to]] : 0)
                        + (to < walk.Length - 1 ? metres[walk[from], walk[to + 1]] : 0);
                    if (turned < now - 1e-9)
                    {
                        Array.Reverse(walk, from, to - from + 1);
                        better = true;
                    }
                }
            }
        }

        return walk;
    }
}
