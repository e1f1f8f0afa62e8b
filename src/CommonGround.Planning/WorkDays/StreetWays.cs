using CommonGround.Ecology.Sites;

namespace CommonGround.Planning.WorkDays;

/// <summary>A block's line: its crossings and its middle.</summary>
/// <param name="Points">Longitude and latitude from end to end; fewer than two where it has no shape.</param>
public sealed record StreetLine(IReadOnlyList<(double Longitude, double Latitude)> Points);

/// <summary>Ways along the streets between the middles of blocks, m.</summary>
public static class StreetWays
{
    /// <summary>Ends of lines that lie nearer than this are one crossing, m.</summary>
    private const double OneCrossing = 15;

    /// <summary>A way off the streets counts this much longer; our own convention.</summary>
    private const double Detour = 1.3;

    /// <summary>The shortest way between every two blocks.</summary>
    /// <param name="blocks">Middle of each and its line.</param>
    /// <returns>Metres, symmetric. Blocks whose lines do not meet, or that have none, are joined straight, 1.3 times as far.</returns>
    public static IReadOnlyList<IReadOnlyList<double>> Between(IReadOnlyList<(double Latitude, double Longitude, StreetLine Line)> blocks)
    {
        ArgumentNullException.ThrowIfNull(blocks);
        var crossings = new List<(double Longitude, double Latitude)>();
        var ends = blocks.Select(b => b.Line.Points.Count < 2 ? null : (int[]?)[At(crossings, b.Line.Points[0]), At(crossings,
            b.Line.Points[^1])])
            .ToList();
        var n = blocks.Count + crossings.Count;
        var metres = new double[n][];
        for (var i = 0; i < n; i++)
        {
            metres[i] = new double[n];
            Array.Fill(metres[i], double.PositiveInfinity);
            metres[i][i] = 0;
        }

        foreach (var (index, block) in blocks.Index().Where(b => ends[b.Index] is not null))
        {
            var half = block.Line.Points.Zip(block.Line.Points.Skip(1), Metres).Sum() / 2;
            foreach (var end in ends[index]!)
            {
                Join(index, blocks.Count + end, half);
            }
        }

        for (var over = 0; over < n; over++)
        {
            for (var from = 0; from < n; from++)
            {
                for (var to = 0; to < n && !double.IsInfinity(metres[from][over]); to++)
                {
                    metres[from][to] = Math.Min(metres[from][to], metres[from][over] + metres[over][to]);
                }
            }
        }

        return [.. Enumerable.Range(0, blocks.Count).Select(i => (IReadOnlyList<double>)[.. Enumerable.Range(0, blocks.Count)
            .Select(j => double.IsInfinity(metres[i][j]) ? Detour * GreatCircle.Metres(blocks[i].Latitude, blocks[i].Longitude,
            blocks[j].Latitude, blocks[j].Longitude) : metres[i][j])])];

        void Join(int a, int b, double way) => (metres[a][b], metres[b][a]) = (Math.Min(metres[a][b], way), Math.Min(metres[b][a], way));
    }

    private static int At(List<(double Longitude, double Latitude)> crossings, (double Longitude, double Latitude) point)
    {
        var known = crossings.FindIndex(c => Metres(c, point) < OneCrossing);
        if (known < 0)
        {
            crossings.Add(point);
        }

        return known < 0 ? crossings.Count - 1 : known;
    }

    private static double Metres((double Longitude, double Latitude) a, (double Longitude, double Latitude) b) =>
        GreatCircle.Metres(a.Latitude, a.Longitude, b.Latitude, b.Longitude);
}
