using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>Umbels, clusters, nodding stands and slender spikes.</summary>
internal sealed partial class Plant
{
    private void Umbel(double turn, V3 hub, double R, double sphere, int m, Head head)
    {
        if (st.Dead || head is Head.Ripe or Head.Green)
        {
            var pods = s.SeedHead == "bigpod" ? 2 : c.I(1, 3);
            for (var i = 0; i < pods; i++)
            {
                var a = turn + i * 2.2 + c.R(0, 1);
                var d = (V3.Up * 1.1 + Hor(a) * .8).Unit();
                var to = hub + d * 1.2;
                Stalk(hub, to, .02, hub.Z);
                Put(to, d, 1, head);
            }
            return;
        }
        m = (int)Math.Max(5, Math.Min(m, R * R * pen.S * pen.S / 5));
        for (var i = 0; i < m; i++)
        {
            double e = Math.PI / 2 - (i + .5) / m * sphere * 1.35, a = turn + i * Golden;
            var o = V3.Polar(a, e);
            var to = hub + o * (R * c.R(.88, 1.08));
            if (i % 2 == 0 || pen.S > 6)
                Add(hub.Z - R - 1, () => pen.Line([pen.At(hub), pen.At(hub + (to - hub) * .6 + V3.Up * .1), pen.At(to)]));
            Put(to, o, 1, head);
        }
    }

    private void CandelabraStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        for (var i = 0; i < n; i++)
        {
            var a = turn + i * Math.Tau / Math.Max(1, n - 1);
            var len = s.InflorescenceLengthCm * f * (i == 0 ? 1 : c.R(.6, .85));
            var from = i == 0 ? tip - dir * (len * .55) : Along(line, 1 - crown * (.55 + .25 * (i % 2)));
            var sp = new V3[8];
            var d = i == 0 ? dir : (Hor(a) * .9 + V3.Up * .55).Unit();
            var q = from;
            for (var k = 0; k < 8; k++)
            {
                sp[k] = q;
                d = (d + V3.Up * .26).Unit();
                q += d * (len / 7);
            }
            Add(line[9].Z + Math.Cos(a) * W * .3, () => pen.Line(P(sp)));
            Spike(sp, .32, s.FlowerWidthCm, line[9].Z + Math.Cos(a) * W * .3 + .1);
        }
    }

    private void ThimblesStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        for (var i = 0; i < n; i++)
        {
            var a = turn + i * Golden;
            var to = i == 0 ? tip : Along(line, 1 - crown * .9) + Hor(a) * (W * .42) + V3.Up * (L * c.R(.7, 1.1));
            if (i > 0) Stalk(Along(line, 1 - crown * 1.6), to, -.1, to.Z);
            Put(to, (V3.Up + Hor(a) * (i == 0 ? .1 : .25)).Unit(), c.R(.85, 1.05), State(i * .25));
        }
    }

    private void ClusterStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        if (s.LeafShape == "strap" && !st.Dead) foreach (var k in new[] { 1.2, -1.5 }) AddLeaf(tip, k, .5, 14, 1.5, 1.1);
        if (s.Flower == "bottle" && !st.Dead)
            for (var k = 0; k < 4; k++) AddLeaf(tip - V3.Up * 1.2, turn + k * 1.57, .15, 8, 3, .5);
        for (var i = 0; i < n; i++)
        {
            var a = turn + i * Golden;
            var r = Math.Sqrt((i + .3) / n);
            var o = (V3.Up * (1.15 - .7 * r) + Hor(a) * r).Unit();
            var reach = W * .5 * c.R(.7, 1.05);
            var to = tip + o * (s.Flower == "bottle" ? .4 : reach);
            var sta = s.Flower == "three" && st.Head == Head.Open ? (i < 2 || i % 4 == 0 ? Head.Open : Head.Bud) : State(r);
            if (s.Flower == "three" && sta == Head.Bud) to = tip + (V3.Up * -.35 + Hor(a)).Unit() * (reach * .9);
            if (s.Flower != "bottle") Stalk(tip, to, .05, tip.Z + Math.Cos(a));
            Put(to, s.Flower == "bottle" ? o : (o + new V3(0, 0, .6)).Unit(), 1, sta);
        }
    }

    private void UmbelsStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        for (var i = 0; i < n; i++)
        {
            var a = turn + i * Golden;
            V3 hub;
            if (s.Inflorescence == "axilumbels")
            {
                var t = i == 0 ? 1 : .98 - .1 * i;
                var from = Along(line, t);
                hub = from + (Hor(a) + V3.Up * (i == 0 ? 1.2 : .25)).Unit() * (5 * f);
                Stalk(from, hub, .04, hub.Z);
            }
            else
            {
                var from = Along(line, 1 - crown * (.4 + i * .5 / n));
                hub = i == 0 ? tip + V3.Up * .5 : tip + Hor(a) * (W * .45 * c.R(.7, 1)) + V3.Up * c.R(-2.2, -.2);
                Stalk(from, hub, -.08, hub.Z);
            }
            Umbel(turn, hub, s.Inflorescence == "axilumbels" ? W * .25 : 2.7 * f, s.Inflorescence == "axilumbels" ? 1.75 : .95,
                s.Inflorescence == "axilumbels" ? 22 : 12, State(i / (double)n * .8));
        }
    }

    private void CompoundumbelStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        for (var u = 0; u < (st.Size < .7 ? 1 : 2); u++)
        {
            var hub0 = u == 0 ? tip : Along(line, 1 - crown) + Hor(turn) * 6 + V3.Up * (L * .8);
            if (u > 0) Stalk(Along(line, .8 - crown * .5), hub0, -.1, hub0.Z);
            for (var i = 0; i < n; i++)
            {
                double a = turn + i * Golden, r = Math.Sqrt((i + .4) / n);
                var to = hub0 + Hor(a) * (W * .5 * r) + V3.Up * (s.InflorescenceLengthCm * .5 * (1 - .35 * r * r));
                Stalk(hub0, to, .03, to.Z - .1);
                for (var k = 0; k < (pen.S > 2 ? 6 : 2); k++)
                    Put(to + Hor(k * Golden) * (W * .075 * Math.Sqrt(k + .2)) + V3.Up * (.4 - k * .05), V3.Up, 1, State(r * .7));
            }
        }
    }

    private void UmbelnodStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        var nodding = s.Flower == "onion";
        var hub = nodding ? tip + Hor(turn) * 1.5 - V3.Up * .8 : tip;
        if (nodding) Stalk(tip - dir * 2, hub, .8, tip.Z, true);
        var dry = st.Dead || st.Head is Head.Ripe or Head.Green;
        for (var i = 0; i < n; i++)
        {
            double a = turn + i * Golden, r = Math.Sqrt((i + .5) / n), R = W * .5 * f;
            if (nodding)
            {
                var o = (Hor(a) * (r * 1.1) + V3.Up * (dry ? .7 - r * .3 : -.9 + r * .8)).Unit();
                var to = hub + o * (R * c.R(.8, 1.05));
                Stalk(hub, to, .02, to.Z);
                Put(to, o, 1, State(r));
            }
            else if (dry)
            {
                var to = hub + (Hor(a) * .5 * r + V3.Up).Unit() * (R * .9);
                Stalk(hub, to, 0, to.Z);
                Put(to, V3.Up, 1, st.Head);
            }
            else
            {
                var to = hub + Hor(a) * (R * (.35 + .65 * r)) + V3.Up * (R * (.55 - .75 * r));
                Stalk(hub, to, .45, to.Z, true);
                Put(to, (V3.Up * -1 + Hor(a) * .35).Unit(), 1, State(r));
            }
        }
    }

    private void NodStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        for (var i = 0; i < n; i++)
        {
            var a = turn + i * Golden;
            var dry = st.Head is Head.Ripe or Head.Green or Head.Winter;
            var from = Along(line, Math.Max(.3, 1 - crown * (i == 0 ? .1 : .35 + .55 * i / n)));
            var up = L * (.8 - .5 * i / n) * c.R(.8, 1.05) + 2;
            var to = (i == 0 ? tip : from + Hor(a) * (W * .45 * c.R(.7, 1)) + V3.Up * up);
            if (dry)
            {
                if (i > 0) Stalk(from, to, -.05, to.Z);
                Put(to, (V3.Up + Hor(a) * .25).Unit(), 1, st.Head);
            }
            else
            {
                var hook = to + Hor(a) * (i == 0 ? 2.4 : 1.6) - V3.Up * 1.6;
                Stalk(i == 0 ? tip - dir : from, hook, i == 0 ? 1.1 : .28, to.Z, true);
                Put(hook, (V3.Up * -1 + Hor(a) * .28).Unit(), 1, State(i / (double)n));
            }
        }
    }

    private void IrisesStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        for (var i = 0; i < Math.Min(n, 3); i++)
        {
            var a = turn + i * 2.4;
            var to = i == 0 ? tip + V3.Up * 2 : Along(line, 1 - crown * (.6 + .4 * i)) + Hor(a) * 3 + V3.Up * 4;
            Stalk(i == 0 ? tip : Along(line, 1 - crown * (.9 + .4 * i)), to, 0, to.Z);
            Put(to, V3.Up, 1, i == 0 ? State(0) : State(.8));
            if (!st.Dead) AddLeaf(Along(line, 1 - crown * (1 + .4 * i)), Math.Sin(a) > 0 ? 1.57 : -1.57, 1.25, 12, 1.6, .2);
        }
    }

    /// <summary>A slender spike of many tiny flowers as one ragged shape with a wash, opening from below.</summary>
    private void Spike(V3[] sp, double halfCm, double cm, double z)
    {
        Add(z, () =>
        {
            var p = P(sp);
            var half = Math.Max(1.3, halfCm * pen.S);
            var head = st.Head;
            var fill = head is Head.Open ? "f-" + s.FlowerColour : head is Head.Bud ? "p" : "f-straw";
            if (fill == "f-white") pen.Blade(p, half * 1.7, Profile.Of("strap"), veins: false, fill: "w");
            if (half < 2.2)
            {
                pen.Blade(p, half, Profile.Of("strap"), veins: false, fill: fill);
                return;
            }
            double len = 0;
            for (var i = 1; i < p.Count; i++) len += (p[i] - p[i - 1]).Length;
            var m = Math.Max(6, (int)(len / Math.Max(2.0, half * .75)));
            for (var i = 0; i < m; i++) foreach (var sg in new[] { -1.0, 1.0, 0 })
            {
                var t = .04 + .95 * (i + (sg == 0 ? .5 : 0)) / m;
                var f = t * (p.Count - 1);
                var k = Math.Min((int)f, p.Count - 2);
                var q = p[k] + (p[k + 1] - p[k]) * (f - k);
                var tan = (p[k + 1] - p[k]).Unit();
                var w = half * (1.05 - .75 * t);
                var budding = head == Head.Open && t > .3 + st.Share * .55;
                pen.Blob(q + tan.Left * (sg * w * .72), w * .5, budding ? "p" : fill);
                if (head == Head.Open && !budding && sg != 0 && pen.S > 3)
                    pen.Line([q + tan.Left * (sg * w), q + tan.Left * (sg * w * 1.5) + tan, q + tan.Left * (sg * w * 1.9) + tan * 1.5]);
            }
        });
    }
}
