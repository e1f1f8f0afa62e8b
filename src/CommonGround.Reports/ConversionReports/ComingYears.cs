using CommonGround.Drawings.Scenes;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using PdfSharp.Drawing;

namespace CommonGround.Reports.ConversionReports;

/// <summary>The planting in four seasons, two pictures to a row.</summary>
internal static class ComingYears
{
    private const double Gutter = 12;

    public static IEnumerable<Flow> Flows(ConversionReport report, Typesetter set, double width)
    {
        if (report.Scenes.Count == 0) yield break;
        yield return Prose.H2(set, width, "What comes of it") with { SpaceBefore = 12 };
        foreach (var row in report.Scenes.Chunk(2))
        {
            var wide = (width - Gutter) / 2;
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

        yield return Prose.Small(set, width, "Seen from the walk, to scale; of a long bed the middle. " + SceneWords.Caution);
    }
}
