using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>Grasses, sedges and rushes: blades in two bundles, culms and heads of their own.</summary>
internal sealed partial class Plant
{
    private void Grass()
    {
        double size = st.Size, g = st.Growth,
            len = s.LeafLengthCm * Math.Pow(size, .7) * (st.Dead ? 1 : .35 + .65 * Math.Min(1, g * 1.5));
        var arching = s.Habit.StartsWith("arching", StringComparison.Ordinal);
        var n = Math.Max(7, (int)(s.Nodes * (size * .75 + .2) * Math.Min(1, pen.S / 4.2 + .22)));
        var radius = s.SpreadCm * (s.Form == "sod" ? .5 : pen.Coarse ? .13 : .085) * Math.Sqrt(size);
        pen.Faint = pen.S < 1.6;
        // many blades lie together, so each is paler than a stem
        var back = new List<IReadOnlyList<P2>>();
        var front = new List<IReadOnlyList<P2>>();
        var wide = s.LeafWidthCm * pen.S > 2.6;
        for (var i = 0; i < n; i++)
        {
            double az = c.R(0, Math.Tau), r = Math.Sqrt(c.U());
            var b = new V3(Math.Sin(az), 0, Math.Cos(az)) * (radius * r);
            if (s.Form == "sod") az = c.R(0, Math.Tau);
            var l = len * c.R(.55, 1.05);
            var el = arching ? c.R(.85, 1.45) : c.R(1.1, 1.52);
            var droop = (arching ? c.R(1.0, 2.1) : c.R(.3, 1.5)) + (st.Dead ? .35 : 0);
            if (st.Dead && c.Is(.25)) droop += .9;
            var v = Axis(b, az, el, l, droop, 5);
            var z = b.Z + Math.Cos(az) * l * .25;
            if (wide && i % 3 != 0)
            {
                var face = c.R(.35, .75);
                Add(z, () => pen.Blade(P(v), s.LeafWidthCm * pen.S * face, Profile.Of("linear"), veins: false));
            }
            else
            {
                var cut = P(v);
                if (i % 3 != 0 && cut.Count > 2)
                {
                    var u = c.R(.1, .55);
                    cut[0] = cut[0] + (cut[1] - cut[0]) * u;
                }
                if (z < 0) back.Add(cut);
                else front.Add(cut);
            }
        }
        if (s.Form == "tuft" && !st.Dead) Add(-900, () =>
        {
            var w = radius + len * (arching ? .3 : .14);
            var top = len * (arching ? .36 : .4);
            pen.Shape(new Trace().Ring([pen.At(new(-radius, 0, 0)), pen.At(new(-w * .8, top * .5, 0)), pen.At(new(-w * .7, top, 0)),
                pen.At(new(0, top * 1.2, 0)), pen.At(new(w * .7, top, 0)), pen.At(new(w * .8, top * .5, 0)), pen.At(new(radius, 0, 0)),
                pen.At(new(0, 0, radius))]), "p", false);
        });
        var turned = st.Turned && !st.Dead ? "t " + pen.DryInk : null;
        Add(-50, () => pen.Lines(back, ink: turned));
        Add(60, () => pen.Lines(front, ink: turned));
        if (st.Head == Head.None || g < .45 || s.Inflorescence == "none") return;
        c = Of("culms");
        var culms = Math.Max(1, (int)Math.Round(s.Stems * (size * .8 + .15) * c.R(.8, 1.15) * (pen.Coarse && s.Stems > 7 ? .6 : 1)));
        var h = s.HeightCm * Math.Pow(size, .6) * g;
        for (var i = 0; i < culms; i++)
        {
            c = Of("culm" + i);
            double az = i * Golden + c.R(-.4, .4), r = Math.Sqrt((i + .5) / culms);
            var lean = (arching ? .42 : .16) * r + c.N() * .03;
            var hh = h * (1 - .16 * r * r) * c.R(.86, 1.05);
            if (st.Dead && c.Is(.25)) lean += c.R(.05, .24);
            var line = StemLine(new V3(Math.Sin(az), 0, Math.Cos(az)) * (radius * .8 * r), az, lean, hh);
            var z = line[8].Z;
            var p = P(line);
            Add(z - .2, () => pen.Halo([p.Skip(p.Count / 2).ToList()]));
            Add(z, () => pen.Line(p, s.HeightCm > 140 && pen.S > 1.2));
            if (s.HeightCm > 90 && s.Winter == "stand" && s.Form == "tuft" && pen.Detail > .5)
                for (var k = 0; k < 3; k++)
                {
                    var t = .22 + .17 * k + c.R(-.03, .03);
                    var v = Axis(Along(line, t), c.R(0, 6.3), st.Dead ? .7 : 1.1, len * c.R(.3, .5), c.R(.7, 1.5), 5);
                    Add(z + .1, () =>
                    {
                        if (wide) pen.Blade(P(v), s.LeafWidthCm * pen.S * .4, Profile.Of("linear"), veins: false);
                        else pen.Line(P(v));
                    });
                }
            GrassHead(line, z + .4, c.R(0, 6.3));
        }
    }
}
