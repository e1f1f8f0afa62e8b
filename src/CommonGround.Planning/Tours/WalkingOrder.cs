using CommonGround.Ecology.Sites;
using CommonGround.Planning.Walking;

namespace CommonGround.Planning.Tours;

/// <summary>In which order guests walk from stop to stop.</summary>
public static class WalkingOrder
{
    /// <summary>Stops up to which the shortest way is found exactly.</summary>
    public const int Exact = 11;

    /// <summary>The order of stops whose way from first to last is shortest, as the crow flies; guests begin at either end.</summary>
    /// <param name="stops">Latitude and longitude, degrees. Any number.</param>
    /// <returns>Positions in <paramref name="stops"/>, each once. The end that lies further north comes first, so that the same stops
    /// always give the same order. Empty for no stops.</returns>
    /// <remarks>Up to <see cref="Exact"/> stops by dynamic programming over subsets (Held and Karp 1962); more begin with the nearest
    /// neighbour and are mended by reversing pieces (2-opt, Croes 1958), which may stay some percent longer than the shortest.</remarks>
    public static IReadOnlyList<int> Of(IReadOnlyList<(double Latitude, double Longitude)> stops)
    {
        ArgumentNullException.ThrowIfNull(stops);
        var way = ShortestWalk.Through(Metres(stops), Exact);
        return way.Length < 2 || stops[way[0]].Latitude >= stops[way[^1]].Latitude ? way : [.. way.Reverse()];
    }

    /// <summary>Length of a way, m.</summary>
    public static double Length(IReadOnlyList<(double Latitude, double Longitude)> stops, IReadOnlyList<int> way)
    {
        ArgumentNullException.ThrowIfNull(stops);
        ArgumentNullException.ThrowIfNull(way);
        return ShortestWalk.Length(Metres(stops), way);
    }

    private static double[,] Metres(IReadOnlyList<(double Latitude, double Longitude)> stops)
    {
        var metres = new double[stops.Count, stops.Count];
        foreach (var (i, from) in stops.Index())
        {
            foreach (var (j, to) in stops.Index())
            {
                metres[i, j] = GreatCircle.Metres(from.Latitude, from.Longitude, to.Latitude, to.Longitude);
            }
        }

        return metres;
    }
}
