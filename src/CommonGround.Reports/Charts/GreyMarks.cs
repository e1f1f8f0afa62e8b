using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Strokes;
using CommonGround.Reports.Layout;
using PdfSharp.Drawing;

namespace CommonGround.Reports.Charts;

/// <summary>A small mark within each flower of a bed, by its colour, so that drifts stay apart on a printer without colours. Yellow and
/// white, the lightest, have none.</summary>
internal static class GreyMarks
{
    private enum Mark { DarkDot, WhiteDot, DarkBar, WhiteBar, WhiteUpright }

    /// <summary>What the marks mean, for the line under the picture.</summary>
    public const string Words = "Printed in grey: pink has a dark dot, purple a light dot, orange a dark bar, red a light bar, blue a "
        + "light upright.";

    /// <summary>Px between marks: two scenes stand on the width of a page, where more would run together.</summary>
    private const double Apart = 4.2;

    private const int Ink = 0x1A231C, Paper = 0xFFFFFF;

    private static readonly Dictionary<string, Mark> s_marks = new(StringComparer.Ordinal)
    {
        ["pink"] = Mark.DarkDot,
        ["purple"] = Mark.WhiteDot,
        ["orange"] = Mark.DarkBar,
        ["red"] = Mark.WhiteBar,
        ["blue"] = Mark.WhiteUpright,
    };

    /// <summary>The mark of a colour, in a word; empty for none.</summary>
    public static string Of(string colour) => s_marks.TryGetValue(colour, out var mark) ? mark.ToString() : "";

    /// <summary>Draws the marks of one plant; of flowers that lie over each other only those that are seen are marked.</summary>
    public static void Draw(XGraphics graphics, IReadOnlyList<Stroke> strokes)
    {
        var taken = new HashSet<(int, int)>();
        for (var i = strokes.Count - 1; i >= 0; i--)
        {
            var stroke = strokes[i];
            if (MarkOf(stroke.Ink) is not { } mark || Place(stroke) is not { } at || !taken.Add(((int)(at.X / Apart), (int)(at.Y / Apart))))
            {
                continue;
            }

            var wide = mark switch { Mark.DarkDot or Mark.WhiteDot => 1.8, _ => .85 };
            var reach = mark switch { Mark.DarkDot or Mark.WhiteDot => 0, _ => 1.5 };
            var (x, y) = mark == Mark.WhiteUpright ? (0.0, reach) : (reach, 0.0);
            graphics.DrawLine(
                new XPen(Layout.Ink.Of(mark is Mark.DarkDot or Mark.DarkBar ? Ink : Paper), wide) { LineCap = XLineCap.Round },
                Math.Round(at.X - x, 1), Math.Round(at.Y - y, 1), Math.Round(at.X + x, 1), Math.Round(at.Y + y, 1));
        }
    }

    private static Mark? MarkOf(string ink)
    {
        var word = ink.Split(' ')[0].Split('-');
        return word is ["f", var colour] && s_marks.TryGetValue(colour, out var mark) ? mark : null;
    }

    /// <summary>The middle of a floret that has room for a mark.</summary>
    private static P2? Place(Stroke stroke)
    {
        if (stroke.Path is null)
        {
            return stroke.Radius >= .85 ? stroke.Centre : null;
        }

        return Bounds.Of([stroke]) is { } b && Math.Min(b.Right - b.Left, b.Bottom - b.Top) >= 1.8
            ? new P2((b.Left + b.Right) / 2, (b.Top + b.Bottom) / 2) : null;
    }
}
