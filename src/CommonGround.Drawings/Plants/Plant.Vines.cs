using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Plants;

/// <summary>Vines.</summary>
internal sealed partial class Plant
{
    /// <summary>Stems that twine up a plain post, which is no part of the plant.</summary>
    private void Vine()
    {
        var h = s.HeightCm * Math.Pow(st.Size, .7) * (st.Dead ? 1 : Math.Max(.25, st.Growth));
        Add(-90, () => pen.Lines([[pen.At(default), pen.At(V3.Up * (h * .5)), pen.At(V3.Up * (h * .98))]], heavy: true, ink: "h d"));
        var wide = Math.Max(8, s.SpreadCm * .22);
        for (var i = 0; i < s.Stems; i++)
        {
            c = Of("stem" + i);
            var (phase, pitch, top) = (c.R(0, 6.3), c.R(34, 52), h * (i == 0 ? 1 : c.R(.55, .95)));
            var count = Math.Max(24, (int)(top / pitch * 10));
            var line = new V3[count + 1];
            for (var k = 0; k <= count; k++)
            {
                var y = top * k / count;
                var a = phase + (y / pitch * Math.Tau);
                line[k] = new V3(Math.Sin(a) * wide * .5, y, Math.Cos(a) * wide * .5) + (V3.Up * 0);
            }

            Add(0, () => pen.Line([.. line.Select(pen.At)], heavy: s.HeightCm * pen.S > 120));
            var nodes = Math.Max(5, (int)(top / Math.Max(Math.Max(4, s.LeafLengthCm * 1.2), 9 / pen.S)));
            for (var k = 0; k < nodes; k++)
            {
                Shoot(Along(line, (k + .6) / nodes), (k * Golden) + phase, k);
            }
        }
    }

    private void Shoot(V3 from, double az, int k)
    {
        var length = Math.Max(5, s.SpreadCm * c.R(.14, .46));
        var d = (Hor(az) + (V3.Up * .35)).Unit();
        var line = new V3[13];
        for (var i = 0; i <= 12; i++)
        {
            line[i] = from + (d * (length * i / 12)) + (V3.Up * (-length * .2 * i * i / 144));
        }

        Add(line[6].Z, () => pen.Line(P(line)));
        if (Leafy)
        {
            for (var i = 0; i < 3; i++)
            {
                AddLeaf(Along(line, .35 + (.32 * i)), az + (i % 2 == 0 ? .9 : -.9), .2,
                    Math.Max(s.LeafLengthCm, 7 / pen.S) * c.R(.8, 1.05), Math.Max(s.LeafWidthCm, 4 / pen.S), .6, petiole: true);
            }
        }

        if (st.Head != Head.None && s.Inflorescence != "none" && k % 2 == 0)
        {
            c = Of("head" + k);
            AddStand(line, Math.Min(.9, s.InflorescenceLengthCm / length), az, length);
        }
    }
}
