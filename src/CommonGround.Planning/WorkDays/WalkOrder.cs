using CommonGround.Planning.Walking;

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
        var metres = new double[places.Length, places.Length];
        for (var i = 0; i < places.Length; i++)
        {
            for (var j = 0; j < places.Length; j++)
            {
                metres[i, j] = asked.MetresBetween[places[i]][places[j]];
            }
        }

        var way = ShortestWalk.Through(metres, MostExact, begin?.Select(p => Array.IndexOf(places, p)).ToArray());
        return ([.. way.SelectMany(at => chosen.Where(c => asked.Cases[c].Place == places[at]).OrderByDescending(c
            => asked.Cases[c].PressureRemoved))],
            ShortestWalk.Length(metres, way));
    }
}
