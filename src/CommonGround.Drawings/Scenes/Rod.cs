using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Scenes;

/// <summary>The rule beside plants: a metre in tenths, or a yardstick in half feet.</summary>
public static class Rod
{
    private const double Inch = 2.54;

    /// <summary>Its length, cm.</summary>
    public static double LengthCm(bool feet) => feet ? 36 * Inch : 100;

    /// <summary>Its length in words.</summary>
    public static string Words(bool feet) => feet ? "3 ft" : "1 m";

    /// <summary>Draws it upright, from the ground.</summary>
    /// <param name="x">Its middle, px.</param>
    /// <param name="ground">Px.</param>
    /// <param name="pxPerCm">Above 0.</param>
    /// <param name="feet">A yardstick.</param>
    /// <param name="toCm">Nothing is drawn above this height.</param>
    internal static List<Stroke> Draw(double x, double ground, double pxPerCm, bool feet, double toCm = double.MaxValue)
    {
        var strokes = new List<Stroke>();
        var pen = new Pen(strokes, 0, 0, 1, "rod") { Wobble = .3 };
        var step = feet ? 6 * Inch : 10;
        for (var (i, low) = (0, 0.0); low < Math.Min(LengthCm(feet), toCm) - .01; i++, low += step)
        {
            var (foot, top) = (ground - (low * pxPerCm), ground - (Math.Min(low + step, Math.Min(LengthCm(feet), toCm)) * pxPerCm));
            pen.Put(i % 2 == 0 ? "k" : "p i",
                new Trace().M(new(x - 3, foot)).L(new(x + 3, foot)).L(new(x + 3, top)).L(new(x - 3, top)).Z());
        }

        return strokes;
    }
}
