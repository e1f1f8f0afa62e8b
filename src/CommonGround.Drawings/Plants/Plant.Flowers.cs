using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>What one flower or head looks like in bud and open.</summary>
internal sealed partial class Plant
{
    /// <summary>What a flower is drawn with: place, way it faces, width, px across half, place and way on the paper, chance, ink.</summary>
    private readonly record struct Opening(V3 At, V3 N, double Cm, double Px, P2 Q, P2 Dir, Head Head, Chance E, string Fill, bool Open,
        double Seed);

    private void Bloom(V3 at, V3 n, double k, Head head, double seed)
    {
        if (head == Head.None) return;
        var cm = s.FlowerWidthCm * k;
        var px = cm * pen.S / 2;
        if (px < pen.Least)
        {
            cm *= pen.Least / px;
            px = pen.Least;
        }
        var q = pen.At(at);
        var e = new Chance(s.ScientificName + seed.ToString("0.000000", System.Globalization.CultureInfo.InvariantCulture));
        var fill = "f-" + s.FlowerColour;
        var open = head == Head.Open;
        var dir = new P2(n.X, -(n.Y - .11 * n.Z)).Unit();
        if (head is Head.Green or Head.Ripe or Head.Winter)
        {
            SeedHead(new Opening(at, n, cm, px, q, dir, head, e, fill, open, seed));
            return;
        }
        if (head == Head.Bud
            && s.Flower is not ("ray" or "monarda" or "globe" or "thimble" or "shag" or "button" or "bottle" or "thistle" or "ball"
            or "spathe" or "catkin"))
        {
            var b = Math.Max(1, px * .36);
            if (px < 3.4) pen.Blob(q, b, "p");
            else pen.Blade([q, q + dir * b, q + dir * (b * 2), q + dir * (b * 3)], b * .9, Profile.Of("elliptic"), veins: false);
            return;
        }
        if (px < (s.Flower == "iris" ? 4.5 : 2.7) && s.Flower is "columbine" or "smoke" or "shooting" or "bottle" or "iris" or "pea"
            && px < 4.5)
        {
            if (px < 2.7 || s.Flower == "iris")
            {
                pen.Blob(q, Math.Min(px, 2.6), fill);
                return;
            }
        }
        var one = new Opening(at, n, cm, px, q, dir, head, e, fill, open, seed);
        // The petals of a white flower are all outline where it is small: one white blot reads as white.
        if (s.FlowerColour == "white" && pen.Coarse && px < 4.5 && s.Flower is "lip" or "pea" or "tube" or "fuzz" or "onion")
        {
            pen.Blob(q + dir * (px * .4), Math.Max(1.5, px * .7), fill);
            return;
        }
        switch (s.Flower)
        {
            case "ray":
                if (px < 3.4) SmallDaisy(q, px, n, fill, head);
                else Ray(at, n, cm, head, e);
                break;
            case "salver":
                if (px < 2.6) pen.Blob(q, px, fill, px > 1.8);
                else Ray(at, n, cm, head, e);
                break;
            case "small":
                pen.Blob(q, px * e.R(.85, 1.15), fill);
                break;
            case "mint":
                for (var i = 0; i < (px > 3 ? 5 : 2); i++) pen.Blob(q + P2.Dir(e.R(0, 6.3)) * (px * .7), Math.Max(1.1, px * .32), fill);
                break;
            case "whitebutton":
                pen.Blob(q, px, fill, true, .85);
                if (px > 2.6) for (var i = 0; i < 5; i++) pen.Blob(q + P2.Dir(i * 1.26 + .3) * (px * .95), px * .32, fill);
                break;
            case "fuzz":
                FuzzFlower(one);
                break;
            case "button" or "shag":
                ButtonFlower(one);
                break;
            case "ball" or "thistle" or "trumpet" or "bell" or "spathe" or "violet" or "catkin":
                Shaped(one);
                break;
            case "milkweed":
                MilkweedFlower(one);
                break;
            case "pea":
                PeaFlower(one);
                break;
            case "lip":
                LipFlower(one);
                break;
            case "tube":
                TubeFlower(one);
                break;
            case "three":
                ThreeFlower(one);
                break;
            case "bottle":
                BottleFlower(one);
                break;
            case "monarda":
                MonardaFlower(one);
                break;
            case "globe":
                GlobeFlower(one);
                break;
            case "thimble":
                ThimbleFlower(one);
                break;
            case "iris":
                Iris(q, px, e, fill);
                break;
            case "columbine":
                ColumbineFlower(one);
                break;
            case "smoke":
                SmokeFlower(one);
                break;
            case "shooting":
                ShootingFlower(one);
                break;
            case "onion":
                OnionFlower(one);
                break;
            default:
                pen.Blob(q, px, fill);
                break;
        }
    }

    /// <summary>A white flower on paper needs some shade behind it, or it is lost; behind its neighbours too, or they are shaded.</summary>
    private void Shade(V3 at, V3 n, double k)
    {
        var px = Math.Max(s.FlowerWidthCm * k * pen.S / 2, pen.Least);
        if (px >= 3.2) return;
        var dir = new P2(n.X, -(n.Y - .11 * n.Z)).Unit();
        pen.Blob(pen.At(at) + dir * (px * .4), Math.Max(2, px * 1.3), "w", false);
    }

    private void FuzzFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        pen.Blade([q, q + dir * px, q + dir * (px * 1.8), q + dir * (px * 2.4)], px * .8, Profile.Of("obovate"), veins: false,
            fill: fill);
        if (px > 2) Burst(q + dir * (px * 2), px, 5, dir, 1.1);
    }

    private void ButtonFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        var r = px * (s.Flower == "shag" ? .8 : 1);
        if (!open)
        {
            pen.Blob(q, r * .62, "p", true, .9);
            return;
        }
        if (r > 2.4) pen.Blob(q - dir * (r * .3), r * .62, "p");
        var pts = new List<P2>();
        var m = r < 3 ? 5 : 8;
        for (var i = 0; i < m * 2; i++)
        {
            var a = i * Math.PI / m;
            var rr = r * (i % 2 == 0 ? e.R(.9, 1.25) : .5);
            pts.Add(q + dir * (r * .35) + P2.Dir(a) * rr);
        }
        var t = new Trace().M(pts[0]);
        for (var i = 1; i < pts.Count; i++) t.L(pts[i]);
        pen.Shape(t.Z(), r < 4 ? fill + " s" : fill);
        if (r > 3.5) Burst(q + dir * (r * .4), r * 1.15, 7, dir, 2.4, fill);
    }

    private void MilkweedFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        if (px < 4)
        {
            pen.Blob(q, px * .8, fill);
            return;
        }
        for (var i = 0; i < 5; i++)
        {
            var d = P2.Dir(Math.Atan2(dir.X, -dir.Y) + Math.PI + (i - 2) * .62);
            pen.Blade([q, q + d * (px * .5), q + d * (px * .95)], px * .3, Profile.Of("elliptic"), veins: false, fill: fill);
        }
        for (var i = -1; i <= 1; i++)
        {
            var d = P2.Dir(Math.Atan2(dir.X, -dir.Y) + i * .55);
            pen.Blob(q + d * (px * .5), px * .3, s.CentreColour == "white" ? "f-white" : fill);
        }
    }

    private void PeaFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        var up = P2.Dir(Math.Atan2(dir.X, -dir.Y) - Math.Sign(dir.X + .001) * .9);
        pen.Blob(q + dir * (px * .7) + up * (px * .35), px * .52, fill, true, .9);
        pen.Blade([q, q + dir * (px * .8) - up * (px * .25), q + dir * (px * 1.5) - up * (px * .05)], px * .42,
            Profile.Of("elliptic"), veins: false, fill: fill);
        pen.Blob(q, px * .26, "p");
    }

    private void LipFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        if (px < 2.6)
        {
            pen.Blob(q, px, fill);
            return;
        }
        var a0 = Math.Atan2(dir.X, -dir.Y);
        var m = q + dir * (px * .55);
        pen.Blade([q, q + dir * (px * .3), m], px * .22, Profile.Of("strap"), veins: false, fill: fill);
        var dn = Math.Sign(dir.X + .001);
        foreach (var d in new[] { -1.35, -.9 })
        {
            var v = P2.Dir(a0 + dn * d);
            pen.Blade([m, m + v * (px * .4), m + v * (px * .75)], px * .13, Profile.Of("lanceolate"), veins: false, fill: fill);
        }
        foreach (var d in new[] { .35, 1.7, 1.0 })
        {
            var v = P2.Dir(a0 + dn * d);
            pen.Blade([m, m + v * (px * .45), m + v * (px * .95)], px * .25, Profile.Of("elliptic"), veins: false, fill: fill);
        }
    }

    private void TubeFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        if (px < 2.4)
        {
            pen.Blade([q, q + dir * px, q + dir * (px * 2)], Math.Max(1, px * .45), Profile.Of("obovate"), veins: false,
                fill: fill);
            return;
        }
        var L = dir.Left;
        P2 A(double a, double w) => q + dir * (px * a) + L * (px * w);
        var t = new Trace().M(A(0, .12)).Q(A(.5, .2), A(.9, .46)).Q(A(1.3, .5), A(1.55, .5)).Q(A(1.9, .85), A(1.95, .45))
            .Q(A(2.3, .2), A(1.9, 0)).Q(A(2.4, -.2), A(1.95, -.45)).Q(A(1.95, -.85), A(1.55, -.5)).Q(A(1.2, -.5), A(.9, -.46))
            .Q(A(.5, -.2), A(0, -.12)).Z();
        pen.Shape(t, fill);
        if (px > 4)
            pen.Lines([[A(.7, .1), A(1.1, .14), A(1.6, .16)], [A(.7, -.1), A(1.1, -.14), A(1.6, -.16)]], ink: fill + "-l n2");
    }

    private void ThreeFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        if (px < 2.4)
        {
            pen.Blob(q, px, fill);
            return;
        }
        Petals(at, n, cm / 2, 3, .95, 0, "round", fill);
        for (var i = 0; i < 5; i++)
            pen.Blob(pen.At(at + n * Cm(px * .3)) + P2.Dir(i * 1.25) * (px * .2), Math.Max(.8, px * .09), "f-yellow", px > 6);
    }
}
