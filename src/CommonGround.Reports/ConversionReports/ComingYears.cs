using CommonGround.Drawings.Scenes;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using PdfSharp.Drawing;

namespace CommonGround.Reports.ConversionReports;

/// <summary>The planting in four seasons, two pictures to a row.</summary>
internal static class ComingYears
{
    private const double Gutter = 12;

    /// <param name="report">Its pictures.</param>
    /// <param name="set">Measures the caption.</param>
    /// <param name="width">Points.</param>
    /// <param name="most">Height that all of it may take; pictures are made smaller to keep to it.</param>
    public static IEnumerable<Flow> Flows(ConversionReport report, Typesetter set, double width, double most = double.PositiveInfinity)
    {
        if (report.Scenes.Count == 0) yield break;
        yield return Prose.H2(set, width, "What it will look like") with { SpaceBefore = 12 };
        var full = (width - Gutter) / 2;
        var rows = report.Scenes.Chunk(2).ToList();
        var pictures = rows.Sum(r => r.Max(p => p.Height * full / p.Width));
        // The heading, the caption and what stands between take the rest.
        var wide = full * Math.Clamp((most - 74 - (6 * rows.Count)) / pictures, 0.5, 1);
        foreach (var row in rows)
        {
            var high = row.Max(p => p.Height * wide / p.Width);
            Dictionary<(string, int), (XForm Form, Drawings.Pens.Bounds Box)?>[] forms = [];
            yield return new Flow([new Slice(high, (pen, y) =>
            {
                foreach (var (i, picture) in row.Index())
                {
                    var tall = picture.Height * wide / picture.Width;
                    PdfPicturePen.Draw(pen, forms[i], picture, new XRect(pen.Left + (i * (wide + Gutter)), y + high - tall, wide, tall));
                }
            })])
            {
                SpaceBefore = 6,
                Prepare = pdf => forms = [.. row.Select(p => PdfPicturePen.Forms(pdf, p))],
            };
        }

        yield return Prose.Small(set, width, "Seen from the walk, to scale; of a long bed the middle. " + SceneWords.Caution + " "
            + GreyMarks.Words);
    }
}
