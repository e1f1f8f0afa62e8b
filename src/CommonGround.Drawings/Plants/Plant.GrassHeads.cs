using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>Heads of grasses, sedges and rushes.</summary>
internal sealed partial class Plant
{
    /// <summary>Where a grass head sits: culm, distance, turn, tip, direction, length cm, colour.</summary>
    private readonly record struct GrassTop(
        V3[] Line, double Z, double Turn, V3 Tip, V3 Dir, double L, string Fill, bool Dry, string? Colour, double Sc);

    private void GrassHead(V3[] line, double z, double turn)
    {
        var tip = line[^1];
        var dir = Tangent(line, .97);
        var L = s.InflorescenceLengthCm * Math.Pow(st.Size, .3);
        var fill = "f-" + s.FlowerColour;
        var dry = st.Dead || st.Head == Head.Ripe;
        var colour = st.Head == Head.Open ? fill : null;
        var sc = Math.Max(1, 1.6 / pen.S);
        var top = new GrassTop(line, z, turn, tip, dir, L, fill, dry, colour, sc);
        switch (s.Inflorescence)
        {
            case "turkeyfoot":
                TurkeyfootHead(top);
                break;
            case "racemes":
                RacemesHead(top);
                break;
            case "openpanicle" or "grassplume":
                OpenpanicleHead(top);
                break;
            case "onesided":
                OnesidedHead(top);
                break;
            case "foxtail" or "foxtailnod" or "cattail":
                FoxtailHead(top);
                break;
            case "nodspike":
                NodspikeHead(top);
                break;
            case "sedge" or "sedgespike":
                SedgeHead(top);
                break;
        }
    }

    private static List<V3> Arc(V3 b, V3 d, double l, double sag, int n = 5)
    {
        var q = b;
        var p = new List<V3> { q };
        for (var i = 0; i < n; i++)
        {
            q += (d + V3.Up * (-sag * (i + 1) / n)).Unit() * (l / n);
            p.Add(q);
        }
        return p;
    }

    /// <summary>Spikelets as short strokes along a line, on one side or on both.</summary>
    private void Ticks(GrassTop top, List<V3> a, int count, double cm, bool one, double spreadAngle, bool dots, double from = .05)
    {
        var (_, z, _, _, _, _, _, _, colour, sc) = top;
        var pts = P(a);
        var strokes = new List<IReadOnlyList<P2>>();
        var spots = new List<P2>();
        for (var i = 0; i < count; i++)
        {
            var t = from + (1 - from) * (i + .5) / count;
            var f = t * (pts.Count - 1);
            var k = Math.Min((int)f, pts.Count - 2);
            var q = pts[k] + (pts[k + 1] - pts[k]) * (f - k);
            var tan = (pts[k + 1] - pts[k]).Unit();
            var sg = one ? 1 : i % 2 == 0 ? 1 : -1;
            var e = q + (tan * Math.Cos(spreadAngle) + tan.Left * (sg * Math.Sin(spreadAngle))) * (cm * pen.S * sc * c.R(.8, 1.15));
            strokes.Add([q, (q + e) * .5 + tan * .6, e]);
            if (i % 2 == 0) spots.Add(e);
        }
        Add(z, () =>
        {
            pen.Line(pts);
            pen.Lines(strokes);
            if (dots && colour != null) foreach (var q in spots) pen.Blob(q, Math.Max(1.1, .16 * pen.S), colour, pen.S > 3);
        });
    }

    private void TurkeyfootHead(GrassTop top)
    {
        var (line, z, turn, tip, dir, L, fill, dry, colour, sc) = top;
        for (var i = 0; i < 3; i++)
        {
            var a = turn + i * 2.1;
            var d = (dir + new V3(Math.Sin(a) * .5, 0, Math.Cos(a) * .3) * (i == 0 ? .25 : 1)).Unit();
            Ticks(top, Arc(tip - dir * (i * .6), d, L * c.R(.85, 1.1), .12), Math.Clamp((int)(L * pen.S / 2.6), 4, 16), .75, false, .32,
                true);
        }
    }

    private void RacemesHead(GrassTop top)
    {
        var (line, z, turn, tip, dir, L, fill, dry, colour, sc) = top;
        var k0 = pen.Coarse ? 3 : s.FlowersPerStem;
        for (var i = 0; i < k0; i++)
        {
            var t = 1 - s.InflorescenceLengthCm / s.HeightCm * (1 - i / (double)k0);
            var a = turn + i * Golden;
            var d = (Tangent(line, t) + new V3(Math.Sin(a), 0, Math.Cos(a)) * .36).Unit();
            Ticks(top, Arc(Along(line, t), d, 6.5 * c.R(.8, 1.1), .25), Math.Clamp((int)(6 * pen.S / 2.4), 2, 9), dry ? .8 : .5, false,
                dry ? .9 : .4, dry || st.Head == Head.Open, .4);
        }
    }

    private void OpenpanicleHead(GrassTop top)
    {
        var (line, z, turn, tip, dir, L, fill, dry, colour, sc) = top;
        var open = s.Inflorescence == "openpanicle";
        var m = Math.Max(6, (int)(s.FlowersPerStem * Math.Min(1, pen.S / 3.2 + .15) * (open && pen.Coarse ? .55 : .8)));
        var axis = Arc(tip - dir * L, dir, L, open ? .1 : .3, 6).ToArray();
        var br = new List<IReadOnlyList<P2>>();
        var gr = new List<P2>();
        for (var i = 0; i < m; i++)
        {
            var t = .05 + .93 * i / m;
            var a = turn + i * Golden;
            var w = s.InflorescenceWidthCm * .5 * (open ? Math.Pow(1 - t, .7) * (.6 + .5 * t) + .12
                : Math.Sin(Math.PI * Math.Min(1, .16 + t * .84)) * .85 + .12) * (open ? c.R(.45, 1.2) : c.R(.75, 1.1));
            var d = (Tangent(axis, t) * (open ? .55 : 1.5) + new V3(Math.Sin(a), 0, Math.Cos(a))).Unit();
            var arc = P(Arc(Along(axis, t), d, w * 1.25, open ? c.R(.2, .7) : .3, 3));
            br.Add(arc);
            gr.Add(arc[^1]);
            if (!open && pen.S > 1.4) gr.Add(arc[2]);
        }
        var ap = P(axis);
        Add(z, () =>
        {
            pen.Line(ap);
            pen.Lines(br);
            if (pen.Coarse && !open && colour == null)
            {
                pen.Lines(gr.Select(q => (IReadOnlyList<P2>)[q, q + new P2(.3, 1.1)]), pen.S < 1.6);
                return;
            }
            var rad = Math.Max(open ? .8 : 1.0, (open ? .12 : .22) * pen.S);
            foreach (var q in gr)
                pen.Blob(q, rad, !open && colour != null ? colour : open ? "f-brown" : "f-straw", pen.S > 2.4 && !open,
                    .55, 1.2);
        });
    }

    private void OnesidedHead(GrassTop top)
    {
        var (line, z, turn, tip, dir, L, fill, dry, colour, sc) = top;
        var spike = Arc(tip - dir * L, dir, L, .18, 6).ToArray();
        var cnt = Math.Max(6, (int)(s.FlowersPerStem * Math.Min(1, pen.S / 3 + .25)));
        var side = Math.Sin(turn) > 0 ? 1 : -1;
        var oats = new List<(P2 A, P2 B)>();
        for (var i = 0; i < cnt; i++)
        {
            var t = .02 + .96 * i / cnt;
            var q = pen.At(Along(spike, t));
            var e = q + new P2(side * .75, .85) * (s.FlowerWidthCm * pen.S * sc * c.R(.8, 1.15));
            oats.Add((q, e));
        }
        var sp = P(spike);
        Add(z, () =>
        {
            pen.Line(sp);
            foreach (var (q, e) in oats)
            {
                var md = (q + e) * .5;
                if (pen.S < 1.5)
                {
                    pen.Line([q, e]);
                    if (colour != null && (e.X + e.Y) % 3 > 2) pen.Blob(e, .8, colour, false);
                }
                else
                {
                    pen.Blade([q, q + (e - q) * .35 + new P2(side * .8, -.4), q + (e - q) * .7, e], Math.Max(.9, .14 * pen.S),
                        Profile.Of("lanceolate"), veins: false);
                    if (colour != null) pen.Blob(e + new P2(side * .6, .4), Math.Max(1, .13 * pen.S), colour, false);
                }
            }
        });
    }

    private void NodspikeHead(GrassTop top)
    {
        var (line, z, turn, tip, dir, L, fill, dry, colour, sc) = top;
        var nod = Arc(tip - dir * (L * .4), dir, L, 1.5, 7);
        Ticks(top, nod, Math.Clamp((int)(L * pen.S / 2), 8, s.FlowersPerStem), 2.6 / Math.Max(1, sc * .9), false, .45, false);
        Ticks(top, nod, Math.Clamp((int)(L * pen.S / 3), 6, 24), 1.1, false, .3, st.Head == Head.Open);
    }

    private void SedgeHead(GrassTop top)
    {
        var (line, z, turn, tip, dir, L, fill, dry, colour, sc) = top;
        var many = s.Inflorescence == "sedge" ? s.FlowersPerStem : 2;
        for (var i = 0; i < many; i++)
        {
            var q = tip - dir * (i * s.InflorescenceLengthCm / Math.Max(1, many));
            var d = (dir + new V3((i % 2 == 0 ? 1 : -1) * .35, 0, 0)).Unit();
            var e = q + d * (s.FlowerWidthCm * sc);
            var qq = q;
            Add(z, () =>
            {
                var A = pen.At(qq);
                var B = pen.At(e);
                pen.Blade([A, A + (B - A) * .35, A + (B - A) * .7, B], Math.Max(1.1, .27 * pen.S), Profile.Of("elliptic"),
                    veins: false, fill: s.Inflorescence == "sedgespike" ? (colour ?? "f-straw") : "f-straw");
            });
        }
    }

    /// <summary>A dense cylinder: bristly in foxtails, velvety in cattails.</summary>
    private void FoxtailHead(GrassTop top)
    {
        var (_, z, _, tip, dir, L, fill, dry, _, sc) = top;
        var bristly = s.Inflorescence != "cattail";
        var way = Arc(tip - dir * L, dir, L, s.Inflorescence == "foxtailnod" ? 1.3 : .1, 6);
        var half = s.InflorescenceWidthCm * .5 * pen.S * Math.Min(sc, 1.4);
        var ink = dry && bristly ? "f-straw" : fill;
        Add(z, () =>
        {
            var p = P(way);
            if (bristly && pen.S > .8)
            {
                var hairs = new List<IReadOnlyList<P2>>();
                for (var i = 0; i < (pen.Coarse ? 9 : 22); i++)
                {
                    var q = Pt(p, (i + .5) / (pen.Coarse ? 9.0 : 22));
                    var d = Turn(Tan(p, (i + .5) / 22.0), i % 2 == 0 ? .6 : -.6);
                    hairs.Add([q, q + d * half, q + d * (half * 1.9)]);
                }

                pen.Lines(hairs);
            }

            pen.Blade(p, Math.Max(1.1, half), new Profile(.22, .3), veins: false, fill: ink);
        });
    }
}
