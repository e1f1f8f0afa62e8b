using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Plants;

/// <summary>Hoods that sit on the ground before there is a leaf: skunk cabbage.</summary>
internal sealed partial class Plant
{
    private void Hoods()
    {
        c = Of("hoods");
        var turn = c.R(0, 6.3);
        for (var i = 0; i < Math.Max(1, s.Stems); i++)
        {
            var at = Hor(turn + (i * Golden)) * (s.FlowerWidthCm * (i == 0 ? .3 : .95));
            var (size, lean, chance) = (c.R(.85, 1.05) * Math.Pow(st.Size, .4), c.R(-.18, .18), new Chance(s.ScientificName + seed + i));
            Add(at.Z, () => Hood(pen.At(at), size, lean, chance));
        }
    }

    /// <summary>A pointed shell, bent over at its tip and open at one side, with the round spike of flowers inside and the rolled leaf
    /// beside it.</summary>
    private void Hood(P2 foot, double size, double lean, Chance e)
    {
        var (w, h) = (s.FlowerWidthCm * size * pen.S, s.InflorescenceLengthCm * size * pen.S);
        var side = lean < 0 ? -1 : 1;
        P2 A(double across, double up) => foot + new P2(w * ((across * side) + (lean * up)), -h * up);
        var fill = "f-" + s.FlowerColour;
        if (h < 6)
        {
            pen.Blade([A(0, 0), A(0, .35), A(.05, .7), A(.2, 1)], Math.Max(1, w * .4), new Profile(.4, .6), veins: false, fill: fill);
            return;
        }

        var bud = A(-.62, 0);
        pen.Blade([bud, bud - new P2(0, h * .3), bud - new P2(0, h * .6)], Math.Max(1, w * .1), Profile.Of("lanceolate"), veins: false);
        pen.Shape(new Trace().M(A(-.3, 0)).Q(A(-.66, .42), A(-.36, .76)).Q(A(-.12, .98), A(.34, 1)).Q(A(.22, .9), A(.3, .76))
            .Q(A(.62, .42), A(.3, 0)).Q(A(0, -.05), A(-.3, 0)).Z(), fill);
        pen.Shape(new Trace().M(A(.06, .06)).Q(A(-.2, .4), A(.2, .84)).Q(A(.46, .42), A(.26, .06))
            .Q(A(.16, .02), A(.06, .06)).Z(), "f-dark");
        pen.Blob(A(.16, .3), Math.Max(1, w * .13), "f-" + s.CentreColour, squash: 1.15);
        if (h > 16)
        {
            Dots(A(.16, .3), w * .1, 9, e);
            pen.Lines([[A(-.24, .06), A(-.46, .42), A(-.2, .8)], [A(-.14, .06), A(-.28, .42), A(-.04, .84)],
                [A(-.02, .05), A(-.14, .4), A(.1, .86)]], ink: "f-green-l n2");
        }
    }

    /// <summary>Over one whorl of leaves: a trillium's flower looks at the reader, a pulpit stands below its leaves on a stalk of its
    /// own.</summary>
    private void AboveWhorl(Stand stand)
    {
        if (s.Flower != "spathe")
        {
            var to = stand.Tip + (V3.Up * (s.FlowerWidthCm * .3));
            Put(to, ((V3.Up * .55) + (Hor(stand.Turn) * .25) + new V3(0, 0, .8)).Unit(), 1, State(0), stand.Line[6].Z + s.SpreadCm);
            return;
        }

        var side = stand.Turn < 3.1 ? 1 : -1;
        var from = Along(stand.Line, .2);
        var at = Along(stand.Line, .62) + new V3(side * s.FlowerWidthCm * .8, 0, 0);
        Stalk(from, at, .05, stand.Line[6].Z + s.SpreadCm);
        Put(at, V3.Up, 1, State(0), stand.Line[6].Z + s.SpreadCm);
    }

    /// <summary>Prickly pear: flat joints, one on the edge of the other; flowers and fruit sit on the edge of the upper ones.</summary>
    private void Pads()
    {
        c = Of("pads");
        pen.Dead = false;
        var (length, wide) = (s.LeafLengthCm * Math.Pow(st.Size, .4), s.LeafWidthCm * Math.Pow(st.Size, .4));
        var count = Math.Max(1, (int)Math.Round(s.Stems * st.Size));
        var all = new List<(V3 Foot, double Turn, int Tier)>();
        for (var i = 0; i < count; i++)
        {
            var x = s.SpreadCm * .62 * (((i + .5) / count) - .5) * st.Size;
            all.Add((new V3(x, 0, c.R(-4, 4)), (x / s.SpreadCm * 1.4) + c.R(-.25, .25), 0));
        }

        for (var i = 0; i < all.Count && all.Count < s.Nodes * st.Size; i++)
        {
            var (foot, turn, tier) = all[i];
            if (tier > 1) continue;
            foreach (var side in c.Is(.6) ? new[] { -1.0, 1.0 } : [c.Is(.5) ? -.4 : .4])
            {
                all.Add((foot + (new V3(Math.Sin(turn + (side * .28)), Math.Cos(turn + (side * .28)), .02) * (length * .93)),
                    turn + (side * c.R(.45, .75)), tier + 1));
            }
        }

        foreach (var (foot, turn, tier) in all)
        {
            var (long1, half, e) = (length * c.R(.85, 1.05), wide * .5 * c.R(.9, 1.05), new Chance(seed + foot.X + tier));
            Add(foot.Z + (tier * .1), () => Pad(pen.At(foot), P2.Dir(turn), long1 * pen.S, half * pen.S, e));
            if (tier > 0 || count == all.Count)
            {
                var top = foot + (new V3(Math.Sin(turn), Math.Cos(turn), 0) * (long1 * .97));
                Put(top, new V3(Math.Sin(turn), Math.Cos(turn), .5).Unit(), 1, State(c.U() * .6), foot.Z + 2);
            }
        }
    }

    private void Pad(P2 foot, P2 dir, double length, double half, Chance e)
    {
        P2 A(double along, double across) => foot + (dir * (length * along)) + (dir.Left * (half * across));
        pen.Shape(new Trace().M(A(0, .18)).Q(A(.3, 1), A(.62, 1)).Q(A(1, .9), A(1, 0)).Q(A(1, -.9), A(.62, -1)).Q(A(.3, -1), A(0, -.18))
            .Z());
        if (length < 9) return;
        for (var i = 0; i < 9; i++)
        {
            var q = A(.22 + (.2 * (i / 2)) + e.R(-.03, .03), ((i % 2) - .5) * 1.1 * (i is 8 ? 0 : 1));
            pen.Blob(q, .6, "k", false);
            if (length > 26) pen.Line([q, q + (dir * 1.5) + (dir.Left * e.R(-2, 2)), q + (dir * 3) + (dir.Left * e.R(-3, 3))]);
        }
    }
}
