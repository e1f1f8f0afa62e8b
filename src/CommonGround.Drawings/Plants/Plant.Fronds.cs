using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Plants;

/// <summary>Fern fronds, finely cut leaves and leaves lobed like a maple's.</summary>
internal sealed partial class Plant
{
    /// <summary>A frond: pinnae along a rib, longest below the middle; of a twice-cut one and of a lacy leaf each pinna is cut
    /// again.</summary>
    private void FrondLeaf(List<P2> ax, double w, double len)
    {
        pen.Line(ax);
        if (len < 9)
        {
            return;
        }

        var pairs = Math.Clamp((int)Math.Min(s.Leaflets, len / (s.LeafShape == "frond" ? 3.4 : 4.6)), 3, 26);
        var twice = s.LeafShape != "frond" && w > 30;
        for (var i = 0; i < pairs; i++)
        {
            var t = .16 + (.82 * i / pairs);
            var size = w * .5 * Math.Sin(Math.PI * (.3 + (.69 * t)));
            foreach (var side in new[] { -1.0, 1.0 })
            {
                var way = Turn(Tan(ax, t), side * (1.2 - (.45 * t)));
                var pinna = Little(Pt(ax, t), way, size, side);
                if (twice)
                {
                    Pinnules(pinna, way, size);
                }
                else if (s.LeafShape == "lacy" || size < 3)
                {
                    pen.Line(pinna);
                }
                else
                {
                    pen.Blade(pinna, Math.Max(.9, Math.Min(size * .16, len / pairs * .46)), Profile.Of("broad"), s.LeafEdge, veins: false);
                }
            }
        }
    }

    private void Pinnules(List<P2> pinna, P2 way, double size)
    {
        var lines = new List<IReadOnlyList<P2>> { pinna };
        var count = Math.Clamp((int)(size / 3.2), 2, 9);
        for (var k = 1; k <= count; k++)
        {
            var u = k / (count + .6);
            var length = Math.Max(1.6, size * .24 * (1.1 - u));
            foreach (var side in new[] { -1.0, 1.0 })
            {
                var at = Pt(pinna, u);
                var d = Turn(way, side * .8);
                if (s.LeafShape == "lacy" || length < 2.6)
                {
                    lines.Add([at, at + (d * (length * .6)), at + (d * length)]);
                }
                else
                {
                    pen.Blade([at, at + (d * (length * .5)), at + (d * length)], Math.Max(.8, length * .3), Profile.Of("oblong"),
                        veins: false);
                }
            }
        }

        pen.Lines(lines);
    }

    /// <summary>Three to five pointed lobes on a stalk: maple, currant, grape, hops.</summary>
    private void LobedLeaf(List<P2> ax, double w, double len)
    {
        if (len < 6)
        {
            pen.Blade(ax, w * .4, Profile.Of("ovate"), veins: false);
            return;
        }

        var foot = Pt(ax, .28);
        pen.Line([ax[0], Pt(ax, .14), foot]);
        var up = Tan(ax, .6);
        var tall = len * .72;
        var lobes = s.Leaflets > 3 ? new[] { -2.0, -1.05, 0, 1.05, 2.0 } : [-1.1, 0, 1.1];
        var path = new Trace();
        var start = foot + (Turn(up, -2.75) * (w * .16));
        path.M(start);
        for (var i = 0; i < lobes.Length; i++)
        {
            var far = lobes[i] == 0 ? tall : tall * (1 - (.2 * Math.Abs(lobes[i])));
            var tip = foot + (Turn(up, lobes[i]) * Math.Min(far, lobes[i] == 0 ? tall : w * .56));
            var before = foot + (Turn(up, lobes[i] - .3) * (far * .66));
            path.Q(before, pen.J(tip));
            var gap = i == lobes.Length - 1 ? 2.75 : (lobes[i] + lobes[i + 1]) / 2;
            var notch = i == lobes.Length - 1 ? foot + (Turn(up, gap) * (w * .16))
                : foot + (Turn(up, gap) * (far * (s.LeafEdge == "lobed" ? .36 : .55)));
            path.Q(foot + (Turn(up, lobes[i] + .3) * (far * .66)), notch);
        }

        path.Q(foot, start).Z();
        pen.Shape(path);
        if (w > 9)
        {
            pen.Lines(lobes.Select(l =>
                (IReadOnlyList<P2>)[foot, foot + (Turn(up, l) * (tall * .3)), foot + (Turn(up, l) * (tall * .55))]), ink: pen.Dead
                ? "v d" : "v i");
        }
    }
}
