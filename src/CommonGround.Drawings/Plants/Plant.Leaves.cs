using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>Leaves, whole and divided.</summary>
internal sealed partial class Plant
{
    private List<V3> Axis(V3 b, double az, double el, double len, double droop, int n = 7)
    {
        var p = new List<V3> { b };
        var q = b;
        var side = c.R(-.2, .2);
        for (var i = 0; i < n; i++)
        {
            var u = (i + .5) / n;
            q += V3.Polar(az + side * u, el - droop * Math.Pow(u, 1.2) * 1.3) * (len / n);
            if (q.Y < .4 && b.Y < 60) q = q with { Y = .4 + (q.Y - .4) * .08 };
            p.Add(q);
        }
        return p;
    }

    private void AddLeaf(V3 b, double az, double el, double len, double wid, double droop, bool petiole = false)
    {
        if (len * pen.S < (pen.Coarse && b.Y > .5 ? 3.4 : 1.2)) return;
        var v = Axis(b, az, el, len, droop);
        var z = b.Z + Math.Cos(az) * len * .55;
        var face = .6 + .4 * Math.Abs(Math.Cos(az)) + c.R(-.06, .06);
        var lop = Math.Sin(az) * .18;
        var stretch = c.R(.9, 1.1);
        var dead = pen.Dead;
        var fresh = st.Dead && s.Winter == "evergreen";
        Add(z, () =>
        {
            if (fresh) pen.Dead = false;
            LeafAt(P(v), wid * pen.S * face, lop, stretch, petiole);
            pen.Dead = dead;
        });
    }

    private void LeafAt(List<P2> ax, double w, double lop, double k, bool petiole)
    {
        double len = 0;
        for (var i = 1; i < ax.Count; i++) len += (ax[i] - ax[i - 1]).Length;
        if (st.Dead && s.LeafShape is not ("blade" or "sword" or "linear") && s.Winter != "evergreen")
        {
            pen.Blade(ax, w * .5, Profile.Of("lanceolate"), veins: false);
            return;
        }
        switch (s.LeafShape)
        {
            case "pinnate" or "trifoliate" or "trident":
                PinnateLeaf(ax, w, lop, k, petiole, len);
                break;
            case "frond" or "frond2" or "lacy":
                FrondLeaf(ax, w, len);
                break;
            case "lobed":
                LobedLeaf(ax, w, len);
                break;
            case "ternate":
                TernateLeaf(ax, w, lop, k, petiole, len);
                break;
            case "palmate":
                PalmateLeaf(ax, w, lop, k, petiole, len);
                break;
            case "pinnatifid":
                PinnatifidLeaf(ax, w, lop, k, petiole, len);
                break;
            case "perfoliate":
                pen.Blade(ax, w * .5, new Profile(.28, .95), s.LeafEdge, lop);
                break;
            case "cordate":
                CordateLeaf(ax, w, lop, k, petiole, len);
                break;
            case "blade" or "sword" or "strap" or "linear":
                pen.Blade(ax, w * .5, Profile.Of(s.LeafShape == "blade" ? "linear" : s.LeafShape == "sword" ? "linear" : s.LeafShape),
                s.LeafEdge, lop);
                break;
            default:
                OtherLeaf(ax, w, lop, k, petiole, len);
                break;
        }
    }

    private void PinnateLeaf(List<P2> ax, double w, double lop, double k, bool petiole, double len)
    {

        var n = s.LeafShape == "pinnate" ? (int)s.Leaflets : 1;
        if (n > 4) n = Math.Max(3, (int)(n * Math.Min(1, len / 60)));
        double lw = Math.Max(w * (s.LeafShape == "trifoliate" ? .95 : .5), 2.2), from = s.LeafShape == "trifoliate" ? .22
            : s.LeafShape == "trident" ? .4 : .22;
        if (len < 7)
        {
            pen.Line(ax);
            return;
        }
        if (pen.Coarse && len < 13 && n < 4)
        {
            pen.Blade(ax, Math.Min(w * .22, 2.6), Profile.Of("elliptic"), veins: false);
            return;
        }
        pen.Line(ax);
        var narrow = s.LeafShape == "trident" ? .1 : s.LeafShape == "trifoliate" ? .2 : n >= 10 ? .23 : n == 2 || n == 3
            ? (s.LeafWidthCm < 4 ? .1 : .2) : .22;
        for (var i = 0; i < n; i++)
        {
            var t = n == 1 ? from : from + (.93 - from) * (i + .3) / n;
            var sz = s.LeafShape == "pinnate" ? (n < 4 ? 1 : .62 + .5 * Math.Sin(Math.PI * (.15 + .75 * i / n))) : 1;
            foreach (var sg in new[] { -1.0, 1.0 })
                pen.Blade(Little(Pt(ax, t), Turn(Tan(ax, t), sg * (s.LeafShape == "trident" ? .5 : .95)), lw * sz * 1.05, sg),
                    lw * sz * narrow,
                    Profile.Of(s.LeafShape == "trident" ? "linear" : (s.Leaflets > 4 && s.LeafEdge == "toothed") ? "obovate" : "elliptic"),
                    s.LeafEdge, veins: false);
        }
        var end = s.LeafShape == "pinnate" ? (n < 4 ? 1.0 : .9) : 1.05;
        var tip = n == 1 ? from : .93;
        pen.Blade(Little(Pt(ax, tip), Tan(ax, tip), lw * end * 1.1, 0), lw * end * narrow * 1.05, Profile.Of(s.LeafShape == "trident"
            ? "linear" : s.LeafShape == "trifoliate" ? "obovate" : (s.Leaflets > 4 && s.LeafEdge == "toothed") ? "obovate" : "elliptic"),
            s.LeafEdge, veins: s.LeafShape == "trifoliate");
    }

    private void TernateLeaf(List<P2> ax, double w, double lop, double k, bool petiole, double len)
    {

        if (len < 8)
        {
            pen.Line(ax);
            return;
        }
        pen.Line(ax);
        var sw = w * .5;
        if (s.LeafEdge == "lobed")
        {
            RueLeaf(ax, sw);
            return;
        }
        foreach (var sg in new[] { -1.0, 1.0, 0 })
        {
            var a = sg == 0 ? Pt(ax, 1) : Pt(ax, .6);
            var dir = Turn(Tan(ax, sg == 0 ? .95 : .6), sg * .85);
            var stem = sw * (sg == 0 ? .1 : .5);
            var e = a + dir * stem;
            if (sg != 0) pen.Line([a, e]);
            foreach (var q in new[] { -1.0, 1.0, 0 })
                pen.Blade(Little(e, Turn(dir, q * .9), sw * (q == 0 ? .78 : .62), q), sw * .2, Profile.Of("ovate"), s.LeafEdge,
                    veins: sw > 22);
        }
    }

    /// <summary>Meadow rue and its kin: round leaflets, each on a fine stalk and three-lobed at its tip; three of them, or three times
    /// three.</summary>
    private void RueLeaf(List<P2> ax, double sw)
    {
        if (s.Leaflets == 3)
        {
            foreach (var q in new[] { -1.0, 1.0, 0 }) Fan(Pt(ax, q == 0 ? 1 : .62), Turn(Tan(ax, .8), q * 1.0), sw * .2, sw * .78);
            return;
        }

        foreach (var sg in new[] { -1.0, 1.0, 0 })
        {
            var a = Pt(ax, sg == 0 ? 1 : .5);
            var dir = Turn(Tan(ax, sg == 0 ? .95 : .5), sg * 1.05);
            var e = a + dir * (sw * (sg == 0 ? .1 : .62));
            pen.Line([a, e]);
            foreach (var q in new[] { -1.0, 1.0, 0 }) Fan(e, Turn(dir, q * 1.1), sw * .12, sw * .44);
        }
    }

    private void Fan(P2 foot, P2 dir, double stalk, double length)
    {
        var a = foot + dir * stalk;
        if (length < 4)
        {
            pen.Blob(a + dir * (length * .5), length * .5, "p");
            return;
        }
        pen.Line([foot, a]);
        P2 At(double along, double across) => pen.J(a + dir * (length * along) + dir.Left * (length * across), .5);
        pen.Shape(new Trace().M(a).Q(At(.1, .42), At(.5, .5)).Q(At(.86, .52), At(.86, .26)).L(At(.74, .2)).Q(At(1.06, .26), At(1.04, 0))
            .Q(At(1.06, -.26), At(.74, -.2)).L(At(.86, -.26)).Q(At(.86, -.52), At(.5, -.5)).Q(At(.1, -.42), a).Z());
        if (length > 16)
            pen.Lines([[a, At(.4, 0), At(.82, 0)], [a, At(.35, .16), At(.66, .34)], [a, At(.35, -.16), At(.66, -.34)]], ink: "v i");
    }

    private void PalmateLeaf(List<P2> ax, double w, double lop, double k, bool petiole, double len)
    {

        if (len < 7)
        {
            pen.Line(ax);
            return;
        }
        pen.Line(ax);
        var c0 = Pt(ax, 1);
        var d0 = Tan(ax, .9);
        var R = w * .52;
        foreach (var q in new[] { -2.0, 2, -1, 1, 0 })
            pen.Blade(Little(c0, Turn(d0, q * .78), R * (1 - .12 * Math.Abs(q)), 0), R * .26, Profile.Of("obovate"), s.LeafEdge,
                veins: R > 10);
    }

    private void PinnatifidLeaf(List<P2> ax, double w, double lop, double k, bool petiole, double len)
    {

        if (len < 14)
        {
            pen.Line(ax, true);
            return;
        }
        var lobes = (int)Math.Clamp(len / 9, 4, s.Leaflets + 2);
        var L = new List<P2>();
        var Rr = new List<P2>();
        var outline = new Trace();
        outline.M(Pt(ax, 0));
        var mid = Math.Max(1.1, w * .035);
        for (var pass = 0; pass < 2; pass++) for (var i = 0; i < lobes; i++)
        {
            var j = pass == 0 ? i : lobes - 1 - i;
            double sg = pass == 0 ? 1 : -1, t = .24 + .68 * j / lobes,
                sz = w * .5 * Math.Sin(Math.PI * (.3 + .62 * j / lobes)) * (.9 + .12 * Math.Sin(j * 2.1 + k * 9));
            var tan = Tan(ax, t);
            var o = Turn(tan.Left, -sg * -.0) * sg;
            P2 lo = Pt(ax, t) + o * mid, hi = Pt(ax, t + .36 / lobes) + o * mid, tp = Pt(ax, t) + o * sz + tan * (sz * .5);
            if (pass == 0)
            {
                outline.L(lo).Q(lo + o * (sz * .5) + tan * (sz * .08), tp).Q(hi + o * (sz * .55) + tan * (sz * .16), hi);
                if (i == lobes - 1) outline.Q(Pt(ax, .97) + o * mid * 2, Pt(ax, 1));
            }
            else
            {
                outline.Q(hi + o * mid, hi).Q(hi + o * (sz * .55) + tan * (sz * .16), tp)
                    .Q(lo + o * (sz * .5) + tan * (sz * .08), lo);
            }
        }
        outline.L(Pt(ax, 0)).Z();
        pen.Shape(outline);
        if (w > 12) pen.Lines([ax.Take(ax.Count - 1).ToList()], ink: "v i");
    }

    private void CordateLeaf(List<P2> ax, double w, double lop, double k, bool petiole, double len)
    {

        if (petiole && len > 14)
        {
            var cut = (int)Math.Round((ax.Count - 1) * .4);
            pen.Line(ax.Take(cut + 1).ToList());
            pen.Blade(ax.Skip(cut).ToList(), w * .5, Profile.Of("cordate"), s.LeafEdge, lop);
        }
        else pen.Blade(ax, w * .5, Profile.Of(petiole ? "cordate" : "lanceolate"), s.LeafEdge, lop);
    }

    private void OtherLeaf(List<P2> ax, double w, double lop, double k, bool petiole, double len)
    {

        if (petiole && len > 18)
        {
            var cut = (int)Math.Round((ax.Count - 1) * .3);
            pen.Line(ax.Take(cut + 1).ToList());
            pen.Blade(ax.Skip(cut).ToList(), w * .5, Profile.Of(s.LeafShape), s.LeafEdge, lop);
        }
        else pen.Blade(ax, w * .5, Profile.Of(s.LeafShape), s.LeafEdge, lop);
    }

    private static P2 Pt(List<P2> ax, double t)
    {
        var f = t * (ax.Count - 1);
        var i = Math.Min((int)f, ax.Count - 2);
        return ax[i] + (ax[i + 1] - ax[i]) * (f - i);
    }

    private static P2 Tan(List<P2> ax, double t) => (Pt(ax, Math.Min(1, t + .1)) - Pt(ax, Math.Max(0, t - .1))).Unit();

    private static List<P2> Little(P2 a, P2 dir, double l, double bend)
    {
        var n = dir.Left;
        return [a, a + dir * (l * .35) + n * (bend * l * .06), a + dir * (l * .7) + n * (bend * l * .04),
            a + dir * l - n * (bend * l * .06)];
    }

    private static P2 Turn(P2 d, double a) => new(d.X * Math.Cos(a) - d.Y * Math.Sin(a), d.X * Math.Sin(a) + d.Y * Math.Cos(a));
}
