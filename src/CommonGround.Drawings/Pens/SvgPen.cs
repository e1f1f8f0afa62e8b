using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Text;
using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Pens;

/// <summary>Writes a picture as SVG: one decimal, relative steps, plants as shared symbols.</summary>
public static class SvgPen
{
    private static readonly Dictionary<string, string> s_faces = new(StringComparer.Ordinal)
    {
        ["name"] = "font:700 17px Alegreya,Georgia,serif",
        ["latin"] = "font:italic 15px Alegreya,Georgia,serif",
        ["small"] = "font:500 13px 'Source Sans 3','Noto Sans',sans-serif",
        ["head"] = "font:700 20px Alegreya,Georgia,serif",
    };

    private static readonly ConcurrentDictionary<string, string> s_classes = new(StringComparer.Ordinal);

    /// <summary>A file that stands alone, with its own style sheet.</summary>
    public static string File(Picture picture, Theme theme = Theme.Light)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var style = $"<style>.drawn{{background:{Inks.Paper(theme)}}}{StyleSheet.Of(theme)}{Faces(theme)}</style>";
        return Write(picture, "s", style + (theme == Theme.Grey ? $"<defs>{StyleSheet.Textures()}</defs>" : ""));
    }

    /// <summary>An element for a page that has the style sheet.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="id">Letters that make its symbols' names the page's own.</param>
    public static string Element(Picture picture, string id)
    {
        ArgumentNullException.ThrowIfNull(picture);
        return Write(picture, id, "");
    }

    /// <summary>A picture written by <see cref="Element"/> with rules of its own.</summary>
    public static string WithRules(string element, string rules)
    {
        ArgumentNullException.ThrowIfNull(element);
        return element.Insert(element.LastIndexOf("</svg>", StringComparison.Ordinal), $"<style>{rules}</style>");
    }

    /// <summary>Rules of the words on drawings.</summary>
    public static string Faces(Theme theme) => string.Concat(s_faces.Select(f =>
        $".drawn .l-{f.Key}{{{f.Value};fill:var(--ink,{Inks.Ink(theme)});paint-order:stroke;stroke:var(--paper,{Inks.Paper(theme)})!important;stroke-width:4px}}"));

    private static string Write(Picture picture, string id, string head)
    {
        var svg = new StringBuilder(1 << 16);
        svg.Append(CultureInfo.InvariantCulture,
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"drawn\" viewBox=\"0 0 {picture.Width:0.#} {picture.Height:0.#}\" "
                + $"width=\"{picture.Width:0.#}\" height=\"{picture.Height:0.#}\" role=\"img\">");
        svg.Append("<title>").Append(WebUtility.HtmlEncode(picture.Title)).Append("</title><desc>")
            .Append(WebUtility.HtmlEncode(picture.Description)).Append("</desc>").Append(head);
        if (picture.Symbols.Count > 0)
        {
            svg.Append("<defs>");
            foreach (var (key, strokes) in picture.Symbols.OrderBy(s => s.Key, StringComparer.Ordinal))
            {
                svg.Append("<g id=\"").Append(id).Append(key).Append("\">");
                Strokes(svg, strokes);
                svg.Append("</g>\n");
            }

            svg.Append("</defs>");
        }

        foreach (var item in picture.Items)
        {
            Item(svg, item, id);
        }

        return svg.Append("</svg>").ToString();
    }

    private static void Item(StringBuilder svg, Item item, string id)
    {
        switch (item)
        {
            case Drawn drawn:
                svg.Append(drawn.Distance > 0 ? $"<g class=\"z-g{drawn.Distance}\">" : "<g>");
                Strokes(svg, drawn.Strokes);
                svg.Append("</g>\n");
                break;
            case Placed placed:
                var across = placed.Mirrored ? -placed.Scale : placed.Scale;
                svg.Append(CultureInfo.InvariantCulture,
                    $"<use href=\"#{id}{placed.Symbol}\" transform=\"matrix({across:0.##} 0 {-placed.Lean:0.##} {placed.Scale:0.##} "
                        + $"{placed.X:0.#} {placed.Y:0.#})\"");
                svg.Append(placed.Distance > 0 ? $" class=\"z-g{placed.Distance}\"/>" : "/>");
                break;
            case Label label:
                var anchor = label.Anchor switch
                {
                    LabelAnchor.Middle => " text-anchor=\"middle\"",
                    LabelAnchor.End =>
                    " text-anchor=\"end\"",
                    _ => ""
                };
                svg.Append(CultureInfo.InvariantCulture,
                    $"<text class=\"l-{label.Style}\" x=\"{label.X:0.#}\" "
                        + $"y=\"{label.Y:0.#}\"{anchor}>{WebUtility.HtmlEncode(label.Text)}</text>\n");
                break;
        }
    }

    private static string Classes(string ink) => s_classes.GetOrAdd(ink, i => "z-" + i.Replace(" ", " z-", StringComparison.Ordinal));

    private static void Strokes(StringBuilder svg, IReadOnlyList<Stroke> strokes)
    {
        var open = "";
        foreach (var stroke in strokes)
        {
            if (stroke.Ink != open)
            {
                svg.Append(open.Length > 0 ? "</g>" : "").Append("<g class=\"").Append(Classes(stroke.Ink)).Append("\">");
                open = stroke.Ink;
            }

            if (stroke.Path is { } path)
            {
                svg.Append("<path d=\"");
                new PathText(svg).Write(path);
                svg.Append("\"/>");
            }
            else
            {
                svg.Append(CultureInfo.InvariantCulture,
                    $"<circle cx=\"{stroke.Centre.X:0.#}\" cy=\"{stroke.Centre.Y:0.#}\" r=\"{stroke.Radius:0.#}\"/>");
            }
        }

        svg.Append(open.Length > 0 ? "</g>" : "");
    }

    /// <summary>Path data with relative steps of tenths of a px.</summary>
    private ref struct PathText(StringBuilder to)
    {
        private int x;
        private int y;
        private bool digit;

        public void Write(Trace path)
        {
            foreach (var step in path.Steps)
            {
                switch (step.Kind)
                {
                    case StepKind.Move:
                        to.Append('M');
                        (x, y, digit) = (0, 0, false);
                        To(step.To);
                        break;
                    case StepKind.Line:
                        to.Append('l');
                        digit = false;
                        To(step.To);
                        break;
                    case StepKind.Curve:
                        to.Append('q');
                        digit = false;
                        Number(Tenths(step.Control.X) - x);
                        Number(Tenths(step.Control.Y) - y);
                        To(step.To);
                        break;
                    default:
                        to.Append('z');
                        break;
                }
            }
        }

        private static int Tenths(double value) => (int)Math.Round(value * 10);

        private void To(P2 p)
        {
            var (px, py) = (Tenths(p.X), Tenths(p.Y));
            Number(px - x);
            Number(py - y);
            (x, y) = (px, py);
        }

        private void Number(int tenths)
        {
            if (tenths >= 0 && digit)
            {
                to.Append(' ');
            }

            if (tenths < 0)
            {
                to.Append('-');
                tenths = -tenths;
            }

            if (tenths >= 10 || tenths == 0)
            {
                to.Append(tenths / 10);
            }

            if (tenths % 10 != 0)
            {
                to.Append('.').Append(tenths % 10);
            }

            digit = true;
        }
    }
}
