using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>What stands after the flower, green, ripe and in winter.</summary>
internal sealed partial class Plant
{
    private void SeedHead(Opening one)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var green = head == Head.Green;
        var winter = head == Head.Winter;
        var fill = green ? "p" : "f-straw";
        if (winter && e.Is(.1)) return;
        var R = cm / 2;
        var L = dir.Left;
        switch (s.SeedHead)
        {
            case "cone":
                ConeSeed(one, green, winter, fill);
                break;
            case "disk":
                DiskSeed(one, green, winter, fill);
                break;
            case "fluff":
                FluffSeed(one, green, winter, fill);
                break;
            case "pompon" or "globe":
                PomponSeed(one, green, winter, fill);
                break;
            case "pod" or "bigpod":
                PodSeed(one, green, winter, fill);
                break;
            case "indigo":
                IndigoSeed(one, green, winter, fill);
                break;
            case "button":
                pen.Blob(q, px * .62, green ? "p" : "f-straw");
                if (px > 3) Dots(q, px * .4, 5, e);
                break;
            case "capsule" or "bigcapsule":
                CapsuleSeed(one, green, winter, fill);
                break;
            case "follicle":
                FollicleSeed(one, green, winter, fill);
                break;
            case "beak":
                pen.Blob(q, Math.Max(1, px * .22), fill);
                pen.Line([q, q + dir * (px * .8), q + dir * (px * 1.6)]);
                break;
            case "umbelseed":
                pen.Blob(q, Math.Max(.9, px * 1.1), fill, true, .7);
                break;
            case "umbelcaps":
                pen.Blob(q, Math.Max(1, px * .8), fill);
                break;
            case "plumes":
                PlumesSeed(one, green, winter, fill);
                break;
            case "thimble":
                ThimbleSeed(one, green, winter, fill);
                break;
            case "berry" or "bur" or "samara" or "bean" or "silique" or "nut" or "puff":
                Fruit(one, green);
                break;
            case "none":
                if (!winter) pen.Blob(q, Math.Max(.9, px * .3), fill);
                break;
            default:
                pen.Blob(q, Math.Max(1, px * .5), fill);
                break;
        }
    }

    private void ConeSeed(Opening one, bool green, bool winter, string fill)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var R = cm / 2;
        var L = dir.Left;
        var cone = s.RayDroopDegrees > 70 && s.FlowerColour == "yellow" ? R * .28 : R * .36;
        var tall = s.RayDroopDegrees > 70 && s.FlowerColour == "yellow" ? 2 : 1.05;
        if (px < 3)
        {
            pen.Blob(q - new P2(0, px * .3), Math.Max(1.3, px * .5),
                "f-" + (s.CentreColour == "orange" && green ? "brown" : "dark"));
            return;
        }
        if (green && px > 5) Petals(at, n, R * .8, 7, .4, 85, s.RayTip, "f-straw", cone * .8, true, e);
        Dome(at, n, cone, cone * tall, s.CentreColour == "dark" || !green ? "f-dark" : "f-brown", e);
    }

    private void DiskSeed(Opening one, bool green, bool winter, string fill)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var R = cm / 2;
        var L = dir.Left;
        if (px < 3)
        {
            pen.Blob(q, Math.Max(1.2, px * .45), fill);
            return;
        }
        Petals(at, n, R * .48, 9, .7, -30, "pointed", fill, 0, null, e);
        Dome(at, n, R * .22, R * .08, "f-brown", e);
    }

    private void FluffSeed(Opening one, bool green, bool winter, string fill)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var R = cm / 2;
        var L = dir.Left;
        if (green)
        {
            pen.Blob(q, px * .6, "p");
            return;
        }
        if (winter && e.Is(.45))
        {
            Burst(q, Math.Max(1.6, px * .5), 3, dir, 1.4, "dry");
            return;
        }
        var fr = Math.Clamp(px * .75, 1.5, 9);
        pen.Blob(q, fr * .82, "q2", false);
        Burst(q, fr * 1.1, fr < 2.4 ? 4 : 9, dir, fr < 2.4 ? 4 : 5.6, "dry");
    }

    private void PomponSeed(Opening one, bool green, bool winter, string fill)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var R = cm / 2;
        var L = dir.Left;
        pen.Blob(q, px * (s.SeedHead == "globe" ? .72 : .34), s.SeedHead == "globe" ? "f-straw" : green ? "p" : "f-brown");
        if (px > 6.5) Dots(q, px * (s.SeedHead == "globe" ? .6 : .27), s.SeedHead == "globe" ? 16 : 7, e);
        if (s.SeedHead == "pompon" && px > 3) Burst(q, px * .48, 7, new P2(0, -1), 5, "dry");
    }

    private void PodSeed(Opening one, bool green, bool winter, string fill)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var R = cm / 2;
        var L = dir.Left;
        double l = s.SeedHead == "pod" ? 8 : 9;
        l = Math.Max(l * pen.S, 6);
        var w = l * (s.SeedHead == "pod" ? .1 : .2);
        List<P2> ax = [q, q + dir * (l * .3) + L * (l * .06), q + dir * (l * .7) + L * (l * .08), q + dir * l];
        pen.Blade(ax, Math.Max(1, w), Profile.Of("lanceolate"), veins: false, fill: fill);
        if (s.SeedHead == "bigpod" && green && w > 3) for (var i = 0; i < 7; i++)
        {
            var b = q + dir * (l * (.15 + .09 * i)) + L * (w * .5 * (i % 2 == 0 ? 1 : -.2));
            pen.Line([b, b + L * 1.6]);
        }
        if (!green)
        {
            pen.Line([ax[0], ax[1] + L * (w * .2), ax[3]]);
            if (head == Head.Ripe || e.Is(.4))
            {
                var b = q + dir * (l * .55) + L * (w * .9);
                Burst(b, Math.Max(3, l * .42), 7, (L + dir * .5).Unit(), 2.2, "dry");
            }
        }
    }

    private void IndigoSeed(Opening one, bool green, bool winter, string fill)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var R = cm / 2;
        var L = dir.Left;
        var l = Math.Max(3.2, 3.4 * pen.S);
        pen.Blade([q, q + dir * (l * .3), q + dir * (l * .7), q + dir * l], Math.Max(1.2, l * .27), Profile.Of("elliptic"),
            veins: false, fill: green ? "p" : "f-dark");
    }

    private void CapsuleSeed(Opening one, bool green, bool winter, string fill)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var R = cm / 2;
        var L = dir.Left;
        var l = Math.Max(2.6, (s.SeedHead == "capsule" ? .9 : 4) * pen.S);
        pen.Blade([q, q + dir * (l * .4), q + dir * (l * .8), q + dir * l], Math.Max(1, l * .32), new Profile(.45, .55),
            veins: false, fill: fill);
        if (l > 6) pen.Line([q + dir * (l * .3), q + dir * (l * .9)]);
    }

    private void FollicleSeed(Opening one, bool green, bool winter, string fill)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var R = cm / 2;
        var L = dir.Left;
        foreach (var i in new[] { -1.0, 1, 0 })
            pen.Blade([q, q + dir * (px * .6) + L * (i * px * .28), q + dir * (px * 1.3) + L * (i * px * .42)],
                Math.Max(.8, px * .16), Profile.Of("lanceolate"), veins: false, fill: fill);
    }

    private void PlumesSeed(Opening one, bool green, bool winter, string fill)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var R = cm / 2;
        var L = dir.Left;
        if (green || head == Head.Ripe)
        {
            var l = Math.Max(5, 4.6 * pen.S);
            var ls = new List<IReadOnlyList<P2>>();
            for (var i = 0; i < (pen.S > 2 ? 11 : 5); i++)
            {
                var a = Math.Atan2(dir.X, -dir.Y) + (i / (pen.S > 2 ? 10.0 : 4) - .5) * 1.7;
                var d = P2.Dir(a);
                var d2 = P2.Dir(a + .25);
                ls.Add([q, q + d * (l * .5), q + d2 * l]);
                if (l > 14) for (var k = 2; k < 8; k++)
                {
                    var b = q + d * (l * k / 8.0) + (d2 - d) * (l * k * k / 64.0);
                    ls.Add([b, b + d2 * 2.6 + d.Left * 2.2]);
                    ls.Add([b, b + d2 * 2.6 - d.Left * 2.2]);
                }
            }
            pen.Lines(ls, ink: "f-pink-b n2");
            pen.Blob(q, Math.Max(1.2, px * .5), "f-red");
        }
        else Burst(q, Math.Max(2, px * .5), 3, dir, 1.2, "dry");
    }

    private void ThimbleSeed(Opening one, bool green, bool winter, string fill)
    {
        var (at, n, cm, px, q, dir, head, e, _, _, _) = one;
        var R = cm / 2;
        var L = dir.Left;
        pen.Blade([q, q + dir * (px * .55), q + dir * (px * 1.1), q + dir * (px * 1.75)], Math.Max(1.2, px * .26),
            new Profile(.3, .35), veins: false, fill: green ? "p" : "f-brown");
        if (px > 7) for (var i = 0; i < 12; i++)
        {
            var u = .2 + .7 * e.U();
            pen.Line([q + dir * (px * 1.75 * u) + L * (px * .2 * e.R(-.7, .7)), q + dir * (px * 1.75 * u + 2)]);
        }
    }
}
