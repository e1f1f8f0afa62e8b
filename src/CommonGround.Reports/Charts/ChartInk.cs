using System.Collections.Concurrent;
using CommonGround.Reports.Layout;
using PdfSharp.Drawing;

namespace CommonGround.Reports.Charts;

/// <summary>The ink on paper of a mark's meaning; widths in chart pixels, as in the style sheet of the pages.</summary>
/// <param name="Dash">Lengths of dash and gap, chart pixels; null for a whole line.</param>
internal sealed record ChartInk(XColor? Fill, XColor? Line, double Width = 1, double[]? Dash = null)
{
    /// <summary>Ends and corners of the line are round.</summary>
    public bool Round { get; init; }

    private static readonly Dictionary<string, ChartInk> s_inks = new(StringComparer.Ordinal)
    {
        ["g-rule"] = new(null, Ink.Rule),
        ["g-tick"] = new(null, Ink.RuleStrong),
        ["g-base"] = new(null, Ink.Black, 2.5),
        ["g-base-gap"] = new(null, Ink.Gap, 2, [2, 3]),
        ["g-now"] = new(Ink.Now, null),
        ["g-season"] = new(Ink.Shade, null),
        ["g-bar"] = new(Ink.Covered, null),
        ["g-idle"] = new(Ink.Rule, null),
        ["g-under"] = new(Ink.GapWash, Ink.Gap, 1.25),
        ["g-ghost"] = new(null, Ink.Third, 1.25, [3, 2]),
        ["g-norm"] = new(null, Ink.Black, 1, [1, 3]),
        ["g-gap"] = new(null, Ink.Gap, 1.5),
        ["g-frame"] = new(null, Ink.RuleStrong, 1, [1, 3]),
        ["g-cover"] = new(Ink.Second, null),
        ["st-on"] = new(Ink.Black, Ink.Black, 1.5),
        ["st-off"] = new(Ink.Paper, Ink.Gap, 2),
        ["band"] = new(Ink.Rule, null),
        ["before"] = new(Ink.Paper, Ink.Black, 1.3),
        ["before-hatch"] = new(null, Ink.Turf, 0.8),
        ["before-line"] = new(null, Ink.Black, 2, [6, 3.5]),
        ["after"] = new(Ink.After, Ink.Black, 1.3),
        ["range"] = new(null, Ink.Black, 1.5),
        ["range-under"] = new(null, Ink.Paper, 4),
        ["level"] = new(Ink.Paper, Ink.Black, 2.4),
        ["solid"] = new(Ink.Black, null),
        ["vis-one"] = new(Ink.Rule, Ink.Third, 0.8),
        ["vis-two"] = new(Ink.Second, null),
        ["ground"] = new(null, Ink.Black, 1.6),
        ["sk-grid"] = new(null, Ink.Rule, 0.6),
        ["sk-yard"] = new(Ink.Paper, Ink.Black, 1.4),
        ["sk-turf"] = new(null, Ink.Turf, 0.9),
        ["sk-area"] = new(Ink.Planting, Ink.Black, 1.8),
        ["sk-dot"] = new(Ink.Seed, null),
        ["sk-label"] = new(Ink.Paper, null),
        ["dr-bed"] = new(Ink.Shade, null),
        ["dr-frame"] = new(null, Ink.Black, 2),
        ["dr-edge"] = new(Ink.Paper, Ink.Black, 1.2),
        ["dr-hatch"] = new(null, Ink.Turf, 0.7),
        ["dr-dot"] = new(Ink.Turf, null),
        ["dr-grid"] = new(null, Ink.RuleStrong, 0.5, [2, 3]),
        ["dr-grass"] = new(Ink.Seed, Ink.Black, 0.8),
        ["dr-number"] = new(Ink.Paper, Ink.Black, 1),
        ["plan-once"] = new(null, Ink.Black, 1.5, [4, 3]),
        ["plan-yearly"] = new(null, Ink.Black, 2.4),
        ["vl-line"] = new(null, Ink.Black, 1.5),
        ["vl-usual"] = new(Ink.Shade, null),
        ["vl-own"] = new(null, Ink.Black, 1.5, [4, 3]),
        ["vl-open"] = new(Ink.Paper, Ink.Black, 1.6),
        ["vl-full"] = new(Ink.Black, null),
        ["vl-cross"] = new(null, Ink.Black, 2.2),
        ["vl-cross-open"] = new(null, Ink.Third, 1.6),
        ["tickv"] = new(null, Ink.Black, 2.5),
        ["map-casing"] = new(null, Ink.Black, 17) { Round = true },
        ["map-none"] = new(null, Ink.Paper, 12, [4, 4]),
        ["map-cv0"] = Way("cover-0"),
        ["map-cv1"] = Way("cover-1"),
        ["map-cv2"] = Way("cover-2"),
        ["map-cv3"] = Way("cover-3"),
        ["map-cv4"] = Way("cover-4"),
        ["map-cv5"] = Way("cover-5"),
        ["map-disc0"] = Disc("cover-0"),
        ["map-disc1"] = Disc("cover-1"),
        ["map-disc2"] = Disc("cover-2"),
        ["map-disc3"] = Disc("cover-3"),
        ["map-disc4"] = Disc("cover-4"),
        ["map-disc5"] = Disc("cover-5"),
        ["map-cross"] = new(Ink.Paper, Ink.Black, 2),
        ["map-ring"] = new(null, Ink.Now, 30) { Round = true },
        ["fl-white"] = Flower("fl-white"),
        ["fl-yellow"] = Flower("fl-yellow"),
        ["fl-orange"] = Flower("fl-orange"),
        ["fl-red"] = Flower("fl-red"),
        ["fl-pink"] = Flower("fl-pink"),
        ["fl-purple"] = Flower("fl-purple"),
        ["fl-blue"] = Flower("fl-blue"),
        ["fl-green"] = Flower("fl-green"),
        ["fl-none"] = new(Ink.Rule, Ink.Third, 1.5),
    };

    // A sketch asks for the same few a thousand times.
    private static readonly ConcurrentDictionary<string, ChartInk> s_asked = new(StringComparer.Ordinal);

    /// <summary>The ink of a style such as "fl-purple tentative": a tentative plant's line is empty and dashed.</summary>
    public static ChartInk Of(string style) => s_asked.GetOrAdd(style, Find);

    private static ChartInk Find(string style)
    {
        var words = style.Split(' ');
        var ink = s_inks.TryGetValue(words[0], out var found) ? found
            : throw new ArgumentException($"The chart style '{style}' has no ink on paper.", nameof(style));
        return words.Contains("tentative") ? ink with { Fill = Ink.Paper, Dash = [4, 2.5] } : ink;
    }

    /// <summary>The face of a chart's words, at the scale of the drawing.</summary>
    public static Face Words(string style, double scale)
    {
        var words = style.Split(' ');
        var face = words[0] switch
        {
            "lab" => Faces.Data.At(words.Contains("small-lab") ? 13 : 14),
            "lat" => Faces.Latin.At(14),
            "val" => Faces.Data.At(13),
            "gapt" => Faces.DataStrong.At(12.5).In(Ink.Gap),
            "street" => Faces.DataStrong.At(13),
            "badge" => Faces.DataStrong.At(12.5),
            "badge-light" => Faces.DataStrong.At(12.5).In(Ink.Paper),
            "on-bar" => Faces.DataStrong.At(12.5).In(Ink.Paper),
            "axis" => Faces.Data.At(12).In(Ink.Second),
            _ => throw new ArgumentException($"The chart words '{style}' have no face on paper.", nameof(style)),
        };
        face = words.Contains("strong") ? face with { Cut = XFontStyleEx.Bold, Ink = Ink.Black } : face;
        return face.At(Math.Round(face.Size * scale, 2));
    }

    public XPen? Stroke(double scale) => Line is not { } ink ? null : Dash is not { } dash
        ? new XPen(ink, Width * scale)
        {
            LineCap = Round ? XLineCap.Round : XLineCap.Flat,
            LineJoin = Round ? XLineJoin.Round : XLineJoin.Miter,
        }
        // PDFsharp counts dashes in widths of the line.
        : new XPen(ink, Width * scale) { DashStyle = XDashStyle.Custom, DashPattern = [.. dash.Select(d => d / Width)] };

    public XBrush? Brush() => Fill is { } ink ? new XSolidBrush(ink) : null;

    private static ChartInk Way(string token) => new(Ink.Of(token), Ink.Of(token), 12) { Round = true };

    private static ChartInk Disc(string token) => new(Ink.Of(token), Ink.Black, 1.5);

    private static ChartInk Flower(string token) => new(Ink.Of(token), Ink.Of(token + "-line"), 1.5);
}
