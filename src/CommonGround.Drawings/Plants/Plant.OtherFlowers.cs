using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>Flowers with a shape of their own.</summary>
internal sealed partial class Plant
{
    private void BottleFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        var l = px * (open ? 2.1 : 1.4);
        pen.Blade([q, q + dir * (l * .25), q + dir * (l * .5), q + dir * (l * .75), q + dir * l], px * .52,
            new Profile(.55, .5), veins: false, fill: open ? fill : "p");
        if (px > 4 && open)
            pen.Lines([[q + dir * (l * .15), q + dir * (l * .5) + dir.Left * .4, q + dir * (l * .9)]], ink: fill + "-l n2");
        if (px > 3)
            pen.Blade([q - dir * 1, q + dir * (l * .15), q + dir * (l * .32)], px * .42, Profile.Of("ovate"), veins: false);
    }

    private void MonardaFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        if (px < 3)
        {
            pen.Blob(q, px, open ? fill : "p");
            return;
        }
        for (var i = 0; i < 5; i++)
        {
            var d = P2.Dir(1.57 + (i - 2) * .62);
            pen.Blade([q, q + d * (px * .35), q + d * (px * .62) + new P2(0, 1)], px * .13, Profile.Of("lanceolate"),
                veins: false);
        }
        if (open)
        {
            var m = px < 8 ? 11 : 17;
            for (var i = 0; i < m; i++)
            {
                var a = (i * 7 % m / (m - 1.0) - .5) * 3.5;
                var d = P2.Dir(a);
                var l = px * e.R(.72, 1.02);
                var b = q - new P2(0, px * .12);
                var bend = d.Left * (-Math.Sign(a) * px * .16);
                pen.Blade([b + d * (px * .14), b + d * (l * .55) - bend * .3, b + d * l + bend], Math.Max(.9, px * .085),
                    Profile.Of("spatulate"), veins: false, fill: fill);
                if (px > 9) pen.Line([b + d * l + bend, b + d * (l * 1.12) + bend * .4]);
            }
        }
        pen.Blob(q - new P2(0, px * .1), px * .3, "p");
        if (px > 6) Dots(q - new P2(0, px * .1), px * .22, 9, e);
    }

    private void GlobeFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        pen.Blob(q, px * .8, open ? fill : "p");
        if (px > 5.5)
        {
            var m = px > 7 ? 22 : 9;
            for (var i = 0; i < m; i++)
            {
                var a = i * Golden;
                var r = px * .74 * Math.Sqrt((i + .5) / m);
                var b = q + P2.Dir(a) * r;
                pen.Line([b, b + P2.Dir(a) * (px * .2)]);
            }
            for (var i = 0; i < 9; i++)
            {
                var d = P2.Dir(i * .698);
                pen.Line([q + d * (px * .8), q + d * (px * 1.05)]);
            }
            for (var i = 0; i < 4; i++)
            {
                var d = P2.Dir(Math.PI + (i - 1.5) * .7);
                pen.Blade([q + d * (px * .6), q + d * (px * .95), q + d * (px * 1.3)], Math.Max(.7, px * .09),
                    Profile.Of("lanceolate"), veins: false);
            }
        }
    }

    private void ThimbleFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        double l = px * 1.75, w = Math.Max(1.5, px * .3);
        pen.Blade([q, q + dir * (l * .3), q + dir * (l * .65), q + dir * l], w, new Profile(.3, .35), veins: false);
        if (px > 7) for (var i = 0; i < 12; i++)
        {
            var u = .35 + .55 * e.U();
            pen.Line([q + dir * (l * u) + dir.Left * (w * e.R(-.6, .6)), q + dir * (l * u + 2)]);
        }
        if (!open) return;
        var ring = .3 + .25 * (seed - .5);
        for (var r = 0; r < 2; r++) for (var i = -3; i <= 3; i++)
        {
            var b = q + dir * (l * (ring + r * .13 - .012 * i * i)) + dir.Left * (w * i / 2.7);
            pen.Blob(b, Math.Max(1.1, px * .11), fill, px > 4);
            if (px > 5)
            {
                pen.Line([b, b + dir.Left * (i * px * .03) + dir * (px * .08)]);
                if (px > 9) pen.Blob(b + dir.Left * (i * px * .045 + .2) + dir * (px * .12), 1, "f-orange", false);
            }
        }
    }

    private void ColumbineFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        var L = dir.Left;
        foreach (var i in new[] { -1.0, 1, 0 })
            pen.Blade([q + L * (i * px * .42), q - dir * (px * .15) + L * (i * px * .5),
                        q - dir * (px * .7) + L * (i * px * .3), q - dir * (px * 1.15) + L * (i * px * .2)], px * .15, new Profile(.2,
                .6), veins: false, fill: fill);
        foreach (var i in new[] { -1.0, 1 })
            pen.Blade([q + L * (i * px * .2), q + dir * (px * .25) + L * (i * px * .6),
                        q + dir * (px * .5) + L * (i * px * .95)], px * .22, Profile.Of("ovate"), veins: false, fill: fill);
        foreach (var i in new[] { -1.0, 1, 0 })
            pen.Blade([q + L * (i * px * .3) - dir * (px * .05), q + dir * (px * .3) + L * (i * px * .34),
                        q + dir * (px * .62) + L * (i * px * .3)], px * .24, Profile.Of("round"), veins: false, fill: "f-yellow");
        pen.Lines([[q + dir * (px * .5), q + dir * (px * .85) + L * (px * .06), q + dir * (px * 1.15) + L * (px * .1)],
                    [q + dir * (px * .5), q + dir * (px * .85), q + dir * (px * 1.2)],
                    [q + dir * (px * .5), q + dir * (px * .85) - L * (px * .06), q + dir * (px * 1.12) - L * (px * .12)]]);
    }

    private void SmokeFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        var L = dir.Left;
        pen.Blade([q, q + dir * (px * .5), q + dir * (px * 1.1), q + dir * (px * 1.5)], px * .6, new Profile(.4, .5),
            veins: false, fill: fill);
        if (px > 9)
        {
            foreach (var i in new[] { -1.0, 1 })
                pen.Blade([q + L * (i * px * .3), q + L * (i * px * .75) + dir * (px * .5),
                            q + L * (i * px * .8) + dir * (px * 1.0)], px * .08, Profile.Of("linear"), veins: false, fill: "f-red");
            pen.Lines([[q + dir * (px * .2), q + dir * (px * .7), q + dir * (px * 1.3)]], ink: fill + "-l n2");
        }
    }

    private void ShootingFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        var L = dir.Left;
        foreach (var i in new[] { -2.0, 2, -1, 1, 0 })
            pen.Blade([q, q + L * (i * px * .2) - dir * (px * .25), q + L * (i * px * .3) - dir * (px * .85),
                        q + L * (i * px * .24) - dir * (px * 1.3)], px * .19, Profile.Of("elliptic"), veins: false, fill: fill);
        pen.Blob(q, px * .2, "f-yellow", px > 4);
        pen.Blade([q, q + dir * (px * .3), q + dir * (px * .7)], px * .16, Profile.Of("lanceolate"), veins: false,
            fill: "f-dark");
    }

    private void OnionFlower(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, fill, open, seed) = one;
        if (px < 2.2)
        {
            pen.Blob(q, px, fill);
            return;
        }
        foreach (var i in new[] { -.8, .8, 0 })
        {
            var d = P2.Dir(Math.Atan2(dir.X, -dir.Y) + i * .6);
            pen.Blade([q, q + d * (px * .7), q + d * (px * 1.4)], px * .4, Profile.Of("elliptic"), veins: false, fill: fill);
        }
        if (px > 4) pen.Lines([[q + dir * px, q + dir * (px * 2)], [q + dir * px, q + dir * (px * 1.9) + dir.Left * (px * .4)]]);
    }

    private void Iris(P2 q, double px, Chance e, string fill)
    {
        pen.Blade([q + new P2(0, px * .4), q + new P2(-px * .1, -px * .1), q + new P2(-px * .22, -px * .75)], px * .22,
            Profile.Of("petal"), veins: false, fill: fill);
        pen.Blade([q + new P2(0, px * .4), q + new P2(px * .1, -px * .1), q + new P2(px * .25, -px * .8)], px * .22,
            Profile.Of("petal"), veins: false, fill: fill);
        foreach (var i in new[] { -1.0, 1.0, .12 })
        {
            P2[] ax = [q + new P2(0, px * .3), q + new P2(i * px * .45, px * .02), q + new P2(i * px * .85, px * .22),
                q + new P2(i * px * .98, px * .7)];
            if (i == .12)
                ax = [q + new P2(0, px * .25), q + new P2(px * .03, px * .4), q + new P2(px * .06, px * .8),
                    q + new P2(px * .04, px * 1.1)];
            pen.Blade(ax, px * .28, Profile.Of("petal"), veins: false, fill: fill);
            if (px > 6)
            {
                pen.Blade([ax[1], ax[1] + (ax[2] - ax[1]) * .5, ax[1] + (ax[2] - ax[1]) * .95], px * .09, Profile.Of("elliptic"),
                    veins: false, fill: "f-yellow");
                if (px > 14) pen.Lines([[ax[2], ax[2] + (ax[3] - ax[2]) * .6]], ink: fill + "-l n2");
            }
        }
        foreach (var i in new[] { -1.0, 1 })
            pen.Blade([q + new P2(0, px * .35), q + new P2(i * px * .25, px * .05), q + new P2(i * px * .5, -px * .02)], px * .1,
                Profile.Of("strap"), veins: false, fill: fill);
    }
}
