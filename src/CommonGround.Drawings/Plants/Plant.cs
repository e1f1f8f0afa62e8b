using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>Composes one individual. Parts are collected with their distance and drawn from the back.</summary>
internal sealed partial class Plant
{
    private readonly Pen pen;
    private readonly Characters s;
    private readonly Stage st;
    private readonly string seed;

    private Chance c;
    private readonly List<(double Z, Action Draw)> parts = [];

    private const double Golden = 2.39996;

    private Plant(Pen pen, Characters s, Stage st, string seed)
    {
        this.pen = pen;
        this.s = s;
        this.st = st;
        this.seed = seed;
        c = Of("whole");
    }

    /// <summary>Each part has its own chance, so a stem leans the same way in May and in January, at 24 pixels and on a page.</summary>
    private Chance Of(string part) => new($"{s.ScientificName}|{seed}|{part}");

    public static void Draw(Pen pen, Characters s, Stage st, string seed)
    {
        var p = new Plant(pen, s, st, seed);
        pen.Dead = st.Dead && !s.IsWoody && s.Form != "vine";
        pen.DryInk = s.DryColour switch { "copper" => "dc", "amber" => "da", _ => "d" };
        if (st.Gone) p.Litter();
        else if (s.HasBlades) p.Grass();
        else if (s.Form == "shrub") p.Shrub();
        else if (s.Form is "tree" or "conifer") p.Tree();
        else if (s.Form == "vine") p.Vine();
        else p.Forb();
        foreach (var part in p.parts.OrderBy(x => x.Z)) part.Draw();
        pen.Dead = false;
        pen.Faint = false;
    }

    /// <summary>One flower, leaf or seed head by itself, for the telling marks.</summary>
    public static void Mark(Pen pen, Characters s, string what, string seed)
    {
        var stage = new Stage(1, 1, what == "seed" ? Head.Ripe : Head.Open, false, false, 1);
        var p = new Plant(pen, s, stage, seed);
        if (what == "leaf")
        {
            var l = new List<P2>();
            for (var i = 0; i <= 7; i++) l.Add(new(pen.Ox + Math.Sin(i * .5) * 1.6, pen.Oy - s.LeafLengthCm * pen.S * i / 7));
            p.LeafAt(l, s.LeafWidthCm * pen.S, 0, 1, s.Rosette && s.LeafShape is "cordate" or "ovate");
        }
        else if (s.FlowersAtTheGround) p.Hoods();
        else if (Whole(s))
        {
            var h = Math.Max(s.InflorescenceLengthCm * 1.05, 6);
            var line = p.StemLine(new(0, 0, 0), 0, 0, h);
            p.AddStem(line, .35, 0);
            p.AddStand(line, .96, 0, h);
        }
        else
        {
            var n = new V3(.2, s.Inflorescence == "nod" && what == "flower" ? -1 : 1, .5).Unit();
            var foot = s.Inflorescence == "nod" && what == "flower" ? V3.Up * (s.FlowerWidthCm * .95)
                : V3.Up * (-s.FlowerWidthCm * (what == "seed" ? .8 : 1.0));
            p.AddStem(p.StemLineBetween(foot, new(0, 0, 0)), .3, -9);
            p.Add(5, () => p.Bloom(new(0, 0, 0), n, 1, what == "seed" ? Head.Ripe : Head.Open, .4));
        }
        foreach (var part in p.parts.OrderBy(x => x.Z)) part.Draw();
    }

    /// <summary>Whether the mark is the whole stand of flowers rather than one flower.</summary>
    public static bool Whole(Characters s) => s.Flower != "ray"
        && s.Inflorescence is "spike" or "raceme" or "sideraceme" or "tubes" or "umbels" or "axilumbels" or "candelabra" or "corymb"
        or "plume" or "panicle" or "compoundumbel" or "umbelnod" or "buttons";

    private V3[] StemLineBetween(V3 a, V3 b)
    {
        var p = new V3[13];
        for (var i = 0; i < 13; i++) p[i] = a + (b - a) * (i / 12.0) + new V3(Math.Sin(i * .26) * .12, 0, 0);
        return p;
    }

    private void Add(double z, Action a) => parts.Add((z, a));

    private double Cm(double px) => px / pen.S;

    private List<P2> P(IEnumerable<V3> v)
    {
        var l = v.Select(pen.At).ToList();
        if (!pen.Coarse || l.Count < 5) return l;
        var step = l.Count > 9 ? 4 : l.Count > 6 ? 3 : 2;
        var few = new List<P2>();
        for (var i = 0; i < l.Count - 1; i += step) few.Add(l[i]);
        few.Add(l[^1]);
        return few;
    }

    private void Litter()
    {
        var w = s.SpreadCm * .22 * st.Size;
        var l = new List<IReadOnlyList<P2>>();
        for (var i = 0; i < 4; i++)
        {
            var b = new V3(c.R(-w, w), .5, c.R(-w, w));
            var d = V3.Polar(c.R(0, 6.3), .06) * c.R(3, 8);
            l.Add(P([b, b + d + V3.Up, b + d * 2]));
        }
        Add(0, () => pen.Lines(l));
    }
}
