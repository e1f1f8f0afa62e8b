using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace CommonGround.Reports.Layout;

/// <summary>Draws on one page and tags what it draws. The x of every method is points from the left edge of the text box, or of the column
/// it is lent to.</summary>
internal sealed class Pen(XGraphics graphics, StructureBuilder tags, Typesetter set, Sheet sheet, double column = 0) : IDisposable
{
    public XGraphics Graphics => graphics;

    public Typesetter Set => set;

    public double Width => sheet.TextWidth;

    public double Left => sheet.Left + column;

    /// <summary>The same pen for a column that begins <paramref name="x"/> points further right; it is not to be disposed of.</summary>
    public Pen At(double x) => new(graphics, tags, set, sheet, column + x);

    /// <summary>Whether a y is the top of the text box.</summary>
    public bool IsTop(double y) => y < sheet.TextTop + 0.5;

    /// <summary>Draws inside a tag of ISO 32000-1, 14.8.4: H1, P, Table, TR …</summary>
    public void Tagged(PdfBlockLevelElementTag tag, Action draw)
    {
        tags.BeginElement(tag);
        draw();
        tags.End();
    }

    /// <summary>Opens a tag that is closed by <see cref="Close"/>.</summary>
    public void Open(PdfBlockLevelElementTag tag) => tags.BeginElement(tag);

    public void Close() => tags.End();

    /// <summary>What only decorates: rules, grounds, heads and feet of pages. It is not read out.</summary>
    public void Artifact(Action draw)
    {
        tags.BeginArtifact();
        draw();
        tags.End();
    }

    /// <summary>A picture with the words that stand for it.</summary>
    /// <param name="box">In page coordinates, from the top of the page down.</param>
    public void Figure(string alternative, XRect box, Action draw)
    {
        // The tag's box counts from the foot of the page (ISO 32000-1, 8.3.2.3); the writer passes it on as it is given.
        var upward = new XRect(box.X, sheet.Height - box.Bottom, box.Width, box.Height);
        tags.BeginElement(PdfIllustrationElementTag.Figure, alternative, upward);
        draw();
        tags.End();
    }

    /// <summary>A table cell; a heading cell says which way it heads (ISO 14289-1, 7.5).</summary>
    public void Cell(CellRole role, int span, Action draw)
    {
        tags.BeginElement(role == CellRole.Data ? PdfBlockLevelElementTag.TableDataCell : PdfBlockLevelElementTag.TableHeaderCell);
        if (role != CellRole.Data || span > 1)
        {
            var attributes = new PdfDictionary();
            attributes.Elements.SetName("/O", "/Table");
            if (role != CellRole.Data)
            {
                attributes.Elements.SetName("/Scope", role == CellRole.HeadsColumn ? "/Column" : "/Row");
            }

            if (span > 1)
            {
                attributes.Elements.SetInteger("/ColSpan", span);
            }

            tags.CurrentStructureElement.Elements["/A"] = attributes;
        }

        draw();
        tags.End();
    }

    /// <summary>A set line, its baseline at <paramref name="y"/> from the top of the page.</summary>
    public void Line(TextLine line, double x, double y)
    {
        foreach (var piece in line.Pieces)
        {
            Text(piece.Text, piece.Face, x + piece.X, y);
        }
    }

    public void Text(string text, Face face, double x, double baseline) =>
        graphics.DrawString(text, set.Font(face), new XSolidBrush(face.Ink), Left + x, baseline, XStringFormats.BaseLineLeft);

    public void Rule(XColor ink, double thickness, double fromX, double toX, double y) =>
        graphics.DrawLine(new XPen(ink, thickness), Left + fromX, y, Left + toX, y);

    public void Dispose() => graphics.Dispose();
}

internal enum CellRole { Data, HeadsColumn, HeadsRow }
