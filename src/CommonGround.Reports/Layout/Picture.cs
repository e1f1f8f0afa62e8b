using CommonGround.Reports.Charts;
using PdfSharp.Drawing;

namespace CommonGround.Reports.Layout;

/// <summary>A chart across the column, with its words for those who hear it.</summary>
internal static class Picture
{
    /// <summary>Points a chart pixel of body charts is drawn at: its smallest figures, 12 px, come out at 7.6 pt.</summary>
    public const double Scale = 0.63;

    /// <summary>The width to draw a chart for, so that it fills the column at <see cref="Scale"/>.</summary>
    public static double DesignWidth(double width) => width / Scale;

    public static Flow Of(Chart chart, double width)
    {
        var height = chart.Height * width / chart.Width;
        return new Flow([new Slice(height, (pen, y) => PdfChartPen.Draw(pen, chart,
            new XRect(pen.Left, y, width, height)))])
        { SpaceBefore = 8 };
    }
}
