using System.Collections.Concurrent;
using System.Globalization;

namespace CommonGround.Drawings.Pens;

/// <summary>Ground a drawing lies on.</summary>
public enum Theme { Light, Dark, Grey }

/// <summary>What an ink looks like: colours as #RRGGBB, width in px. <c>null</c> is none.</summary>
public sealed record InkLook(string? Fill, string? Line, double Width);

/// <summary>Every ink of the drawings, once: the style sheet of the pages and the pen on paper are both made from it.</summary>
/// <remarks>The flower colours, ink and paper are those of the pages; straw, copper and amber are the inks of what is dry.</remarks>
public static class Inks
{
    /// <summary>Distances of a scene: how much of the ink is left, the rest is paper.</summary>
    internal static readonly double[] Near = [1, .8, .62, .38];

    private static readonly Dictionary<string, (string Light, string LightLine, string Dark)> s_flowers = new(StringComparer.Ordinal)
    {
        ["white"] = ("#FEFDFC", "#63645C", "#F3F2EC"),
        ["yellow"] = ("#EECE4A", "#826404", "#EED059"),
        ["orange"] = ("#EB8623", "#8F4710", "#EE9138"),
        ["red"] = ("#C83A35", "#7E1A18", "#E45D53"),
        ["pink"] = ("#DF8DB5", "#8F4269", "#E798BE"),
        ["purple"] = ("#8651A3", "#54286C", "#AB75CA"),
        ["blue"] = ("#6481C2", "#304A86", "#7B9ADD"),
        ["green"] = ("#A1B570", "#516231", "#A7BB76"),
        ["brown"] = ("#A8744A", "#5B3A20", "#B98A60"),
        ["dark"] = ("#5A4234", "#2E211B", "#7A6252"),
        ["straw"] = ("#EADFC2", "#75644A", "#5B513D"),
        ["copper"] = ("#B5673F", "#70371B", "#C27A50"),
    };

    private static readonly ConcurrentDictionary<(string, Theme, int), InkLook> s_asked = new();

    /// <summary>Colours a flower or fruit may have.</summary>
    public static IReadOnlyCollection<string> Colours => s_flowers.Keys;

    internal static string Paper(Theme theme) => theme switch { Theme.Dark => "#161813", Theme.Grey => "#FFFFFF", _ => "#FAF7F0" };

    internal static string Ink(Theme theme) => theme == Theme.Dark ? "#EFEDE4" : "#1A231C";

    /// <param name="ink">An ink of a stroke.</param>
    /// <param name="theme">The ground.</param>
    /// <param name="distance">0 near to 3 far; what is far is mixed with paper.</param>
    /// <exception cref="ArgumentException">No such ink.</exception>
    public static InkLook Of(string ink, Theme theme, int distance = 0) =>
        s_asked.GetOrAdd((ink, theme, distance), asked => Find(asked.Item1, asked.Item2, asked.Item3));

    /// <summary>A share of one colour in another.</summary>
    internal static string Mix(string a, string b, double shareOfB)
    {
        int Part(string colour, int i) => int.Parse(colour.AsSpan(1 + (i * 2), 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        var mixed = "#";
        for (var i = 0; i < 3; i++)
        {
            mixed += ((int)Math.Round(Part(a, i) + ((Part(b, i) - Part(a, i)) * shareOfB))).ToString("X2", CultureInfo.InvariantCulture);
        }

        return mixed;
    }

    private static InkLook Find(string ink, Theme theme, int distance)
    {
        var words = ink.Split(' ');
        var paper = Paper(theme);
        string Far(string colour, double part = 1) => Mix(colour, paper, (1 - Near[distance]) * part);
        if (words[0].StartsWith("f-", StringComparison.Ordinal))
        {
            return Flower(words, theme, c => Far(c), c => Far(c, theme == Theme.Dark ? .28 : .45));
        }

        var line = words.Length > 1 && words[^1] is not ("n" or "s") ? Far(Line(words[^1], theme)) : null;
        return words[0] switch
        {
            "t" => new(null, line, .9),
            "h" => new(null, line, 1.6),
            "v" => new(null, Mix(line!, paper, .45), .9),
            "p" => new(paper, line, words.Contains("s") ? .5 : .9),
            "q" => new(paper, null, 0),
            "q2" => new(theme == Theme.Dark ? "#2B2D26" : "#F3EEDF", null, 0),
            "w" => new(theme == Theme.Dark ? Mix(paper, Ink(theme), .05) : Far(theme == Theme.Grey ? "#C9C9C9" : "#C3D0B4"), null, 0),
            "k" => new(Ink(theme), null, 0),
            "o" => new(null, paper, 3.4),
            "o2" => new(null, paper, 2.4),
            _ => throw new ArgumentException($"The drawings have no ink '{ink}'.", nameof(ink)),
        };
    }

    private static string Line(string word, Theme theme) => word switch
    {
        "i" => theme == Theme.Dark ? Mix(Ink(theme), Paper(theme), .2) : Ink(theme),
        "b" => Mix(Ink(theme), Paper(theme), theme == Theme.Dark ? .38 : .2),
        "d" => theme switch { Theme.Dark => "#C9B68F", Theme.Grey => "#5E5E5E", _ => "#6B5438" },
        "dc" => theme switch { Theme.Dark => "#C08867", Theme.Grey => "#4A4A4A", _ => "#8F553B" },
        "da" => theme switch { Theme.Dark => "#BFA46C", Theme.Grey => "#707070", _ => "#87703F" },
        "r" => theme == Theme.Dark ? "#454941" : "#CEC8BC",
        _ => throw new ArgumentException($"The drawings have no line '{word}'.", nameof(word)),
    };

    /// <summary>The grey a colour becomes (Rec. 709 luma weights on the coded values).</summary>
    private static string Lightness(string colour)
    {
        int Part(int i) => int.Parse(colour.AsSpan(1 + (i * 2), 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        var grey = ((int)Math.Round((.2126 * Part(0)) + (.7152 * Part(1)) + (.0722 * Part(2))))
            .ToString("X2", CultureInfo.InvariantCulture);
        return $"#{grey}{grey}{grey}";
    }

    private static InkLook Flower(string[] words, Theme theme, Func<string, string> far, Func<string, string> wash)
    {
        var parts = words[0].Split('-');
        if (!s_flowers.TryGetValue(parts[1], out var colour))
        {
            throw new ArgumentException($"The drawings have no colour '{parts[1]}'.", nameof(words));
        }

        var paper = Paper(theme);
        var fill = theme == Theme.Dark ? colour.Dark : colour.Light;
        var line = theme == Theme.Dark ? parts[1] == "straw" ? "#D2C4A2" : Mix(colour.Dark, paper, .42) : colour.LightLine;
        if (parts.Length > 2)
        {
            return new InkLook(null, far(parts[2] == "b" && theme == Theme.Dark ? Mix(colour.Dark, paper, .12) : line), .8);
        }

        if (theme == Theme.Grey)
        {
            fill = Lightness(fill);
            line = "#222222";
        }

        return new InkLook(wash(fill), words.Contains("n") ? null : far(line), words.Contains("s") ? .5 : .8);
    }
}
