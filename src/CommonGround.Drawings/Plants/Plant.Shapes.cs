using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Plants;

/// <summary>Balls, thistles, trumpets, bells, hoods of arums, violets and catkins; and the fruits that follow.</summary>
internal sealed partial class Plant
{
    private void Shaped(Opening one)
    {
        switch (s.Flower)
        {
            case "ball":
                Ball(one);
                break;
            case "thistle":
                Thistle(one);
                break;
            case "trumpet":
                Trumpet(one);
                break;
            case "bell":
                Bell(one);
                break;
            case "spathe":
                Spathe(one);
                break;
            case "violet":
                Violet(one);
                break;
            default:
                Catkin(one);
                break;
        }
    }

    /// <summary>A round head of small flowers: clover, buttonbush, onion.</summary>
    private void Ball(Opening one)
    {
        var (_, _, _, px, q, _, head, e, fill, open, _) = one;
        if (!open)
        {
            pen.Blob(q, Math.Max(1, px * .6), head == Head.Bud ? "p" : "f-green");
            return;
        }

        pen.Blob(q, px, fill);
        if (px < 4)
        {
            return;
        }

        var rays = new List<IReadOnlyList<P2>>();
        for (var i = 0; i < (px > 8 ? 26 : 12); i++)
        {
            var d = P2.Dir((i * Golden) + e.R(-.2, .2));
            var r = px * Math.Sqrt((i + 1) / 27.0);
            rays.Add([q + (d * (r * .7)), q + (d * (r * .95)), q + (d * (r * 1.12))]);
        }

        pen.Lines(rays, ink: fill + "-l n2");
    }

    /// <summary>A spiny cup with a tuft above it.</summary>
    private void Thistle(Opening one)
    {
        var (_, _, _, px, q, dir, _, _, fill, open, _) = one;
        var cup = q - (dir * (px * .35));
        if (open)
        {
            pen.Blade([cup, q + (dir * (px * .3)), q + (dir * (px * .7)), q + (dir * (px * 1.05))], px * .75, new Profile(.9, .22),
                veins: false, fill: fill);
            Burst(q + (dir * (px * .4)), px * .8, px < 4 ? 4 : 9, dir, 1.7, fill);
        }

        pen.Blob(cup, Math.Max(1, px * .55), "p");
        if (px > 4)
        {
            for (var i = 0; i < 9; i++)
            {
                var d = P2.Dir(i * .698);
                pen.Line([cup + (d * (px * .4)), cup + (d * (px * .72))]);
            }
        }
    }

    /// <summary>A funnel seen from the side: bindweed, jimsonweed, honeysuckle.</summary>
    private void Trumpet(Opening one)
    {
        var (_, _, _, px, q, dir, _, _, fill, _, _) = one;
        var side = dir.Left;
        P2 A(double along, double across) => q + (dir * (px * along)) + (side * (px * across));
        if (px < 2.4)
        {
            pen.Blob(A(.6, 0), px, fill);
            return;
        }

        pen.Shape(new Trace().M(A(0, .1)).Q(A(.8, .14), A(1.2, .42)).Q(A(1.45, .75), A(1.6, 1)).Q(A(1.85, .5), A(1.72, 0))
            .Q(A(1.85, -.5), A(1.6, -1))
            .Q(A(1.45, -.75), A(1.2, -.42)).Q(A(.8, -.14), A(0, -.1)).Z(), fill);
        if (px > 5)
        {
            pen.Lines([[A(1.6, .98), A(1.5, 0), A(1.6, -.98)], [A(.6, 0), A(1, .02), A(1.45, 0)]], ink: fill + "-l n2");
            pen.Blade([A(0, 0), A(.12, .1), A(.4, .2)], px * .1, Profile.Of("lanceolate"), veins: false);
        }
    }

    /// <summary>A bell with its lobes turned out a little.</summary>
    private void Bell(Opening one)
    {
        var (_, _, _, px, q, dir, _, _, fill, _, _) = one;
        var side = dir.Left;
        P2 A(double along, double across) => q + (dir * (px * along)) + (side * (px * across));
        if (px < 2)
        {
            pen.Blob(A(.5, 0), px, fill);
            return;
        }

        pen.Shape(new Trace().M(A(0, .3)).Q(A(.5, .75), A(1.1, .62)).Q(A(1.4, .75), A(1.55, .95)).Q(A(1.3, .4), A(1.5, .25))
            .Q(A(1.25, 0), A(1.5, -.25))
            .Q(A(1.3, -.4), A(1.55, -.95)).Q(A(1.4, -.75), A(1.1, -.62)).Q(A(.5, -.75), A(0, -.3)).Q(A(-.12, 0), A(0, .3)).Z(), fill);
        if (px > 6)
        {
            pen.Lines([[A(.2, .1), A(.8, .14), A(1.2, .16)], [A(.2, -.12), A(.8, -.16), A(1.2, -.18)]], ink: fill + "-l n2");
        }
    }

    /// <summary>The hood and spike of an arum.</summary>
    private void Spathe(Opening one)
    {
        var (_, _, _, px, q, _, _, _, fill, open, _) = one;
        var (up, side) = (new P2(0, -1), new P2(1, 0));
        P2 A(double along, double across) => q + (up * (px * along)) + (side * (px * across));
        pen.Blade([A(.2, 0), A(.8, .02), A(1.5, .03)], px * .16, Profile.Of("oblong"), veins: false, fill: "f-straw");
        pen.Shape(new Trace().M(A(-.5, -.1)).Q(A(.2, -.55), A(.9, -.5)).Q(A(open ? 2.2 : 1.6, -.6), A(open ? 1.9 : 1.7, .6))
            .Q(A(1.3, .75), A(1.25, .55))
            .Q(A(1.5, 0), A(.75, .12)).Q(A(.4, .5), A(-.5, .1)).Z(), fill);
        if (px > 5)
        {
            pen.Lines([[A(-.3, 0), A(.5, -.25), A(1.4, -.3)], [A(-.3, .02), A(.4, -.05), A(.9, -.15)]], ink: fill + "-l n2");
        }
    }

    /// <summary>Two petals up, two to the sides, one down.</summary>
    private void Violet(Opening one)
    {
        var (_, _, _, px, q, _, _, _, fill, _, _) = one;
        if (px < 2)
        {
            pen.Blob(q, px, fill);
            return;
        }

        foreach (var (turn, length) in new[] { (-.45, 1.0), (.45, 1.0), (-1.7, .95), (1.7, .95), (Math.PI, 1.1) })
        {
            var d = P2.Dir(turn);
            pen.Blade([q, q + (d * (px * length * .5)), q + (d * (px * length))], px * .36, Profile.Of("petal"), veins: false, fill: fill);
        }

        pen.Blob(q, Math.Max(.7, px * .14), "f-" + s.CentreColour, false);
    }

    private void Catkin(Opening one)
    {
        var (_, _, _, px, q, dir, _, _, fill, open, _) = one;
        var down = dir.Y > 0 ? dir : (dir + new P2(0, 1.6)).Unit();
        var way = s.Inflorescence == "catkinsup" ? dir : down;
        var length = px * (open ? 2 : 1.2);
        pen.Blade([q, q + (way * (length * .35)), q + (way * (length * .7)), q + (way * length)], Math.Max(1, px * .34),
            Profile.Of("oblong"), veins: false, fill: open ? fill : "p");
        if (px > 5)
        {
            Dots(q + (way * (length * .5)), px * .3, 6, one.E);
        }
    }

    private void Fruit(Opening one, bool green)
    {
        var (_, _, _, px, q, dir, head, e, _, _, _) = one;
        var fill = green ? "f-green" : "f-" + s.SeedColour;
        var size = Math.Max(1.1, .55 * pen.S);
        switch (s.SeedHead)
        {
            case "berry":
                if (head == Head.Winter && e.Is(.4))
                {
                    return;
                }

                pen.Blob(q, Math.Min(size, Math.Max(1.4, px)), fill);
                break;
            case "nut":
                pen.Blob(q, Math.Max(1.2, 1.1 * pen.S), fill);
                break;
            case "bur":
                pen.Blob(q, Math.Max(1.2, px * .55), fill);
                if (px > 3)
                {
                    Burst(q, px * .8, 9, dir, 5.6, "dry");
                }

                break;
            case "samara":
                foreach (var way in new[] { -.7, .7 })
                {
                    var d = P2.Dir(Math.PI + way);
                    var length = Math.Max(2.4, 3 * pen.S);
                    pen.Blade([q, q + (d * (length * .5)), q + (d * length)], Math.Max(.8, length * .16), Profile.Of("obovate"),
                        veins: false, fill: fill);
                }

                break;
            case "bean":
                var bean = Math.Max(2.6, s.FlowerWidthCm * 1.9 * pen.S);
                var fall = (dir + new P2(0, .9)).Unit();
                pen.Blade([q, q + (fall * (bean * .4)) + (fall.Left * (bean * .06)),
                    q + (fall * (bean * .8)) + (fall.Left * (bean * .05)), q + (fall * bean)],
                    Math.Max(.8, bean * .1), Profile.Of("oblong"), veins: false, fill: fill);
                break;
            case "silique":
                var pod = Math.Max(2.4, s.FlowerWidthCm * 2.6 * pen.S);
                pen.Line([q, q + (dir * (pod * .5)), q + ((dir + new P2(0, -.25)).Unit() * pod)], pod > 9);
                break;
            default:
                var r = Math.Max(1.6, px * .9);
                pen.Blob(q, r * .9, "q2", false);
                Burst(q, r, r < 3 ? 6 : 14, dir, 6, "dry");
                break;
        }
    }
}
