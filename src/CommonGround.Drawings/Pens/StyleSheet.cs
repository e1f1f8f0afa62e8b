using System.Globalization;
using System.Text;

namespace CommonGround.Drawings.Pens;

/// <summary>The style sheet of all drawings. Pages give the colours by their variables; a file that stands alone has them written
/// out.</summary>
public static class StyleSheet
{
    private static readonly string[] s_ownColours = ["brown", "dark", "straw", "copper"];
    private static readonly string[] s_lines = ["i", "b", "d", "dc", "da", "r"];

    // Textures that keep colours apart where there is no colour: a tile of four px and what is drawn in it.
    private static readonly Dictionary<string, string> s_textures = new(StringComparer.Ordinal)
    {
        ["yellow"] = "<circle cx='2' cy='2' r='.7' fill='#000'/>",
        ["orange"] = "<path d='M0 4L4 0' stroke='#000' stroke-width='1.1'/>",
        ["red"] = "<rect width='4' height='4' fill='#222'/>",
        ["pink"] = "<path d='M0 1h4M0 3h4' stroke='#000' stroke-width='.5'/>",
        ["purple"] = "<rect width='4' height='4' fill='#444'/><circle cx='2' cy='2' r='1' fill='#fff'/>",
        ["blue"] = "<path d='M1 0v4M3 0v4' stroke='#000' stroke-width='.9'/>",
        ["green"] = "<path d='M0 0L4 4' stroke='#000' stroke-width='.5'/>",
        ["brown"] = "<path d='M0 0L4 4M4 0L0 4' stroke='#000' stroke-width='.8'/>",
        ["dark"] = "<rect width='4' height='4' fill='#111'/>",
        ["copper"] = "<path d='M0 2h4M2 0v4' stroke='#000' stroke-width='.9'/>",
    };

    /// <remarks>Flat class names: a rule that reaches through a parent does not reach into a symbol that is used again.</remarks>
    /// <summary>Rules for drawings within a page, whose colours follow the page's variables and theme.</summary>
    /// <param name="theme">Written out where a page has no variables.</param>
    public static string Of(Theme theme)
    {
        var css = new StringBuilder();
        css.Append(".drawn,.drawn *{stroke-linecap:round;stroke-linejoin:round}.drawn text{stroke:none}");
        foreach (var distance in Enumerable.Range(1, 3))
        {
            var near = Inks.Near[distance];
            css.Append(CultureInfo.InvariantCulture, $".z-g{distance}{{--k:{near * 100:0}%;--f:{100 - ((1 - near) * 45):0}%}}");
        }

        var paper = Named("paper", Inks.Paper(theme));
        string Far(string colour, string share) => $"color-mix(in srgb,{colour} var(--{share},100%),{paper})";
        css.Append(".z-t,.z-h,.z-v,.z-n2,.z-o,.z-o2{fill:none}.z-t,.z-p,.z-v{stroke-width:.9}.z-h{stroke-width:1.6}");
        css.Append(CultureInfo.InvariantCulture,
            $".z-v{{stroke-opacity:.55}}.z-o,.z-o2{{stroke:{paper};stroke-width:3.4}}.z-o2{{stroke-width:2.4}}.z-p,.z-q{{fill:{paper}}}");
        css.Append(CultureInfo.InvariantCulture,
            $".z-q2{{fill:{Named("draw-fluff", Inks.Of("q2", theme).Fill!)}}}.z-w{{fill:{Named("draw-shade", Inks.Of("w", theme).Fill!)}}}.z-k{{fill:{Named("ink", Inks.Ink(theme))}}}");
        foreach (var line in s_lines)
        {
            var look = Inks.Of("t " + line, theme).Line!;
            css.Append(CultureInfo.InvariantCulture, $".z-{line}{{stroke:{Far(Named(Variable(line), look), "k")}}}");
        }

        foreach (var colour in Inks.Colours)
        {
            var fill = theme == Theme.Grey && s_textures.ContainsKey(colour) ? $"url(#texture-{colour})"
                : Far(Named("fl-" + colour, Inks.Of("f-" + colour, theme).Fill!), "f");
            var edge = Far(Named(theme == Theme.Dark ? "draw-" + colour + "-line" : "fl-" + colour + "-line",
                Inks.Of("f-" + colour, theme).Line!), "k");
            css.Append(CultureInfo.InvariantCulture,
                $".z-f-{colour}{{fill:{fill};stroke:{edge};stroke-width:.8}}.z-f-{colour}-l,.z-f-{colour}-b{{stroke:{edge};stroke-width:.8}}");
        }

        return css.Append(".z-s{stroke-width:.5}.z-n{stroke:none}").ToString();
    }

    /// <summary>What a page's theme sets so that drawings follow it; the paper, ink, rule and flower colours are the page's own.</summary>
    public static string Variables(Theme theme)
    {
        var own = s_lines.Where(l => l != "r").Select(l => (Variable(l), Inks.Of("t " + l, theme).Line!))
            .Append(("draw-fluff", Inks.Of("q2", theme).Fill!)).Append(("draw-shade", Inks.Of("w", theme).Fill!))
            .Concat(s_ownColours.SelectMany(c =>
                new[] { ("fl-" + c, Inks.Of("f-" + c, theme).Fill!), ("fl-" + c + "-line", Inks.Of("f-" + c, theme).Line!) }));
        var edges = theme == Theme.Dark ? Inks.Colours.Select(c => ("draw-" + c + "-line", Inks.Of("f-" + c, theme).Line!)) : [];
        return string.Concat(own.Concat(edges).Select(v => $"--{v.Item1}:{v.Item2};"));
    }

    /// <summary>Rules of a picture fetched by itself, which knows no page: light, dark, or as the reader's device likes it.</summary>
    /// <param name="theme">Light or dark; null follows the device.</param>
    public static string Alone(Theme? theme)
    {
        var dark = $":root{{{All(Theme.Dark)}}}";
        return Of(Theme.Light) + SvgPen.Faces(Theme.Light) + (theme switch
        {
            null => "@media(prefers-color-scheme:dark){" + dark + "}",
            Theme.Dark => dark,
            _ => "",
        });
    }

    private static string All(Theme theme) => string.Concat(s_lines.Select(l => (Variable(l), Inks.Of("t " + l, theme).Line!))
        .Concat([("draw-fluff", Inks.Of("q2", theme).Fill!), ("draw-shade", Inks.Of("w", theme).Fill!), ("paper", Inks.Paper(theme)),
        ("ink", Inks.Ink(theme))])
        .Concat(Inks.Colours.SelectMany(c => new[] { ("fl-" + c, Inks.Of("f-" + c, theme).Fill!),
        ("fl-" + c + "-line", Inks.Of("f-" + c, theme).Line!) }))
        .Select(v => $"--{v.Item1}:{v.Item2};"));

    /// <summary>Tiles of the grey textures.</summary>
    internal static string Textures() => string.Concat(s_textures.Select(t =>
        $"<pattern id=\"texture-{t.Key}\" width=\"4\" height=\"4\" patternUnits=\"userSpaceOnUse\"><rect width='4' height='4' "
            + $"fill='#fff'/>{t.Value}</pattern>"));

    private static string Named(string variable, string written) => $"var(--{variable},{written})";

    private static string Variable(string line) => line switch
    {
        "i" => "draw-ink",
        "b" => "draw-blade",
        "d" => "draw-dead",
        "dc" =>
        "draw-copper",
        "da" => "draw-amber",
        _ => "rule"
    };
}
