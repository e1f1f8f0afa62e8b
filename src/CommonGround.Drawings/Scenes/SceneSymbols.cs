using System.Globalization;
using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Scenes;

/// <summary>Three individuals of each plant are drawn once and used again; each use has its own size, lean and side, the same in every
/// season.</summary>
internal sealed class SceneSymbols(int half, int year, double pxPerCm)
{
    /// <summary>So small that two individuals of a kind are enough, or one.</summary>
    private readonly int individuals = pxPerCm < .5 ? 1 : pxPerCm < .6 ? 2 : 3;

    private const int MostFlorets = 120;

    private readonly SortedDictionary<string, IReadOnlyList<Stroke>> all = new(StringComparer.Ordinal);
    private readonly Dictionary<Likeness, int> numbers = [];

    public IReadOnlyDictionary<string, IReadOnlyList<Stroke>> All => all;

    public Placed Place(Spot spot, P2 foot, int distance)
    {
        var own = new Chance("use " + spot.Individual);
        var which = own.I(0, 5) % individuals;
        var (scale, lean, mirrored) = (own.R(.95, 1.05), own.N() * .035, own.Is(.5));
        if (!numbers.TryGetValue(spot.Plant, out var number))
        {
            numbers[spot.Plant] = number = numbers.Count;
        }

        var key = string.Create(CultureInfo.InvariantCulture, $"p{number}-{which}");
        if (!all.ContainsKey(key))
        {
            var strokes = spot.Plant.Draw(half, year, "scene" + which, pxPerCm, individuals < 3 ? .35 : .5);
            all[key] = individuals == 1 ? Thinned(strokes) : strokes;
        }

        return new Placed(key, foot.X, foot.Y, scale, lean, mirrored, individuals < 3 ? Math.Min(distance, 1) : distance);
    }

    /// <summary>A picture of a hand's width needs no thousand florets: of many every n-th stays, so much larger that the colour covers as
    /// much.</summary>
    private static IReadOnlyList<Stroke> Thinned(IReadOnlyList<Stroke> strokes)
    {
        static bool IsFloret(Stroke s) => s.Ink.StartsWith("f-", StringComparison.Ordinal);
        var every = (int)Math.Ceiling(strokes.Count(IsFloret) / (double)MostFlorets);
        if (every < 2)
        {
            return strokes;
        }

        var (kept, at) = (new List<Stroke>(), 0);
        foreach (var stroke in strokes)
        {
            if (!IsFloret(stroke))
            {
                kept.Add(stroke);
            }
            else if (at++ % every == 0)
            {
                kept.Add(stroke with { Radius = stroke.Radius * Math.Sqrt(every) });
            }
        }

        return kept;
    }
}
