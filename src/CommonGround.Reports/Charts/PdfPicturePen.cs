using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Strokes;
using CommonGround.Reports.Layout;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Picture = CommonGround.Drawings.Pens.Picture;
using Placed = CommonGround.Drawings.Pens.Placed;

namespace CommonGround.Reports.Charts;

/// <summary>Draws a <see cref="Picture"/> on paper: the same strokes as on the page; a plant used many times is one form of the
/// file.</summary>
internal static class PdfPicturePen
{
    /// <summary>Draws a picture's plants once, for use on any page. To be called before the document is tagged: the library refuses to
    /// draw beside the page that it tags.</summary>
    internal static Dictionary<(string, int), (XForm Form, Bounds Box)?> Forms(PdfDocument document, Picture picture) =>
        picture.Items.OfType<Placed>().Select(p => (p.Symbol, p.Distance)).Distinct()
            .ToDictionary(key => key, key => Form(document, picture.Symbols[key.Symbol], key.Distance, Fine(picture)));

    /// <summary>Draws it as a tagged figure, scaled to the width of the box.</summary>
    /// <param name="pen">The page's pen.</param>
    /// <param name="forms">Its plants, from <see cref="Forms"/>.</param>
    /// <param name="picture">What to draw.</param>
    /// <param name="box">In page coordinates, points.</param>
    public static void Draw(Layout.Pen pen, Dictionary<(string, int), (XForm Form, Bounds Box)?> forms, Picture picture, XRect box)
    {
        var scale = box.Width / picture.Width;
        pen.Figure(picture.Description, box, () =>
        {
            Draw(pen.Graphics, forms, picture, box, scale);
            foreach (var label in picture.Items.OfType<Label>())
            {
                Write(pen, label, box, scale);
            }
        });
    }

    /// <summary>Draws everything but the words.</summary>
    internal static void Draw(XGraphics graphics, Dictionary<(string, int), (XForm Form, Bounds Box)?> forms, Picture picture, XRect box,
        double scale)
    {
        foreach (var item in picture.Items)
        {
            var state = graphics.Save();
            // A tree's top may lie above the picture.
            graphics.IntersectClip(box);
            graphics.TranslateTransform(box.X, box.Y);
            graphics.ScaleTransform(scale);
            if (item is Drawn drawn)
            {
                Strokes(graphics, drawn.Strokes, drawn.Distance, Fine(picture));
            }
            else if (item is Placed placed)
            {
                Use(graphics, forms, placed);
            }

            graphics.Restore(state);
        }
    }

    /// <summary>Lines are finer where a whole bed stands on the width of a page.</summary>
    private static double Fine(Picture picture) => picture.Symbols.Count > 0 && picture.Width < 700 ? .55 : 1;

    /// <summary>Presses the plants drawn once: the library presses pages only. To be called once, before the document is saved.</summary>
    internal static void Press(PdfDocument document)
    {
        foreach (var form in document.Internals.GetAllObjects().OfType<PdfDictionary>()
            .Where(d => d.Stream is not null && d.Elements.GetName("/Subtype") == "/Form" && !d.Elements.ContainsKey("/Filter")))
        {
            form.Stream!.Zip();
        }
    }

    private static void Use(XGraphics graphics, Dictionary<(string, int), (XForm Form, Bounds Box)?> forms, Placed placed)
    {
        if (forms[(placed.Symbol, placed.Distance)] is not { } form)
        {
            return;
        }

        var across = placed.Mirrored ? -placed.Scale : placed.Scale;
        graphics.MultiplyTransform(new XMatrix(across, 0, -placed.Lean, placed.Scale, placed.X, placed.Y));
        graphics.DrawImage(form.Form, form.Box.Left, form.Box.Top, form.Form.PointWidth, form.Form.PointHeight);
    }

    private static (XForm Form, Bounds Box)? Form(PdfDocument document, IReadOnlyList<Stroke> strokes, int distance, double fine)
    {
        if (Bounds.Of(strokes) is not { } tight)
        {
            return null;
        }

        // Whole points, so that the figures in the file stay short.
        var box = new Bounds(Math.Floor(tight.Left) - 4, Math.Floor(tight.Top) - 4, Math.Ceiling(tight.Right) + 4,
            Math.Ceiling(tight.Bottom) + 4);
        var form = new XForm(document, XUnit.FromPoint(box.Right - box.Left), XUnit.FromPoint(box.Bottom - box.Top));
        using (var graphics = XGraphics.FromForm(form))
        {
            graphics.TranslateTransform(-box.Left, -box.Top);
            Strokes(graphics, strokes, distance, fine);
            GreyMarks.Draw(graphics, strokes);
        }

        return (form, box);
    }

    private static void Strokes(XGraphics graphics, IReadOnlyList<Stroke> strokes, int distance, double fine)
    {
        // So small that the paper round a stem is not seen.
        foreach (var stroke in strokes.Where(s => fine >= 1 || s.Ink is not ("o2" or "v i")))
        {
            var look = Inks.Of(stroke.Ink, Theme.Light, distance);
            var line = look.Line is { } ink
                ? new XPen(Colour(ink), look.Width * fine) { LineCap = XLineCap.Round, LineJoin = XLineJoin.Round } : null;
            var fill = look.Fill is { } wash ? new XSolidBrush(Colour(wash)) : null;
            if (stroke.Path is null)
            {
                Dot(graphics, stroke, look with { Width = look.Width * fine });
            }
            else if (line is not null || fill is not null)
            {
                foreach (var figure in Figures(stroke.Path))
                {
                    graphics.DrawPath(line, fill, figure);
                }
            }
        }
    }

    /// <summary>A small circle is a line without length and with round ends: a tenth of the bytes of four curves.</summary>
    private static void Dot(XGraphics graphics, Stroke stroke, InkLook look)
    {
        var (x, y) = (Round(stroke.Centre.X), Round(stroke.Centre.Y));
        var edge = look.Line is null ? 0 : look.Width;
        if (look.Line is { } line)
        {
            graphics.DrawLine(new XPen(Colour(line), Round((2 * stroke.Radius) + edge)) { LineCap = XLineCap.Round }, x, y, x, y);
        }

        if (look.Fill is { } fill)
        {
            graphics.DrawLine(new XPen(Colour(fill), Round(Math.Max(.4, (2 * stroke.Radius) - edge))) { LineCap = XLineCap.Round }, x, y,
                x, y);
        }
    }

    /// <summary>One path a figure: the library joins figures that follow each other in one path.</summary>
    private static IEnumerable<XGraphicsPath> Figures(Trace trace)
    {
        XGraphicsPath? path = null;
        var at = default(P2);
        foreach (var step in trace.Steps)
        {
            if (step.Kind == StepKind.Move)
            {
                if (path is not null)
                {
                    yield return path;
                }

                path = new XGraphicsPath { FillMode = XFillMode.Winding };
                at = step.To;
                continue;
            }

            at = Draw(path!, step, at);
        }

        if (path is not null)
        {
            yield return path;
        }
    }

    private static P2 Draw(XGraphicsPath path, Step step, P2 at)
    {
        switch (step.Kind)
        {
            case StepKind.Close:
                path.CloseFigure();
                return at;
            // A bend of less than a quarter of a point is not seen.
            case StepKind.Curve when (step.Control - ((at + step.To) * .5)).Length >= .5:
                // A quadratic curve is a cubic one whose controls lie two thirds of the way to its own.
                var (a, b) = (at + ((step.Control - at) * (2.0 / 3)), step.To + ((step.Control - step.To) * (2.0 / 3)));
                path.AddBezier(Round(at.X), Round(at.Y), Round(a.X), Round(a.Y), Round(b.X), Round(b.Y), Round(step.To.X),
                    Round(step.To.Y));
                return step.To;
            default:
                path.AddLine(Round(at.X), Round(at.Y), Round(step.To.X), Round(step.To.Y));
                return step.To;
        }
    }

    private static double Round(double value) => Math.Round(value, 1);

    private static XColor Colour(string hex) =>
        Ink.Of(int.Parse(hex.AsSpan(1), System.Globalization.NumberStyles.HexNumber, System.Globalization.CultureInfo.InvariantCulture));

    private static void Write(Layout.Pen pen, Label label, XRect box, double scale)
    {
        var kind = label.Style switch { "latin" => Faces.Latin, "small" => Faces.Data, _ => Faces.DataStrong };
        var face = kind.At(Math.Max(7.5, Math.Round((label.Style == "head" ? 18 : 13) * scale, 1)));
        var width = label.Anchor == LabelAnchor.Start ? 0 : pen.Set.Width(label.Text, face);
        var left = box.X + (label.X * scale) - (label.Anchor switch { LabelAnchor.Middle => width / 2, LabelAnchor.End => width, _ => 0 });
        // Paper behind the words, or blades run through them.
        pen.Graphics.DrawRectangle(XBrushes.White, left - 1, box.Y + (label.Y * scale) - (face.Size * .8),
            pen.Set.Width(label.Text, face) + 2, face.Size * 1.02);
        pen.Text(label.Text + " ", face, left - pen.Left, box.Y + (label.Y * scale));
    }
}
