using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;
using Drawn = (PdfSharp.Drawing.XForm Form, CommonGround.Drawings.Pens.Bounds Box);

namespace CommonGround.Reports.Labels;

/// <summary>Writes plant labels and stakes as a tagged PDF, each at its place on the sheet.</summary>
/// <remarks>Safe to call from several threads at once; nothing is kept between calls but the fonts' bytes.</remarks>
public static class LabelDocument
{
    private const double Edge = 7, Gap = 6, QrLargest = 62, QrNarrow = 52, PointHeight = 40;

    /// <summary>Writes the PDF.</summary>
    /// <param name="labels">One each, in this order; at least one.</param>
    /// <param name="stock">The sheet.</param>
    /// <param name="neighbourhood">For the file's title only.</param>
    /// <param name="to">Written forward only and left open.</param>
    public static void Write(IReadOnlyList<PlantLabel> labels, LabelStock stock, string neighbourhood, Stream to)
    {
        ArgumentNullException.ThrowIfNull(labels);
        ArgumentNullException.ThrowIfNull(stock);
        ArgumentNullException.ThrowIfNull(to);
        if (labels.Count == 0)
        {
            throw new ArgumentException("A sheet has one label at least.", nameof(labels));
        }

        var sheet = Sheet.Of(stock.Paper);
        var title = $"Plant labels · {neighbourhood}";
        using var set = new Typesetter();
        using var pdf = new PdfDocument();
        (pdf.Info.Title, pdf.Info.Author) = (title, "CommonGround, " + neighbourhood);
        var forms = labels.Select(l => PdfPicturePen.Forms(pdf, l.Likeness)).ToList();
        var accessibility = UAManager.ForDocument(pdf);
        accessibility.SetDocumentLanguage("en");
        foreach (var chunk in labels.Zip(forms).Chunk(stock.OnASheet))
        {
            var page = pdf.AddPage();
            (page.Width, page.Height) = (XUnit.FromPoint(sheet.Width), XUnit.FromPoint(sheet.Height));
            page.Elements.SetName("/Tabs", "/S");
            using var pen = new Pen(XGraphics.FromPdfPage(page), accessibility.StructureBuilder, set, sheet);
            for (var i = 0; i < chunk.Length; i++)
            {
                var box = new XRect(stock.Left + (i % stock.Columns * stock.Across), stock.Top + (i / stock.Columns * stock.Down),
                    stock.Width, stock.Height);
                var at = pen.At(box.X - pen.Left);
                if (stock.IsStake)
                {
                    Stake(at, chunk[i].First, chunk[i].Second, box);
                }
                else
                {
                    Label(at, chunk[i].First, chunk[i].Second, box);
                }
            }
        }

        PdfPicturePen.Press(pdf);
        using var buffer = new MemoryStream();
        pdf.Save(buffer, closeStream: false);
        to.Write(UaMark.Append(buffer.ToArray(), title));
    }

    /// <summary>The drawing at the left, words and strip in the middle, the code at the right.</summary>
    private static void Label(Pen pen, PlantLabel label, Dictionary<(string, int), Drawn?> forms, XRect box)
    {
        var inside = box.Height - (2 * Edge);
        var narrow = box.Width < 200;
        var qr = Math.Min(inside, narrow ? QrNarrow : QrLargest);
        var drawing = Math.Min(inside, box.Width * (narrow ? 0.2 : 0.24));
        var left = Edge + drawing + Gap;
        var width = box.Width - left - qr - Edge - 2;
        var size = box.Height < 80 ? 9.5 : narrow ? 10.5 : 14;
        var y = Words(pen, label, box.Y + Edge, left, width, size, middle: false);
        // On a narrow label the letters of the months could not be read; the words above say the same.
        var strip = label.Strip(letters: !narrow);
        var height = Math.Min(22, strip.Height * width / strip.Width);
        PdfPicturePen.Draw(pen, forms, label.Likeness, new XRect(box.X + Edge, box.Y + ((box.Height - drawing) / 2), drawing, drawing));
        PdfChartPen.Draw(pen, strip, new XRect(box.X + left, Math.Max(y + 2, box.Bottom - Edge - height),
            height * strip.Width / strip.Height, height));
        PdfChartPen.Draw(pen, Code(label), new XRect(box.Right - qr - Edge + 4, box.Y + ((box.Height - qr) / 2), qr, qr));
    }

    /// <summary>Everything at the head, the foot left free for the ground, and lines to cut along.</summary>
    private static void Stake(Pen pen, PlantLabel label, Dictionary<(string, int), Drawn?> forms, XRect box)
    {
        pen.Artifact(() =>
        {
            var cut = new XPen(Ink.RuleStrong, 0.5) { DashStyle = XDashStyle.Dash };
            var (foot, middle) = (box.Bottom - PointHeight, box.X + (box.Width / 2));
            pen.Graphics.DrawLines(cut, [new(box.X, foot), new(box.X, box.Y), new(box.Right, box.Y), new(box.Right, foot),
                new(middle, box.Bottom), new(box.X, foot)]);
        });
        var width = box.Width - (2 * Edge);
        PdfPicturePen.Draw(pen, forms, label.Likeness, new XRect(box.X + Edge, box.Y + Edge + 4, width, width));
        var y = Words(pen, label, box.Y + Edge + width + 10, Edge, width, 13, middle: true) + 4;
        var strip = label.Strip(letters: true);
        var height = strip.Height * width / strip.Width;
        PdfChartPen.Draw(pen, strip, new XRect(box.X + Edge, y, width, height));
        var qr = Math.Min(width, 74);
        PdfChartPen.Draw(pen, Code(label), new XRect(box.X + ((box.Width - qr) / 2), y + height + 8, qr, qr));
    }

    /// <summary>The names and when it flowers; the y below them.</summary>
    private static double Words(Pen pen, PlantLabel label, double top, double x, double width, double size, bool middle)
    {
        var y = top;
        void Lines(string text, Face face, double leading, int most)
        {
            // A long name is set smaller, so that none of it is left out.
            var lines = pen.Set.Wrap([new Run(text, face)], width);
            while (lines.Count > most && face.Size > 5)
            {
                (face, leading) = (face.At(face.Size - 0.5), leading - 0.5);
                lines = pen.Set.Wrap([new Run(text, face)], width);
            }

            pen.Tagged(PdfBlockLevelElementTag.Paragraph, () =>
            {
                foreach (var line in lines.Take(most))
                {
                    y += leading;
                    pen.Line(line, x + (middle ? (width - line.Width) / 2 : 0), y);
                }
            });
        }

        Lines(YardReports.Wording.Capital(label.Name), Faces.H3.At(size), size * 1.1, 2);
        Lines(label.Latin, Faces.Latin.At(Math.Max(7, size * 0.72)), size * 0.9, 2);
        Lines(label.BloomWords, Faces.Data.At(Math.Max(6.5, size * 0.62)), size * 0.8, 2);
        return y + 2;
    }

    private static Chart Code(PlantLabel label) => QrChart.Draw(label.Address, $"the page of {label.Name}");
}
