using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>Stems of plants that are not grasses.</summary>
internal sealed partial class Plant
{
    // ---- forbs -------------------------------------------------------------------------------------------------
    private void Forb()
    {
        double size = st.Size, h = s.HeightCm * Math.Pow(size, .75) * c.R(.93, 1.05), g = st.Growth;
        var basal = s.LeafPlace == "basal" || s.Rosette;
        if (s.FlowersAtTheGround && st.Head == Head.Open) Hoods();
        if (s.FlowersAtTheGround && st.Head == Head.Open && g < .4) return;
        if (s.LeafShape == "pad")
        {
            Pads();
            return;
        }
        c = Of("base");
        if (basal && (!st.Dead || s.Winter == "evergreen"))
        {
            var n = s.LeafPlace == "basal" ? s.Nodes : 9;
            n = Math.Max(4, (int)(n * (size * .6 + .4) * Math.Max(.55, pen.Detail)));
            var grown = s.FlowersAtTheGround ? g : Math.Min(1, g * 3.2 + .35);
            var a0 = c.R(0, 6.3);
            var sword = s.LeafShape is "sword" or "blade" or "strap";
            for (var i = 0; i < n; i++)
            {
                var az = a0 + i * Golden + c.R(-.25, .25);
                var r = Math.Sqrt((i + .5) / n);
                var el = (s.Form == "fern" ? 1.42 - .62 * r : sword ? 1.5 - .42 * r
                    : s.LeafLengthCm > 35 && s.LeafPlace == "basal" ? 1.28 - .5 * r : s.Form == "scape" ? .75 - .3 * r
                    : s.LeafShape is "ternate" or "palmate" or "pinnatifid" ? 1.15 - .5 * r : .95 - .62 * r) + c.R(-.12, .12);
                if (st.Dead) el *= .35;
                var b = new V3(Math.Sin(az), 0, Math.Cos(az)) * (s.SpreadCm * (s.Form == "mat" ? .32 : .05) * r * size);
                AddLeaf(b, az, el, s.LeafLengthCm * Math.Pow(size, .6) * grown * c.R(.72, 1.05),
                    s.LeafWidthCm * Math.Pow(size, .6) * (.5 + .5 * grown), sword ? c.R(.15, .75) * r
                    : s.LeafLengthCm > 35 && s.LeafPlace == "basal" ? c.R(.15, .4) : c.R(.35, .8), petiole: !sword
                    && s.LeafShape is not ("obovate" or "linear" or "sword"));
            }
        }
        if ((st.Head == Head.None && s.LeafPlace == "basal") || s.FlowersAtTheGround) return;
        if (g < .13) return;
        if (st.Head == Head.None && s.Rosette && g < .3 && size < .7) return;
        c = Of("stems");
        var stems = Math.Max(1,
            (int)Math.Round(s.Stems * (size < 1 ? size * size * .9 + .1 : 1) * c.R(.85, 1.15) * (pen.Coarse && s.Stems > 4 ? .72 : 1)
                * (s.Form == "mat" && s.Habit == "leaning" ? 1.7 : 1)));
        var phase = c.R(0, 6.3);
        for (var i = 0; i < stems; i++)
        {
            c = Of("stem" + i);
            double r = stems == 1 ? .15 : Math.Sqrt((i + .4) / stems), az = phase + i * Golden + c.R(-.3, .3);
            var lean = (s.Habit.StartsWith("leaning", StringComparison.Ordinal) ? .4
                : s.Habit.StartsWith("arching", StringComparison.Ordinal) ? .3
                : .2) * r * Math.Clamp(s.SpreadCm / s.HeightCm / .45, .5, 1.7) + c.N() * .025;
            var hi = h * g * (1 - .2 * r * r) * c.R(.92, 1.04);
            var broken = st.Dead && c.Is(.16);
            Stem(new V3(Math.Sin(az), 0, Math.Cos(az)) * (s.SpreadCm * (s.Form == "mat" && s.Habit != "leaning" ? .36 : .09) * r * size),
                az, lean, broken ? hi * c.R(.4, .7) : hi,
                broken, i);
        }
    }

    private V3[] StemLine(V3 b, double az, double lean, double h)
    {
        const int n = 12;
        var reach = s.Form == "mat" ? c.R(.12, 1.05) : 1;
        var p = new V3[n + 1];
        var o = new V3(Math.Sin(az), 0, Math.Cos(az));
        double ph = c.R(0, 6.3), sway = h * .011, collapse = st.Dead && s.Winter == "collapse" ? 1 : 0;
        var arch = s.Habit.StartsWith("arching", StringComparison.Ordinal) ? .35 : 0;
        var low = s.Habit.StartsWith("leaning", StringComparison.Ordinal);
        for (var i = 0; i <= n; i++)
        {
            double t = (double)i / n, out1 = low ? 1 - Math.Pow(1 - t, 1.7) : Math.Pow(t, 1.5);
            var q = b + o * (lean * h * out1 + arch * h * .5 * Math.Pow(t, 3)) + V3.Up * (h * (t - arch * .22 * t * t * t));
            q += new V3(Math.Sin(ph + t * 5) * sway, 0, Math.Cos(ph + t * 4) * sway);
            if (collapse > 0)
            {
                var a = Math.Min(1.35, t * 3.2) * .95;
                q = b + o * (h * t * Math.Sin(a) * .5) + V3.Up * (h * t * Math.Cos(a) * .7);
            }
            if (s.Form == "mat" && s.Habit == "leaning")
            {
                // Creeping stems lie on the ground and rise at their ends; those that end near the middle rise most: a mound, no bowl.
                q = b + o * (s.SpreadCm * .5 * reach * Math.Pow(st.Size, .5) * (1 - Math.Pow(1 - t, 1.5)))
                    + V3.Up * (h * (1.1 - (.55 * reach)) * ((.1 * Math.Min(1, t * 4)) + (.9 * Math.Pow(Math.Max(0, (t - .3) / .7), 1.4))));
            }
            p[i] = q;
        }
        return p;
    }

    private static V3 Along(V3[] p, double t)
    {
        var f = Math.Clamp(t, 0, 1) * (p.Length - 1);
        var k = Math.Min((int)f, p.Length - 2);
        return p[k] + (p[k + 1] - p[k]) * (f - k);
    }

    private static V3 Tangent(V3[] p, double t) => (Along(p, t + .06) - Along(p, t - .06)).Unit();

    private void AddStem(V3[] line, double cm, double z)
    {
        var p = P(line);
        var px = cm * pen.S;
        Add(z - .3, () => pen.Halo([p]));
        if (px < 2.6)
        {
            Add(z, () => pen.Line(p, px > (pen.Coarse ? .95 : .55)));
            return;
        }
        Add(z, () =>
        {
            var l = new List<P2>();
            var r = new List<P2>();
            for (var i = 0; i < p.Count; i++)
            {
                var n = (p[Math.Min(p.Count - 1, i + 1)] - p[Math.Max(0, i - 1)]).Unit()
                    .Left * (px / 2 * (1 - .55 * i / (p.Count - 1.0)));
                l.Add(p[i] + n);
                r.Add(p[i] - n);
            }
            var body = new Trace().M(l[0]).Curve(l);
            var back = Enumerable.Reverse(r).ToList();
            body.L(back[0]).Curve(back).Z();
            pen.Shape(body, "p", false);
            pen.Line(l, false);
            pen.Line(r, true);
        });
    }

    private void Stem(V3 b, double az, double lean, double h, bool broken, int index)
    {
        var line = StemLine(b, az, lean, h);
        var z = line[6].Z;
        var g = st.Growth;
        var headless = st.Head == Head.None || broken;
        var crown = headless ? 0 : Math.Min(.92, s.InflorescenceLengthCm * Math.Min(1, st.Size + .1) / h);
        if (s.Inflorescence == "plume" && !headless) for (var i = 0; i < line.Length; i++)
        {
            var u = Math.Max(0, (i / 12.0 - (1 - crown)) / crown);
            line[i] += new V3(Math.Sin(az) >= 0 ? 1 : -1, 0, .2) * (crown * h * .42 * u * u) - V3.Up * (crown * h * .26 * u * u * u);
        }
        AddStem(line, (.26 + s.HeightCm / 330) * (st.Size * .4 + .6), z);
        if (s.LeafPlace != "basal")
        {
            double t0 = s.Rosette ? .1 : .06, t1 = headless ? .985 : 1
                - crown * (s.Inflorescence is "few" or "spray" or "dome" or "pyramid" or "panicle" or "plume" ? .35
                : s.Inflorescence is "cluster" or "axilumbels" or "sideraceme" or "corymb" or "umbels" ? .2 : .97);
            var nodes = Math.Max(Math.Min(2, s.Nodes),
                (int)(s.Nodes * Math.Sqrt(g) * (broken ? .5 : 1) * Math.Min(1, pen.Detail * (s.Nodes > 24 ? .9 : 1))));
            var a = az + c.R(0, 6.3);
            // Scale leaves are too small to be seen: their twigs are drawn.
            var leaf = s.Form == "mat" && s.Inflorescence == "none" ? s.SpreadCm * .05 : s.LeafLengthCm;
            for (var k = 0; k < nodes; k++)
            {
                double t = t0 + (t1 - t0) * (nodes == 1 && s.Nodes == 1 ? .9 : Math.Pow((k + .5) / nodes, .92)),
                    sizeAt = 1 - (1 - s.LeafTaper) * t;
                if (st.Growth < 1 && headless) sizeAt *= Math.Clamp((1 - t) * 3.5 + .3, .3, 1);
                if (!s.Rosette) sizeAt *= Math.Clamp(.6 + t * 2.4, .6, 1);
                var per = s.LeafPlace == "opposite" ? 2 : s.LeafPlace == "whorled" ? (int)s.LeavesPerNode : 1;
                a += s.LeafPlace == "alternate" ? (s.LeafShape is "strap" ? Math.PI : Golden) : s.LeafPlace == "opposite"
                    ? Math.PI / 2 + .12 : .5;
                for (var m = 0; m < per; m++)
                {
                    if (st.Dead && c.Is(s.LeafShape is "pinnate" or "trifoliate" or "strap" ? .93 : .76)) continue;
                    var la = a + m * Math.Tau / per + c.R(-.12, .12);
                    var el = (s.LeafShape is "sword" ? 1.0 : s.LeafShape is "linear" ? .75 : .62) + .25 * t + c.R(-.13, .13)
                        - (s.LeafPlace == "whorled" ? .3 : 0);
                    AddLeaf(Along(line, t), la, st.Dead ? -.5 : el,
                        leaf * sizeAt * (.5 + .5 * Math.Sqrt(st.Size)) * c.R(.88, 1.08) * (st.Dead ? .6 : 1),
                        s.LeafWidthCm * sizeAt * (st.Dead ? .3 : 1) * (.5 + .5 * Math.Sqrt(st.Size)), st.Dead ? 1.2
                        : s.LeafShape is "pinnatifid" ? .25 : s.LeafShape is "linear" ? .35 : .75);
                }
            }
        }
        if (s.Branched && s.Stems <= 3 && s.LeafPlace != "basal" && st.Growth > .5) Branches(line, az, h, index);
        if (s.Branched && s.Stems <= 3 && s.LeafPlace != "basal" && st.Growth > .5) Branches(line, az, h, index);
        if (!headless)
        {
            c = Of("head" + index);
            AddStand(line, crown, az, h);
        }
    }

    /// <summary>Plants of one or few stems branch: each branch is a smaller stem with its own leaves and flowers.</summary>
    private void Branches(V3[] line, double az, double h, int index)
    {
        var count = s.HeightCm > 60 ? 6 : 4;
        for (var k = 0; k < count; k++)
        {
            c = Of($"branch{index}-{k}");
            var t = .22 + .56 * k / count + c.R(-.03, .03);
            var a = az + k * Golden + c.R(-.3, .3);
            var length = h * c.R(.3, .42) * (1.1 - .5 * t) * Math.Sqrt(st.Size);
            var from = Along(line, t);
            var branch = new V3[13];
            for (var i = 0; i <= 12; i++)
            {
                var u = i / 12.0;
                branch[i] = from + Hor(a) * (length * .62 * Math.Pow(u, .8)) + V3.Up * (length * .85 * Math.Pow(u, 1.15));
            }
            AddStem(branch, .2 + s.HeightCm / 600, branch[6].Z);
            var crown = st.Head == Head.None ? 0 : Math.Min(.7, s.InflorescenceLengthCm * .5 / length);
            var leaves = st.Dead ? 0 : s.LeafShape is "lacy" or "ternate" or "pinnate" ? 2 : 5;
            for (var i = 0; i < leaves; i++)
            {
                var at = .15 + (.85 - crown) * i / leaves;
                AddLeaf(Along(branch, at), a + (i % 2 == 0 ? 1.1 : -1.1), .5, s.LeafLengthCm * (.75 - .3 * at),
                    s.LeafWidthCm * (.75 - .3 * at), .7);
            }
            if (st.Head != Head.None) AddStand(branch, crown, a, length);
        }
    }
}
