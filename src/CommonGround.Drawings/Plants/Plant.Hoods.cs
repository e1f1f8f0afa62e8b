using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Plants;

/// <summary>Hoods that sit on the ground before there is a leaf: skunk cabbage.</summary>
internal sealed partial class Plant
{
    private void Hoods()
    {
        c = Of("hoods");
        var turn = c.R(0, 6.3);
        for (var i = 0; i < Math.Max(1, s.Stems); i++)
        {
            var at = Hor(turn + (i * Golden)) * (s.FlowerWidthCm * (i == 0 ? .3 : .95));
            var (size, lean, chance) = (c.R(.85, 1.05) * Math.Pow(st.Size, .4), c.R(-.18, .18), new Chance(s.ScientificName + seed + i));
            Add(at.Z, () => Hood(pen.At(at), size, lean, chance));
        }
    }

    /// <summary>A pointed shell, bent over at its tip and open at one side, with the round spike of flowers inside and the rolled leaf
    /// beside it.</summary>
    private void Hood(P2 foot, double size, double lean, Chance e)
    {
        var (w, h) = (s.FlowerWidthCm * size * pen.S, s.InflorescenceLengthCm * size * pen.S);
        var side = lean < 0 ? -1 : 1;
        P2 A(double across, double up) => foot + new P2(w * ((across * side) + (lean * up)), -h * up);
        var fill = "f-" + s.FlowerColour;
        if (h < 6)
        {
            pen.Blade([A(0, 0), A(0, .35), A(.05, .7), A(.2, 1)], Math.Max(1, w * .4), new Profile(.4, .6), veins: false, fill: fill);
            return;
        }

        var bud = A(-.62, 0);
        pen.Blade([bud, bud - new P2(0, h * .3), bud - new P2(0, h * .6)], Math.Max(1, w * .1), Profile.Of("lanceolate"), veins: false);
        pen.Shape(new Trace().M(A(-.3, 0)).Q(A(-.66, .42), A(-.36, .76)).Q(A(-.12, .98), A(.34, 1)).Q(A(.22, .9), A(.3, .76))
            .Q(A(.62, .42), A(.3, 0)).Q(A(0, -.05), A(-.3, 0)).Z(), fill);
        pen.Shape(new Trace().M(A(.06, .06)).Q(A(-.2, .4), A(.2, .84)).Q(A(.46, .42), A(.26, .06)).Q(A(.16, .02), A(.06, .06)).Z(), "f-dark");
        pen.Blob(A(.16, .3), Math.Max(1, w * .13), "f-" + s.CentreColour, squash: 1.15);
        if (h > 16)
        {
            Dots(A(.16, .3), w * .1, 9, e);
            pen.Lines([[A(-.24, .06), A(-.46, .42), A(-.2, .8)], [A(-.14, .06), A(-.28, .42), A(-.04, .84)],
                [A(-.02, .05), A(-.14, .4), A(.1, .86)]], ink: "f-green-l n2");
        }
    }
}
