using PdfSharp.Drawing;

namespace CommonGround.Reports.Layout;

/// <summary>A photo on paper, cut to the middle of its box, with its caption below.</summary>
internal static class Photograph
{
    /// <param name="set">Measures the caption.</param>
    /// <param name="width">Of the box, points.</param>
    /// <param name="height">Of the picture, points.</param>
    /// <param name="jpeg">The file.</param>
    /// <param name="caption">Under it, and its words for those who hear it.</param>
    /// <returns>Null for a file that is no picture: the report goes without.</returns>
    public static IReadOnlyList<Flow>? Of(Typesetter set, double width, double height, byte[] jpeg, string caption)
    {
        XImage? image = null;
        try
        {
            using var looked = XImage.FromStream(new MemoryStream(jpeg));
            if (looked.PixelWidth < 1 || looked.PixelHeight < 1) return null;
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or NotSupportedException or IOException)
        {
            return null;
        }

        return
        [
            new Flow([new Slice(height, (pen, y) =>
            {
                using var stream = new MemoryStream(jpeg);
                using (image = XImage.FromStream(stream))
                {
                    var scale = Math.Max(width / image.PixelWidth, height / image.PixelHeight);
                    var (wide, tall) = (image.PixelWidth * scale, image.PixelHeight * scale);
                    var box = new XRect(pen.Left, y, width, height);
                    pen.Figure(caption, box, () =>
                    {
                        var state = pen.Graphics.Save();
                        pen.Graphics.IntersectClip(box);
                        pen.Graphics.DrawImage(image, box.X - ((wide - width) / 2), box.Y - ((tall - height) / 2), wide, tall);
                        pen.Graphics.Restore(state);
                    });
                }
            })]),
            Prose.Small(set, width, caption),
        ];
    }
}
