namespace CommonGround.Drawings.Strokes;

/// <summary>Leaf blades and petals.</summary>
internal sealed partial class Pen
{
    /// <summary>One leaf blade along an axis on the paper; half-widths by the profile; as much detail as the size carries.</summary>
    public void Blade(IReadOnlyList<P2> axis, double half, Profile shape, string edge = "entire", double lop = 0, bool veins = true,
        string fill = "p")
    {
        double len = 0;
        for (var i = 1; i < axis.Count; i++) len += (axis[i] - axis[i - 1]).Length;
        var wash = fill;
        if (fill[0] == 'f' && half < 2.4) fill += " s";
        // small colour keeps its colour: a thinner outline
        if (half < .75 || len < 3.2)
        {
            if (fill != "p")
            {
                Blob(axis[axis.Count / 2], Math.Clamp(len * .36, .9, 2), wash);
                return;
            }
            Line(axis.Count > 4 ? [axis[0], axis[axis.Count / 2], axis[^1]] : axis);
            return;
        }
        if (len < 20 && half < 4.5)
        {
            var m0 = axis[axis.Count / 2];
            var sideways = (axis[^1] - axis[0]).Unit().Left * (half * 1.75);
            var back0 = axis[0] - (axis[0] - m0) * .12;
            Shape(new Trace().M(J(axis[0])).Q(J(m0 + sideways * (1 + lop) - (m0 - back0) * shape.Early), axis[^1])
                .Q(J(m0 - sideways * (1 - lop) - (m0 - back0) * shape.Early), axis[0]), fill);
            return;
        }
        var n = axis.Count - 1;
        var left = new List<P2>();
        var right = new List<P2>();
        var teeth = edge != "entire" && half > 3.2 && len > 14;
        int steps = teeth ? Math.Clamp((int)(len / 4.2), 7, 22) : Math.Max(5, n);
        for (var i = 0; i <= steps; i++)
        {
            var u = (double)i / steps;
            var f = u * n;
            var k = Math.Min((int)f, n - 1);
            var c = axis[k] + (axis[k + 1] - axis[k]) * (f - k);
            var a = axis[Math.Max(0, k - 1)];
            var b = axis[Math.Min(n, k + 2)];
            var nrm = (b - a).Unit().Left;
            var w = half * shape.At(u);
            if (i is 0)
            {
                left.Add(J(c));
                right.Add(c);
                if (shape.Heart > 0)
                {
                    var back = (axis[0] - axis[1]).Unit() * (len * shape.Heart);
                    left.Add(c + back + nrm * half * .5);
                    right.Add(c + back - nrm * half * .5);
                }
                continue;
            }
            if (i == steps)
            {
                left.Add(c);
                right.Add(c);
                continue;
            }
            left.Add(J(c + nrm * w * (1 + lop)));
            right.Add(J(c - nrm * w * (1 - lop)));
        }
        Trace t;
        if (teeth)
        {
            t = new Trace().M(left[0]);
            void Side(List<P2> s, int dir)
            {
                for (var i = 1; i < s.Count; i++)
                {
                    var d = s[i] - s[i - 1];
                    var outw = d.Unit().Left * dir;
                    var spike = edge == "spiny" ? 1.9 : 1.15;
                    if (i == s.Count - 1) t.L(s[i]);
                    else if (dir > 0) t.Q(s[i - 1] + d * .5 + outw * .9, s[i] + outw * spike).L(s[i] - outw * .5);
                    else t.L(s[i] + outw * spike * .4).Q(s[i] + outw * spike, s[i]);
                }
            }
            Side(left, 1);
            right.Reverse();
            Side(right, 1);
            t.Z();
        }
        else
        {
            t = new Trace().M(left[0]).Curve(left);
            right.Reverse();
            t.Curve(right);
            if (half > 2) t.Z();
        }
        Shape(t, fill);
        if (!veins || half < 2.2 || fill != "p") return;
        var rib = new List<P2>();
        for (var i = 0; i <= n * .82; i++) rib.Add(axis[i]);
        var lines = new List<IReadOnlyList<P2>> { rib };
        if (half > 7.5 && shape.Veins == 'n')
            for (var u = .16; u < .72; u += Math.Max(.11, 9 / len)) foreach (var sgn in new[] { 1.0, -1.0 })
            {
                var f = u * n;
                var k = Math.Min((int)f, n - 1);
                var c = axis[k] + (axis[k + 1] - axis[k]) * (f - k);
                var tan = (axis[Math.Min(n, k + 1)] - axis[Math.Max(0, k - 1)]).Unit();
                var w = half * shape.At(u) * .72;
                var e = c + tan.Left * (sgn * w) + tan * (w * .75);
                lines.Add([c, c + tan.Left * (sgn * w * .55) + tan * (w * .25), e]);
            }
        if (half > 4.5 && shape.Veins == 'p') foreach (var o in half > 9 ? new[] { -.5, -.25, .25, .5 } : [-.4, .4])
        {
            var l = new List<P2>();
            for (var i = 0; i <= n * .86; i++)
            {
                var u = (double)i / n;
                var nrm = (axis[Math.Min(n, i + 1)] - axis[Math.Max(0, i - 1)]).Unit().Left;
                l.Add(axis[i] + nrm * (half * shape.At(u) * o));
            }
            lines.Add(l);
        }
        Lines(lines, ink: "v " + Ink);
    }
}
