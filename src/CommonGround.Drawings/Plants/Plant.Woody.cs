using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Plants;

/// <summary>Shrubs, trees and vines: wood that stays, leaves that come and go.</summary>
internal sealed partial class Plant
{
    private bool Leafy => !st.Dead || s.Winter == "evergreen";

    private double LeafOut => st.Dead ? 1 : Math.Clamp(.5 + (st.Growth * .5), .5, 1);

    private void Shrub()
    {
        var size = st.Size;
        var h = s.HeightCm * Math.Pow(size, .75);
        c = Of("limbs");
        var limbs = Math.Max(2, (int)Math.Round(s.Stems * ((size * .6) + .4)));
        var phase = c.R(0, 6.3);
        for (var i = 0; i < limbs; i++)
        {
            c = Of("limb" + i);
            var r = Math.Sqrt((i + .3) / limbs);
            var az = phase + (i * Golden) + c.R(-.3, .3);
            var tall = h * (1 - (.24 * r * r)) * c.R(.9, 1.02);
            var reach = s.SpreadCm * .4 * Math.Pow(size, .6) * r * c.R(.85, 1.1);
            var line = Limb(Hor(az) * (s.SpreadCm * .05 * r), az, reach, tall);
            AddStem(line, Math.Clamp(s.HeightCm / 150, .5, 3), line[6].Z);
            Twigs(line, tall, az, s.HeightCm * pen.S > 150 ? 8 : 5);
        }
    }

    /// <summary>A woody line: straight below, arching over where the habit says so.</summary>
    private V3[] Limb(V3 b, double az, double reach, double tall)
    {
        var line = new V3[13];
        var arch = s.Habit == "arching" ? .3 : 0;
        var (ph, sway) = (c.R(0, 6.3), tall * .018);
        for (var i = 0; i <= 12; i++)
        {
            var t = i / 12.0;
            line[i] = b + (Hor(az) * (reach * ((.55 * t) + (.45 * t * t)) * (1 + arch)))
                + (V3.Up * (tall * (t - (arch * .5 * Math.Pow(t, 3)))))
                + new V3(Math.Sin(ph + (t * 6)) * sway * t, 0, Math.Cos(ph + (t * 5)) * sway * t);
        }

        return line;
    }

    private void Twigs(V3[] limb, double tall, double az, int count)
    {
        for (var k = 0; k <= count; k++)
        {
            var t = k == count ? 1 : .28 + (.68 * k / count);
            var a = az + (k * Golden) + c.R(-.4, .4);
            var length = k == count ? tall * .12 : tall * c.R(.16, .26) * (1.15 - (.5 * t));
            var from = Along(limb, t);
            var d = (Tangent(limb, t) * .9 + Hor(a) * (k == count ? .1 : .8)).Unit();
            var line = new V3[13];
            for (var i = 0; i <= 12; i++)
            {
                line[i] = from + ((d + (V3.Up * (.25 * i / 12))).Unit() * (length * i / 12));
            }

            var z = line[8].Z;
            Add(z - .1, () => pen.Line(P(line)));
            if (s.HeightCm * pen.S < 70)
            {
                Tuft(line, length, z);
            }
            else
            {
                Leaves(line, length, a);
            }

            if (st.Head != Head.None && s.Inflorescence != "none" && (k == count || k % 2 == 0))
            {
                var crown = Math.Min(.9, s.InflorescenceLengthCm / length);
                AddStand(line, crown, a, length);
            }
        }
    }

    /// <summary>Leaves too small to be drawn one by one: a small clump at the end of the twig.</summary>
    private void Tuft(V3[] twig, double length, double z)
    {
        if (!Leafy)
        {
            return;
        }

        var wide = Math.Max(length * .72, 8 / pen.S) * LeafOut;
        var middle = twig[9];
        var lump = new List<V3>();
        for (var k = 0; k < 11; k++)
        {
            var a = k * Math.Tau / 11;
            lump.Add(middle + new V3(Math.Sin(a) * wide * c.R(.8, 1.15), Math.Cos(a) * wide * .62 * c.R(.75, 1.15), 0));
        }

        var leaves = Enumerable.Range(0, 6).Select(_ => (X: c.R(-.6, .6), Y: c.R(-.4, .4))).ToList();
        Add(z, () => Clump(lump, middle, wide, -2, leaves));
    }

    private void Leaves(V3[] twig, double length, double az)
    {
        if (!Leafy)
        {
            return;
        }

        var px = s.LeafLengthCm * pen.S;
        var room = length / Math.Max(1.5, s.LeafLengthCm * .5);
        var nodes = (int)Math.Clamp(room, 2, px < 5 ? 4 : 7);
        for (var i = 0; i < nodes; i++)
        {
            var t = .2 + (.8 * (i + .5) / nodes);
            var per = s.LeafPlace == "opposite" ? 2 : s.LeafPlace == "whorled" ? 3 : 1;
            for (var m = 0; m < per; m++)
            {
                var a = az + (i * (per > 1 ? Math.PI / 2 : Golden)) + (m * Math.Tau / per);
                var grow = c.R(.75, 1.05) * LeafOut;
                // Never too small to be told: place and outline count for more than size.
                var shown = Math.Max(s.LeafLengthCm * grow, 6.5 / pen.S);
                AddLeaf(Along(twig, t), a, .35 + c.R(-.3, .3), shown, shown * s.LeafWidthCm / s.LeafLengthCm, .5, petiole: true);
            }
        }
    }

    private void Tree()
    {
        var conifer = s.Form == "conifer";
        var h = s.HeightCm * Math.Pow(st.Size, .8);
        c = Of("trunk");
        var trunk = Limb(default, c.R(0, 6.3), h * .02, h * (conifer ? 1 : .82));
        AddStem(trunk, h * .028, 0);
        var limbs = conifer ? 46 : Math.Max(9, s.Stems + 3);
        var wide = s.SpreadCm * .5 * Math.Pow(st.Size, .8);
        if (conifer)
        {
            Add(-2 * wide, () => Cone(h, wide));
        }

        for (var i = 0; i < limbs; i++)
        {
            c = Of("limb" + i);
            var t = conifer ? .06 + (.92 * i / limbs) : .3 + (.66 * (i + .5) / limbs);
            var az = conifer ? (i % 2 == 0 ? 1.57 : -1.57) + c.R(-1.1, 1.1) : (i * Golden) + c.R(-.3, .3);
            var reach = conifer ? wide * Math.Pow(1 - t, .8) * c.R(.85, 1.1)
                : wide * Math.Sin(Math.PI * Math.Min(.95, .25 + (t * .68))) * c.R(.75, 1.05);
            var from = Along(trunk, t);
            var rise = conifer ? -reach * .12 : (h * .16) + (reach * .25);
            var limb = new V3[13];
            for (var k = 0; k <= 12; k++)
            {
                var u = k / 12.0;
                limb[k] = from + (Hor(az) * (reach * u)) + (V3.Up * (rise * (conifer ? u * u : u)));
            }

            var z = Math.Cos(az) * reach;
            if (conifer)
            {
                Needles(limb, z, reach);
                continue;
            }

            Add(z - (wide * .3), () => pen.Line(P(limb), heavy: true));
            Spray(limb, reach, wide, z, az);
        }
    }

    /// <summary>The end of a limb: a clump of leaves, or bare twigs.</summary>
    private void Spray(V3[] limb, double reach, double wide, double z, double az)
    {
        var clump = Math.Max(wide * .44, 10);
        var ends = new List<V3>();
        for (var k = 0; k < 5; k++)
        {
            var a = az + ((k - 2) * .7);
            var from = Along(limb, .55 + (.1 * k));
            var to = from + (Hor(a) * (clump * c.R(.6, 1))) + (V3.Up * (clump * c.R(.2, 1)));
            ends.Add(to);
            Add(z - .2, () => pen.Line([pen.At(from), pen.At((from + to) * .5 + (V3.Up * (clump * .06))), pen.At(to)]));
        }

        if (Leafy)
        {
            var middle = limb[^1] + (V3.Up * (clump * .25));
            var lump = new List<V3>();
            for (var k = 0; k < 15; k++)
            {
                var a = k * Math.Tau / 15;
                lump.Add(middle + new V3(Math.Sin(a) * clump * c.R(.85, 1.15), Math.Cos(a) * clump * .68 * c.R(.85, 1.15), 0));
            }

            var scallops = c.I(3, 6);
            var seeds = Enumerable.Range(0, 14).Select(_ => (X: c.R(-.75, .75), Y: c.R(-.5, .5))).ToList();
            Add(z, () => Clump(lump, middle, clump, scallops, seeds));
        }

        if (st.Head is not Head.None && s.Inflorescence != "none")
        {
            foreach (var end in ends)
            {
                Put(end, (V3.Up + new V3(0, 0, .5)).Unit(), 1, State(c.U() * .8), z + 1);
                Put(end + new V3(c.R(-.3, .3) * clump, -.2 * clump, 0), (V3.Up + new V3(0, 0, .5)).Unit(), 1, State(c.U() * .8), z + 1);
            }
        }
    }

    private void Clump(List<V3> lump, V3 middle, double clump, int scallops, List<(double X, double Y)> seeds)
    {
        var ring = lump.Select(pen.At).ToList();
        var path = new Trace().M(ring[0]);
        for (var i = 0; i < ring.Count; i++)
        {
            var (a, b) = (ring[i], ring[(i + 1) % ring.Count]);
            var out1 = ((a + b) * .5) + ((b - a).Unit().Left * ((b - a).Length * .45));
            path.Q(pen.J(out1), b);
        }

        pen.Shape(path.Z());
        // A few leaves, so that a crown is not a cloud.
        var leaf = Math.Max(s.LeafLengthCm * pen.S * .8, 3.4);
        foreach (var (x, y) in seeds.Take(scallops + (pen.Coarse ? 4 : 8)))
        {
            var q = pen.At(middle + new V3(x * clump, y * clump, 0));
            pen.Line([q, q + new P2(leaf * .3, -leaf * .3), q + new P2(leaf * .7, -leaf * .1)]);
            pen.Line([q, q + new P2(leaf * .3, leaf * .15), q + new P2(leaf * .7, -leaf * .1)]);
        }
    }

    /// <summary>The paper ground of a conifer, so that it reads as one dark body.</summary>
    private void Cone(double h, double wide)
    {
        var path = new Trace().M(pen.At(new V3(-wide * .8, h * .05, 0)));
        for (var side = -1; side <= 1; side += 2)
        {
            for (var i = 1; i <= 9; i++)
            {
                var t = side < 0 ? i / 9.0 : 1 - (i / 9.0);
                var x = side * wide * (i % 2 == 0 ? .98 : .76) * Math.Pow(1 - t, .8);
                path.L(pen.J(pen.At(new V3(x, h * (.05 + (.95 * t)), 0)), 2));
            }
        }

        pen.Shape(path.Z());
    }

    private void Needles(V3[] limb, double z, double reach)
    {
        var p = P(limb);
        var strokes = new List<IReadOnlyList<P2>>();
        var count = Math.Clamp((int)(reach * pen.S / 2.6), 4, 26);
        for (var i = 0; i < count; i++)
        {
            var t = .12 + (.88 * i / count);
            var q = Pt(p, t);
            var d = Turn(Tan(p, t), i % 2 == 0 ? .7 : -.7);
            var length = Math.Max(2.4, s.LeafLengthCm * pen.S * 1.6) * c.R(.8, 1.2);
            strokes.Add([q, q + (d * (length * .6)), q + (d * length)]);
        }

        Add(z - .1, () => pen.Halo([p]));
        Add(z, () =>
        {
            pen.Line(p);
            pen.Lines(strokes);
        });
        if (st.Head is Head.Ripe or Head.Winter && s.SeedHead == "berry")
        {
            Put(Along(limb, .7), V3.Up, 1, st.Head, z + .1);
        }
    }
}
