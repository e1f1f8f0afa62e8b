using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>Daisies and other flowers seen from any side: rays, bracts and the dome in the middle.</summary>
internal sealed partial class Plant
{
    private void Ray(V3 at, V3 n, double cm, Head head, Chance e)
    {
        double R = cm / 2, px = R * pen.S;
        var salver = s.Flower == "salver";
        var fill = "f-" + s.FlowerColour;
        int m = (int)s.Rays;
        if (px < 7) m = Math.Min(m, 13);
        if (px < 12) m = Math.Min(m, 22);
        var cone = salver ? R * .12 : s.SeedHead == "cone" ? (s.RayDroopDegrees > 70 && s.FlowerColour == "yellow" ? R * .26 : R * .32)
            : s.FlowerWidthCm < 4 ? R * .34 : R * .3;
        var tall = salver ? .1 : s.SeedHead == "cone" ? (s.RayDroopDegrees > 70 && s.FlowerColour == "yellow" ? 2.1 : .95) : .3;
        if (head == Head.Bud)
        {
            var r = R * .42;
            Dome(at, n, r * .75, r * .6, "p");
            if (px > 8) Petals(at, n, R * .5, 9, .55, -42, "pointed", "p", r * .3, true, e);
            else pen.Line([pen.At(at), pen.At(at + n * (r * .6))]);
            return;
        }
        // Bracts under the head.
        if (px > 6 && !salver)
            Petals(at - n * (R * .05), n, cone * 1.55, 8, .55, s.RayDroopDegrees > 20 ? 40 : -10, "pointed", "p", 0, null, null);
        var fat = salver ? .98 : m > 24 ? 1.5 : m > 15 ? 1.05 : .78;
        if (s.RayDroopDegrees > 60 && s.FlowerColour != "yellow") fat = .5;
        if (s.RayDroopDegrees > 60 && s.FlowerColour == "yellow") fat = .98;
        if (s.RayDroopDegrees > 20)
        {
            Petals(at, n, R * (s.RayDroopDegrees > 60 ? 1.1 : 1), m, fat, s.RayDroopDegrees, s.RayTip, fill, cone * .85, false, e,
                e.R(0, 1));
            if (s.RayDroopDegrees < 50) Petals(at, n, R, m, fat, s.RayDroopDegrees, s.RayTip, fill, cone * .85, true, e, .3);
            Dome(at, n, cone, cone * tall, "f-" + s.CentreColour, e);
            if (s.RayDroopDegrees >= 50) Petals(at, n, R * 1.1, m, fat, s.RayDroopDegrees, s.RayTip, fill, cone * .9, true, e, .3);
        }
        else
        {
            Petals(at, n, R, m, fat, s.RayDroopDegrees, s.RayTip, fill, cone * .8, null, e, e.R(0, 1));
            Dome(at, n, cone, cone * tall, "f-" + s.CentreColour, e);
        }
    }

    private void Petals(V3 at, V3 n, double R, int m, double fat, double droop, string tip, string fill, double inner = 0,
        bool? front = null, Chance? e = null, double rot = .2)
    {
        var (u, v) = Basis(n);
        var list = new List<(double Z, Action D)>();
        for (var i = 0; i < m; i++)
        {
            var jit = e?.R(-.5, .5) ?? 0;
            var th = rot + (i + jit * .35) * Math.Tau / m;
            var d = u * Math.Cos(th) + v * Math.Sin(th);
            var w = n.Cross(d).Unit();
            var len = R - inner;
            var dr = (droop + (e?.R(-7, 7) ?? 0)) * Math.PI / 180;
            var half = Math.Min(R * fat * Math.PI / m * 1.05, len * .5);
            var ax = new List<V3> { at + d * inner };
            var cur = ax[0];
            const int k = 4;
            for (var j = 0; j < k; j++)
            {
                var b = dr * Math.Min(1, (j + .6) / 2.0);
                cur += (d * Math.Cos(b) - n * Math.Sin(b)) * (len * (1 + jit * .1) / k);
                ax.Add(cur);
            }
            var mid = ax[2] - at;
            var isFront = mid.Z > -.02 * R;
            if (front != null && isFront != front) continue;
            list.Add((mid.Z - n.Z * 0, () =>
            {
                var A = ax.Select(pen.At).ToArray();
                P2 W(int j, double o) => pen.J(pen.At(ax[j] + w * (half * o)), .6);
                var along = (A[4] - A[3]).Unit();
                var reach = Math.Max(.6, (A[4] - A[3]).Length * .55);
                var t = new Trace().M(A[0]).Q(W(1, .62), W(2, .92)).Q(W(3, 1.08), tip == "pointed" ? W(3, .72) : W(4, .62));
                if (tip == "notched")
                {
                    var l = W(4, .6);
                    var r = W(4, -.6);
                    t.Q(l + along * reach * .5, W(4, .38) + along * reach * .55).L(W(4, .2) - along * reach * .25)
                        .Q(A[4] + along * reach * .9, W(4, -.2) - along * reach * .25).L(W(4, -.38) + along * reach * .55)
                        .Q(r + along * reach * .5, r);
                }
                else if (tip == "pointed") t.Q(W(4, .3), A[4] + along * reach).Q(W(4, -.3), W(3, -.72));
                else t.Q(A[4] + along * reach, W(4, -.62));
                if (tip == "pointed") t.Q(W(3, -1.0), W(2, -.92));
                else t.Q(W(3, -1.08), W(2, -.92));
                t.Q(W(1, -.62), A[0]).Z();
                pen.Shape(t, half * pen.S < 2.3 && fill != "p" ? fill + " s" : fill);
                if (half * pen.S > 3.2 && len * pen.S > 12)
                    pen.Lines([[A[0], pen.At(ax[1] + w * (half * .2)), pen.At(ax[3] + w * (half * .25))]], ink: fill + "-l n2");
            }
            ));
        }
        foreach (var x in list.OrderBy(x => x.Z)) x.D();
    }

    private void SmallDaisy(P2 q, double px, V3 n, string fill, Head head)
    {
        if (head == Head.Bud)
        {
            pen.Blob(q, px * .5, "p");
            return;
        }
        if (px < 2.7 && s.RayDroopDegrees < 40)
        {
            pen.Blob(q, px, fill);
            pen.Blob(q, Math.Max(.8, px * .36), "f-" + s.CentreColour, false);
            return;
        }
        var flat = Math.Clamp(.45 + n.Z * .6, .4, 1);
        if (s.RayDroopDegrees > 40)
        {
            pen.Blade([q + new P2(0, -px * .2), q + new P2(-px * .8, px * .4), q + new P2(-px * .7, px * 1.3)], px * .4,
                Profile.Of("petal"), veins: false, fill: fill);
            pen.Blade([q + new P2(0, -px * .2), q + new P2(px * .8, px * .4), q + new P2(px * .7, px * 1.3)], px * .4,
                Profile.Of("petal"), veins: false, fill: fill);
            pen.Blob(q + new P2(0, px * .6), px * .55, fill, false);
        }
        else
        {
            var pts = new List<P2>();
            for (var i = 0; i < 16; i++)
            {
                var a = i * Math.Tau / 16;
                pts.Add(q + new P2(Math.Sin(a) * px * (i % 2 == 0 ? 1.18 : .75), Math.Cos(a) * px * flat * (i % 2 == 0 ? 1.18 : .75)));
            }
            var t = new Trace().M(pts[0]);
            foreach (var p in pts.Skip(1)) t.L(p);
            pen.Shape(t.Z(), fill + " s");
        }
        pen.Blob(q - new P2(0, px * .1), Math.Max(.9, px * .36), "f-" + s.CentreColour, px > 2.4);
    }

    /// <summary>A dome or cone seen from any side: the hull of its rings, with its texture on the near face.</summary>
    private void Dome(V3 at, V3 n, double r, double h, string fill, Chance? e = null)
    {
        var (u, v) = Basis(n);
        var pts = new List<P2>();
        V3 On(double a, double el) => at + (u * Math.Cos(a) + v * Math.Sin(a)) * (r * Math.Cos(el)) + n * (h * Math.Sin(el));
        for (var el = 0.0; el < 1.6; el += .31) for (var i = 0; i < 12; i++) pts.Add(pen.At(On(i * Math.Tau / 12, el)));
        if (r * pen.S < 1.6)
        {
            pen.Blob(pen.At(at + n * (h * .4)), Math.Max(1, r * pen.S), fill, r * pen.S > 1.2);
            return;
        }
        pen.Shape(new Trace().Ring(Hull(pts).Select(p => pen.J(p, .5)).ToList()), fill);
        if (e == null || r * pen.S < 3.6) return;
        for (var i = 3; i < 46; i++)
        {
            var el = 1.45 - 1.35 * Math.Sqrt(i / 46.0);
            var a = i * Golden;
            var p = On(a, el);
            var nn = (u * Math.Cos(a) + v * Math.Sin(a)) * Math.Cos(el) + n * Math.Sin(el);
            if (nn.Z + nn.Y * .16 < .12) continue;
            var q = pen.At(p);
            if (r * pen.S > 9) pen.Lines([[q, pen.At(p + nn * (r * .16))]], ink: fill + "-l n2");
            else if (i % 2 == 0) pen.Blob(q, .7, "k", false);
        }
    }

    private static List<P2> Hull(List<P2> p)
    {
        var sorted = p.OrderBy(a => a.X).ThenBy(a => a.Y).ToList();
        var h = new List<P2>();
        double Cr(P2 o, P2 a, P2 b) => (a.X - o.X) * (b.Y - o.Y) - (a.Y - o.Y) * (b.X - o.X);
        foreach (var _ in new[] { 0, 1 })
        {
            var start = h.Count;
            foreach (var q in sorted)
            {
                while (h.Count >= start + 2 && Cr(h[^2], h[^1], q) <= 0) h.RemoveAt(h.Count - 1);
                h.Add(q);
            }
            h.RemoveAt(h.Count - 1);
            sorted.Reverse();
        }
        var thin = new List<P2>();
        foreach (var q in h) if (thin.Count == 0 || (q - thin[^1]).Length > .9) thin.Add(q);
        return thin.Count < 3 ? h : thin;
    }

    private static (V3 U, V3 V) Basis(V3 n)
    {
        var u = n.Cross(new V3(.13, 0, 1)).Unit();
        return (u, n.Cross(u).Unit());
    }

    private void Burst(P2 q, double r, int m, P2 dir, double spread, string? fill = null)
    {
        var l = new List<IReadOnlyList<P2>>();
        var a0 = Math.Atan2(dir.X, -dir.Y);
        for (var i = 0; i < m; i++)
        {
            var a = a0 + (m == 1 ? 0 : (i / (m - 1.0) - .5)) * spread;
            l.Add([q, q + P2.Dir(a) * (r * .6), q + P2.Dir(a + .08) * r]);
        }
        pen.Lines(l, ink: fill == null ? null : fill == "dry" ? "t d" : fill + "-b n2");
    }

    private void Dots(P2 q, double r, int m, Chance e)
    {
        for (var i = 0; i < m; i++) pen.Blob(q + P2.Dir(i * Golden) * (r * Math.Sqrt((i + .5) / m)), .75, "k", false);
    }
}
