using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>Where the flowers stand. What one flower looks like is told elsewhere; the two combine freely.</summary>
internal sealed partial class Plant
{
    /// <summary>Where a stand of flowers sits: its stem, share of the stem, way it leans, height, tip, direction, turn, growth, length
    /// and width cm, flowers, px a flower.</summary>
    private readonly record struct Stand(
        V3[] Line, double Crown, double Az0, double H, V3 Tip, V3 Dir, double Turn, double F, double L, double W, int N, double Px);

    private static V3 Hor(double a) => new(Math.Sin(a), 0, Math.Cos(a));

    private static V3 Face(double a, double outwards) => (V3.Up + Hor(a) * outwards + new V3(0, 0, .42)).Unit();

    /// <summary>What opens last is still in bud at first.</summary>
    private Head State(double late) => st.Head == Head.Open ? (late > st.Share ? Head.Bud : Head.Open) : st.Head;

    private void Put(V3 at, V3 normal, double k, Head head, double? z = null)
    {
        var chance = c.U();
        var grown = (head == Head.Bud ? .8 : 1) * Math.Pow(st.Size, .25);
        if (s.FlowerColour == "white" && head == Head.Open)
            Add((z ?? at.Z) - Math.Max(3, s.InflorescenceWidthCm), () => Shade(at, normal, k * grown));
        Add((z ?? at.Z) + .5, () => Bloom(at, normal, k * grown, head, chance));
    }

    private void Stalk(V3 a, V3 b, double lift, double z, bool hook = false)
    {
        if (pen.Coarse && (b - a).Length * pen.S < 5) return;
        var d = b - a;
        var m = a + d * .45 + V3.Up * (d.Length * lift);
        var l = new List<V3> { a, a + (m - a) * .5 + V3.Up * (d.Length * lift * .12), m, m + (b - m) * .55, b };
        if (hook)
            l = [a, a + d * .3 + V3.Up * (d.Length * lift * .4), a + d * .75 + V3.Up * (d.Length * lift),
                a + d * .98 + V3.Up * (d.Length * lift * .75), b];
        Add(z, () => pen.Line(P(l)));
    }

    private void AddStand(V3[] line, double crown, double az0, double h)
    {
        var tip = line[^1];
        var dir = Tangent(line, .97);
        var turn = c.R(0, 6.3);
        var f = Math.Pow(st.Size, .5);
        double L = crown * h, W = s.InflorescenceWidthCm * f;
        var n = Math.Max(1, (int)Math.Round(s.FlowersPerStem * (st.Size < 1 ? st.Size * .8 : 1) * c.R(.85, 1.12)));
        var px = Math.Max(s.FlowerWidthCm * pen.S, pen.Least * 2);
        var stand = new Stand(line, crown, az0, h, tip, dir, turn, f, L, W, n, px);
        switch (s.Inflorescence)
        {
            case "solitary" when s.LeafPlace == "whorled" && s.Nodes == 1:
                AboveWhorl(stand);
                break;
            case "solitary":
                Put(tip, (dir + Hor(turn) * .22 + new V3(0, 0, .22)).Unit(), 1, State(0));
                break;
            case "few":
                FewStand(stand);
                break;
            case "spray":
                SprayStand(stand);
                break;
            case "corymb" or "dome" or "balls":
                CorymbStand(stand);
                break;
            case "pyramid" or "panicle" or "plume":
                PyramidStand(stand);
                break;
            case "spike" or "buttons" or "raceme" or "nodraceme" or "sideraceme" or "tubes":
                SpikeStand(stand);
                break;
            case "candelabra":
                CandelabraStand(stand);
                break;
            case "thimbles":
                ThimblesStand(stand);
                break;
            case "cluster":
                ClusterStand(stand);
                break;
            case "umbels" or "axilumbels":
                UmbelsStand(stand);
                break;
            case "compoundumbel":
                CompoundumbelStand(stand);
                break;
            case "umbelnod":
                UmbelnodStand(stand);
                break;
            case "nod":
                NodStand(stand);
                break;
            case "irises":
                IrisesStand(stand);
                break;
        }
    }

    private void FewStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        Put(tip, (dir + Hor(turn) * .2 + new V3(0, 0, .38)).Unit(), 1, State(0));
        for (var i = 1; i < n; i++)
        {
            var a = turn + i * Golden;
            var t = 1 - crown * (.45 + .55 * i / n);
            var from = Along(line, t);
            var up = L * (.95 - .42 * i / n) * c.R(.75, 1.05);
            var to = from + Hor(a) * (W * .5 * c.R(.6, 1)) + V3.Up * up;
            var z = line[6].Z + Math.Cos(a) * W * .4;
            Stalk(from, to, -.12, z);
            if (s.LeafLengthCm > 0 && pen.S > 1.2 && s.LeafPlace != "basal")
                AddLeaf(from + (to - from) * .5, a + .6, .8, s.LeafLengthCm * s.LeafTaper * .7, s.LeafWidthCm * s.LeafTaper * .6,
                    .5);
            Put(to, (V3.Up * 1.1 + Hor(a) * .5 + new V3(0, 0, .34)).Unit(), c.R(.82, 1), State(i / (double)n));
        }
    }

    private void SprayStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        // heads close along the upper stem, largest at the top
        for (var i = 0; i < n; i++)
        {
            var t = 1 - crown * i / n * .85;
            var a = turn + i * Golden;
            var from = Along(line, t);
            var to = from + Hor(a) * (i == 0 ? 0 : W * .42 * c.R(.7, 1)) + V3.Up * (i == 0 ? 0 : W * .3);
            Stalk(from, to, 0, line[8].Z + Math.Cos(a) * 3);
            Put(to, (V3.Up * .7 + Hor(a) * .9 + new V3(0, 0, .5)).Unit(), 1 - .3 * i / n, State(1 - i / (double)n));
            if (pen.S > 2 && i > 0) AddLeaf(from, a, .4, 7 - 3 * t, 3, .6);
        }
    }

    private void CorymbStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        var few = px > 9 || s.Inflorescence == "balls";
        var m = Math.Max(4, Math.Min(n, few ? n : (int)(W * W * pen.S * pen.S / (px * px) * 1.1) + 5));
        var primaries = s.Inflorescence == "balls" ? 5 : s.Inflorescence == "dome" ? 9 : 7;
        var roots = new List<(V3 From, V3 Mid)>();
        for (var i = 0; i < primaries; i++)
        {
            var a = turn + i * Golden;
            var t = 1 - crown * (.1 + .85 * i / primaries);
            var from = Along(line, t);
            var reach = W * .5 * Math.Sqrt((i + .3) / primaries);
            var mid = new V3(tip.X, tip.Y, tip.Z) + Hor(a) * (reach * .78) - V3.Up * (L * .3 + reach * .22);
            roots.Add((from, mid));
            if (i > 0 || s.Inflorescence != "balls") Stalk(from, mid, -.06, line[9].Z + Math.Cos(a) * reach);
        }
        for (var i = 0; i < m; i++)
        {
            double r = Math.Sqrt((i + .4) / m), a = turn + .7 + i * Golden;
            var flat = s.Inflorescence == "dome" ? .62 : s.Inflorescence == "balls" ? .5 : .26;
            var to = tip + Hor(a) * (W * .5 * r * c.R(.9, 1.08))
                + V3.Up * (-W * flat * .5 * r * r + c.R(-.08, .06) * Math.Min(W, L) * (s.Inflorescence == "dome" ? 2.2 : 1));
            var near = roots.MinBy(q => (q.Mid - to).Length);
            if (m < 24 || i % 2 == 0 || !pen.Coarse && m < 40)
                Stalk(near.Mid.Y < to.Y ? near.Mid : near.From, to, -.04, s.Inflorescence == "balls" ? to.Z - .2
                    : line[9].Z - W);
            Put(to, Face(a, .75 * r), s.Inflorescence == "balls" ? (i == 0 ? 1 : c.R(.6, .9)) : c.R(.85, 1.1), State(r * .8));
            if (s.Inflorescence == "dome" && pen.S > 2.4) AddLeaf(to - V3.Up * c.R(2, 5), a + 1, .6, 3.4, .8, .4);
        }
    }

    private void PyramidStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        var plume = s.Inflorescence == "plume";
        var nod = plume ? new V3(Math.Sin(az0) >= 0 ? 1 : -1, 0, .2) : default;
        var branches = Math.Max(5, s.Inflorescence == "pyramid" ? n / 3 + 3
            : (int)(n / 9.0 * Math.Min(1, pen.S / 4 + .35)) + 4);
        var axis = line.ToArray();
        for (var i = 0; i < branches; i++)
        {
            double t = (i + .5) / branches, a = turn + i * Golden;
            var from = Along(axis, 1 - crown * (1 - t));
            var reach = W * .5 * (s.Inflorescence == "pyramid" ? 1.05 - .8 * t : plume ? 1 - .75 * t
                : Math.Sin(Math.PI * (.22 + .7 * t)) * .9 + .1) * c.R(.85, 1.12);
            var d = (Hor(a) * (s.Inflorescence == "panicle" ? .75 : 1) + V3.Up * (plume ? .5 : s.Inflorescence == "panicle"
                ? 1.15 : .8)).Unit();
            var bl = new List<V3> { from };
            var p = from;
            for (var k = 0; k < 4; k++)
            {
                p += (d + V3.Up * (plume ? -.42 * k : .12 * k) + nod * (.2 * k))
                    .Unit() * (reach * (s.Inflorescence == "panicle" ? 1.35 : 1.15) / 4);
                bl.Add(p);
            }
            var arr = bl.ToArray();
            var z = from.Z + Math.Cos(a) * reach;
            Add(z - .2, () => pen.Line(P(arr)));
            var each = Math.Max(1, s.Inflorescence == "pyramid" ? (int)Math.Round(n / (double)branches)
                : (int)Math.Min(n / branches + 1, reach * 1.3 * pen.S / Math.Max(1.5, px * .62) + 1));
            for (var k = 0; k < each; k++)
            {
                var u = s.Inflorescence == "pyramid" ? 1 - .42 * k : .22 + .78 * (k + .6) / each;
                var q = Along(arr, Math.Max(.25, u));
                if (s.Inflorescence == "pyramid")
                {
                    if (k > 0)
                    {
                        var e = q + (Hor(a + (k % 2 == 0 ? 1 : -1)) * .7 + V3.Up * .6) * (reach * .3);
                        Stalk(q, e, 0, z);
                        q = e;
                    }
                    Put(q, Face(a, .5), c.R(.85, 1.1), State(1 - t * .9));
                    if (pen.S > 3) AddLeaf(Along(arr, u * .6), a + 1.2, .7, 2.2, .5, .3);
                }
                else
                {
                    var off = plume ? V3.Up * Cm(px * .38) : (Hor(a + k * 1.9) * .5 + V3.Up * .2) * Cm(px * .55);
                    Put(q + off, V3.Up, c.R(.8, 1.15), State(1 - t * .8));
                }
            }
        }
        if (s.Inflorescence != "pyramid")
            for (var k = 0; k < 5; k++) Put(Along(axis, 1 - .012 * k * (plume ? 2 : 1)), V3.Up, 1, State(.2));
    }

    private void SpikeStand(Stand stand)
    {
        var (line, crown, az0, h, tip, dir, turn, f, L, W, n, px) = stand;
        var side = s.Inflorescence == "sideraceme";
        var axis = line;
        if (side)
        {
            var q0 = Along(line, 1 - crown);
            axis = new V3[13];
            var o = Hor(az0);
            var out1 = Math.Abs(o.X) < .4 ? new V3(o.X < 0 ? -.8 : .8, 0, o.Z) : o;
            for (var i = 0; i < 13; i++)
            {
                var u = i / 12.0;
                axis[i] = q0 + out1 * (s.InflorescenceLengthCm * .92 * u * f)
                    + V3.Up * (s.InflorescenceLengthCm * f * (.3 * u - .42 * u * u));
            }
            AddStem(axis, .4, line[9].Z + .1);
            crown = 1;
            L = s.InflorescenceLengthCm * f;
        }
        var count = Math.Max(5, (int)Math.Min(n * (pen.Coarse && st.Head != Head.Open ? .6 : 1),
            L * pen.S / Math.Max(1.2, px * (s.Inflorescence == "spike" ? .2 : .34))));
        var rad = W * .5;
        for (var i = 0; i < count; i++)
        {
            double u = (i + .5) / count, a = turn + i * Golden;
            if (s.Inflorescence == "tubes") u = Math.Round(u * 6) / 6.3 + .02;
            var t = 1 - crown * (1 - u);
            var from = Along(axis, Math.Min(1, t));
            var shrink = Math.Clamp((1.06 - u) * 3.2, .3, 1);
            var o = s.Inflorescence == "nodraceme" ? (Hor(a) * .75 - V3.Up * .7).Unit() : side ? (Hor(a) * .7 - V3.Up * .25).Unit()
                : (Hor(a) + V3.Up * (s.Inflorescence is "spike" ? .55 : .35)).Unit();
            var reach = s.Inflorescence is "spike" ? rad * .62 : s.Inflorescence == "buttons" ? rad * .5 : rad;
            var to = from + o * (reach * shrink * c.R(.85, 1.1));
            var z = from.Z + Math.Cos(a) * reach;
            if (s.Inflorescence is not "spike" && pen.S * reach > 2.5)
                Add(z - .1, () => pen.Line([pen.At(from), pen.At(from + (to - from) * .5), pen.At(to)]));
            // Blazing stars open from the top, all others from below.
            var late = s.Flower is "shag" or "button" ? 1 - u : u;
            Put(to, o, (.55 + .45 * shrink) * c.R(.9, 1.1), State(late), z);
            if (s.Inflorescence is "raceme" && s.Flower == "lip" && pen.S > 2.5) AddLeaf(from, a, .5, 3.2 * shrink, .9, .3);
        }
        if (st.Head is Head.Open or Head.Bud && s.Inflorescence is "raceme" or "sideraceme") for (var k = 0; k < 5; k++)
        {
            var q = Along(axis, 1 - k * .012) + (axis[^1] - axis[^2]).Unit() * (1.2 - k * .4);
            Put(q + Hor(turn + k * 2.4) * .4, V3.Up, .4, Head.Bud);
        }
    }
}
