using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace CommonGround.Reports.Layout;

/// <summary>What stands at the head and foot of every page.</summary>
/// <param name="Title">Of the document: "Yard report · yard LA-07 · August 19, 2026".</param>
/// <param name="Place">The neighbourhood, beside the wordmark.</param>
/// <param name="Foot">At the foot, left of the page number.</param>
internal sealed record Masthead(string Title, string Place, string Foot);

/// <summary>Draws placed flows as a tagged PDF: language, title, structure in reading order, embedded subsets of our own fonts.</summary>
/// <remarks>Made to the rules of PDF/UA-1 (ISO 14289-1) on PDF 1.7 (ISO 32000-1); not checked by a validator, so it does not call itself
/// conforming.</remarks>
internal static class TaggedDocument
{
    public static void Write(Stream to, Sheet sheet, Masthead masthead, Typesetter set, IReadOnlyList<Flow> flows)
    {
        var placed = Pagination.Place(flows, sheet.TextHeight);
        var pages = Pagination.Pages(placed);
        using var pdf = new PdfDocument();
        pdf.Info.Title = masthead.Title;
        pdf.Info.Author = "CommonGround, " + masthead.Place;
        foreach (var flow in flows)
        {
            flow.Prepare?.Invoke(pdf);
        }

        var accessibility = UAManager.ForDocument(pdf);
        accessibility.SetDocumentLanguage("en");
        for (var page = 0; page < pages; page++)
        {
            var sheetOfPdf = pdf.AddPage();
            sheetOfPdf.Width = XUnit.FromPoint(sheet.Width);
            sheetOfPdf.Height = XUnit.FromPoint(sheet.Height);
            sheetOfPdf.Elements.SetName("/Tabs", "/S");
            using var pen = new Pen(XGraphics.FromPdfPage(sheetOfPdf), accessibility.StructureBuilder, set, sheet);
            Head(pen, sheet, masthead, readOut: page == 0);
            Body(pen, sheet, placed, page);
            pen.Artifact(() => Foot(pen, sheet, masthead, page + 1, pages));
        }

        Charts.PdfPicturePen.Press(pdf);
        using var buffer = new MemoryStream();
        pdf.Save(buffer, closeStream: false);
        to.Write(UaMark.Append(buffer.ToArray(), masthead.Title));
    }

    private static void Body(Pen pen, Sheet sheet, IReadOnlyList<Placed> placed, int page)
    {
        Flow? open = null;
        foreach (var strip in placed.Where(p => p.Page == page))
        {
            if (!ReferenceEquals(open, strip.Flow))
            {
                if (open?.Open is not null)
                {
                    pen.Close();
                }

                strip.Flow.Open?.Invoke(pen);
                open = strip.Flow;
            }

            strip.Slice.Draw(pen, sheet.TextTop + strip.Y);
        }

        if (open?.Open is not null)
        {
            pen.Close();
        }
    }

    /// <summary>The wordmark, three stops on a line, then the place and what this paper is.</summary>
    private static void Head(Pen pen, Sheet sheet, Masthead masthead, bool readOut)
    {
        const double Base = 47;
        var right = sheet.TextWidth - pen.Set.Width(masthead.Title, Faces.Small);
        var name = pen.Set.Width("CommonGround ", Faces.Mark);
        pen.Artifact(() =>
        {
            var y = Base - 4.6;
            pen.Graphics.DrawLine(new XPen(Ink.Black, 1.8), pen.Left + 3, y, pen.Left + 18.5, y);
            pen.Graphics.DrawEllipse(new XSolidBrush(Ink.Black), pen.Left, y - 3, 6, 6);
            pen.Graphics.DrawEllipse(new XSolidBrush(Ink.Black), pen.Left + 9, y - 3, 6, 6);
            pen.Graphics.DrawEllipse(new XPen(Ink.Black, 1.6), new XSolidBrush(Ink.Paper), pen.Left + 18.7, y - 2.7, 5.4, 5.4);
            pen.Rule(Ink.Black, 1.5, 0, sheet.TextWidth, Base + 8);
        });
        void Words()
        {
            pen.Text("CommonGround ", Faces.Mark, 30, Base);
            pen.Text(masthead.Place + " ", Faces.MarkPlace, 30 + name + 2, Base);
            pen.Text(masthead.Title + " ", Faces.Small, right, Base);
        }

        if (readOut)
        {
            pen.Tagged(PdfBlockLevelElementTag.Paragraph, Words);
        }
        else
        {
            pen.Artifact(Words);
        }
    }

    private static void Foot(Pen pen, Sheet sheet, Masthead masthead, int page, int pages)
    {
        var y = sheet.Height - 42;
        var number = $"page {page} of {pages}";
        pen.Rule(Ink.RuleStrong, 0.75, 0, sheet.TextWidth, y);
        pen.Text(masthead.Foot + " ", Faces.Foot, 0, y + 13);
        pen.Text(number, Faces.Foot, sheet.TextWidth - pen.Set.Width(number, Faces.Foot), y + 13);
    }
}
