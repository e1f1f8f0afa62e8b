using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Scenes;

/// <summary>The ground under a plant and the rule beside it.</summary>
internal static class Ground
{
    /// <summary>A broken line of soil round 0, 0.</summary>
    public static List<Stroke> Line(double halfPx, string seed)
    {
        var strokes = new List<Stroke>();
        var pen = new Pen(strokes, 0, 0, 1, "soil " + seed);
        var c = new Chance("soil " + seed);
        var lines = new List<IReadOnlyList<P2>>();
        for (var x = -halfPx; x < halfPx;)
        {
            var length = c.R(12, 46);
            var a = new P2(x, c.R(-.4, .6));
            lines.Add([a, a + new P2(length * .5, c.R(-.7, .7)), a + new P2(Math.Min(length, halfPx - x), 0)]);
            x += length + c.R(2, 9);
        }

        pen.Lines(lines);
        return strokes;
    }
}
