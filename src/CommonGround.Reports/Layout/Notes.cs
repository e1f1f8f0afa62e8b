using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace CommonGround.Reports.Layout;

/// <summary>A caution: what it is about, what to do, and whether it can hurt someone.</summary>
internal sealed record Note(string Heading, string Text, bool Danger = false);

/// <summary>Cautions in two columns of about the same height, each with a bar and a sign beside its heading.</summary>
internal static class Notes
{
    private const double Gap = 26, Indent = 13, HeadLeading = 16, Leading = 12.75, After = 11;

    public static Flow Lay(Typesetter set, double width, IReadOnlyList<Note> notes)
    {
        var column = (width - Gap) / 2;
        var measured = notes.Select(n => (Note: n, Lines: set.Wrap([new Run(n.Text, Faces.Body)], column - Indent))).ToList();
        double Tall((Note Note, IReadOnlyList<TextLine> Lines) n) => HeadLeading + (n.Lines.Count * Leading) + After;
        var total = measured.Sum(Tall);
        var first = 0;
        double left = 0;
        while (first < measured.Count && left + (Tall(measured[first]) / 2) <= total / 2)
        {
            left += Tall(measured[first++]);
        }

        var height = Math.Max(left, total - left) - After;
        return new Flow([new Slice(height, (pen, y) =>
        {
            var top = y;
            for (var i = 0; i < measured.Count; i++)
            {
                top = i == first ? y : top;
                One(pen, measured[i].Note, measured[i].Lines, i < first ? 0 : column + Gap, top);
                top += Tall(measured[i]);
            }
        })])
        { SpaceBefore = 8 };
    }

    private static void One(Pen pen, Note note, IReadOnlyList<TextLine> lines, double x, double y)
    {
        var height = HeadLeading + (lines.Count * Leading);
        var bar = note.Danger ? 5.0 : 2.5;
        pen.Artifact(() =>
        {
            pen.Graphics.DrawRectangle(new XSolidBrush(Ink.Black), pen.Left + x, y, bar, height);
            Sign(pen, x + Indent, y + 2.5, note.Danger);
        });
        pen.Tagged(PdfBlockLevelElementTag.Heading3, () => pen.Text(note.Heading + " ", Faces.H3, x + Indent + 16, y + 12));
        pen.Tagged(PdfBlockLevelElementTag.Paragraph, () => Prose.Draw(pen, lines, x + Indent, y + HeadLeading, Leading, Faces.Body.Size));
    }

    /// <summary>A triangle with a stroke and a dot; filled for danger.</summary>
    private static void Sign(Pen pen, double x, double y, bool filled)
    {
        XPoint[] corners = [new(pen.Left + x + 5.6, y), new(pen.Left + x + 11, y + 9.6), new(pen.Left + x + 0.2, y + 9.6)];
        var outline = new XPen(Ink.Black, 1.2) { LineJoin = XLineJoin.Round };
        pen.Graphics.DrawPolygon(outline, new XSolidBrush(filled ? Ink.Black : Ink.Paper), corners, XFillMode.Winding);
        var mark = new XPen(filled ? Ink.Paper : Ink.Black, 1.3);
        pen.Graphics.DrawLine(mark, pen.Left + x + 5.6, y + 3.3, pen.Left + x + 5.6, y + 6.4);
        pen.Graphics.DrawLine(mark, pen.Left + x + 5.6, y + 7.4, pen.Left + x + 5.6, y + 8.6);
    }
}
