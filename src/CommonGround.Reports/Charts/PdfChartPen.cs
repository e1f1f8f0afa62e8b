using CommonGround.Reports.Layout;
using PdfSharp.Drawing;

namespace CommonGround.Reports.Charts;

/// <summary>Draws a <see cref="Chart"/> on paper: the same marks as on the web page, in ink that still reads when copied in grey.</summary>
internal static class PdfChartPen
{
    /// <summary>Draws the chart as a tagged figure, scaled to the width of the box.</summary>
    /// <param name="box">In page coordinates, points.</param>
    public static void Draw(Pen pen, Chart chart, XRect box)
    {
        var scale = box.Width / chart.Width;
        pen.Figure(chart.AltText, box, () =>
        {
            foreach (var mark in chart.Marks)
            {
                Draw(pen, mark, box, scale);
            }
        });
    }

    private static void Draw(Pen pen, Mark mark, XRect box, double scale)
    {
        double X(double x) => box.X + (x * scale);
        double Y(double y) => box.Y + (y * scale);
        var graphics = pen.Graphics;
        switch (mark)
        {
            case TextMark text:
                Text(pen, text, X(text.X), Y(text.Y), scale);
                return;
            case LineMark line:
                graphics.DrawLine(ChartInk.Of(mark.Style).Stroke(scale) ?? throw Unknown(mark), X(line.X1), Y(line.Y1), X(line.X2),
                    Y(line.Y2));
                return;
        }

        var ink = ChartInk.Of(mark.Style);
        var stroke = ink.Stroke(scale);
        var fill = ink.Brush();
        switch (mark)
        {
            case RectMark { Radius: > 0 } bar:
                // A pill: no rounder than half its height, however short it is.
                var round = 2 * scale * Math.Min(bar.Radius, bar.Width / 2);
                graphics.DrawRoundedRectangle(stroke, fill, X(bar.X), Y(bar.Y), bar.Width * scale, bar.Height * scale, round, round);
                break;
            case RectMark box2:
                Rectangle(graphics, stroke, fill, X(box2.X), Y(box2.Y), box2.Width * scale, box2.Height * scale);
                break;
            case CircleMark circle:
                graphics.DrawEllipse(stroke, fill, X(circle.X - circle.Radius), Y(circle.Y - circle.Radius), 2 * circle.Radius * scale,
                    2 * circle.Radius * scale);
                break;
            case PathMark path:
                Path(graphics, path, stroke, fill, [.. path.Points.Select(p => new XPoint(X(p.X), Y(p.Y)))]);
                break;
            default:
                throw Unknown(mark);
        }
    }

    private static void Rectangle(XGraphics graphics, XPen? stroke, XBrush? fill, double x, double y, double width, double height)
    {
        if (stroke is not null || fill is not null)
        {
            graphics.DrawRectangle(stroke, fill, x, y, width, height);
        }
    }

    private static void Path(XGraphics graphics, PathMark path, XPen? stroke, XBrush? fill, XPoint[] points)
    {
        if (path.Closed)
        {
            graphics.DrawPolygon(stroke, fill, points, XFillMode.Winding);
        }
        else if (stroke is not null)
        {
            graphics.DrawLines(stroke, points);
        }
    }

    private static void Text(Pen pen, TextMark mark, double x, double y, double scale)
    {
        var face = ChartInk.Words(mark.Style, scale);
        var width = mark.Anchor == Anchor.Start ? 0 : pen.Set.Width(mark.Text, face);
        var left = mark.Anchor switch
        {
            Anchor.Middle => x - (width / 2),
            Anchor.End => x - width,
            _ => x,
        };
        pen.Text(mark.Text + " ", face, left - pen.Left, y);
        if (mark.Tail.Length > 0)
        {
            // A page lets the tail follow by itself; here the width of the text before it is measured.
            var after = left + pen.Set.Width(mark.Text, face) + (7 * scale);
            pen.Text(mark.Tail + " ", ChartInk.Words(mark.TailStyle, scale), after - pen.Left, y);
        }
    }

    private static InvalidOperationException Unknown(Mark mark) =>
        new($"A {mark.GetType().Name} of style '{mark.Style}' has no ink on paper.");
}
