using System.Globalization;
using System.Text.RegularExpressions;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Web.Features.Record;

/// <summary>One typed line taken apart: the name, then cover or count, and short words in any order. What the line does not say is null or
/// empty.</summary>
public sealed partial record EntryLine(string Name, double? Cover, int? Count, int? GrowthStage, Origin? Origin, Certainty? Certainty,
    string Qualifier)
{
    private static readonly string[] Metric = ["m2", "m²", "sqm"];
    private static readonly string[] Feet = ["ft2", "ft²", "sqft"];
    private static readonly string[] Counted = ["x", "plant", "plants", "stem", "stems", "clump", "clumps"];

    /// <summary>The unit typed with the cover: true for ft², false for m², null when none was typed.</summary>
    public bool? CoverInFeet { get; init; }

    /// <summary>Cover as a share of the bed, %.</summary>
    public double? Percent { get; init; }
    public Finding Finding { get; init; }

    /// <summary>Which patch of the plant in the bed: "#gate".</summary>
    public string Patch { get; init; } = "";

    /// <summary>What stands in quotation marks, or behind an amount with its unit and is none of the short words: "by the gate".</summary>
    public string Remarks { get; init; } = "";

    /// <summary>Figures that can be read two ways, such as "2 6" or "1,200"; empty where all is plain.</summary>
    public string Unclear { get; init; } = "";

    /// <summary>Short words and what they set; read from the end of the line until a word is part of the name.</summary>
    /// <param name="typed">The line.</param>
    /// <param name="isName">Whether words are the whole name of a plant: "cardinal flower" is no cardinal in flower.</param>
    public static EntryLine Parse(string typed, Func<string, bool>? isName = null)
    {
        typed = SquareMetres().Replace(SquareFeet().Replace(typed, "ft2"), "m2");
        if (Remark().Match(typed) is { Success: true } said)
        {
            return Parse(typed[..said.Index] + " " + said.Groups["rest"].Value, isName) with { Remarks = said.Groups["said"].Value.Trim() };
        }

        var line = ReadBack(typed, isName);
        // "10 ft2 by the gate": what follows the amount is no part of the name.
        return line is { Cover: null, Percent: null, Count: null, Unclear: "" }
            && Amount().Match(typed) is { Success: true } amount && typed[(amount.Index + amount.Length)..].Trim() is { Length: > 0 } behind
            ? ReadBack(typed[..(amount.Index + amount.Length)], isName) with { Remarks = behind } : line;
    }

    private static EntryLine ReadBack(string typed, Func<string, bool>? isName)
    {
        var words = typed.Split(' ', StringSplitOptions.RemoveEmptyEntries).ToList();
        var line = new EntryLine("", null, null, null, null, null, "");
        for (var left = words.Count; left > 1; left = words.Count)
        {
            var (next, used) = Take(line, words);
            if (next is null || (words[^1].All(char.IsLetter) && isName?.Invoke(string.Join(' ', words)) == true))
            {
                break;
            }

            line = next;
            words.RemoveRange(left - used, used);
        }

        // "Monarda?" and "Aster cf. laevis": the doubt stands at the name or inside it.
        if (words.Count > 0 && words[^1].Length > 1 && words[^1].EndsWith('?'))
        {
            words[^1] = words[^1].TrimEnd('?');
            line = line with { Certainty = line.Certainty ?? Ecology.Taxa.Certainty.Tentative };
        }

        var doubt = words.FindIndex(w => w.ToLowerInvariant() is "cf." or "cf" or "aff." or "aff");
        if (doubt >= 0 && words.Count > 1)
        {
            line = line with
            {
                Qualifier = char.ToLowerInvariant(words[doubt][0]) == 'c' ? "cf." : "aff.",
                Certainty = line.Certainty
                ?? Ecology.Taxa.Certainty.Tentative
            };
            words.RemoveAt(doubt);
        }

        return line with { Name = string.Join(' ', words) };
    }

    /// <summary>What the last words of the line say, and how many they are; null where they belong to the name.</summary>
    private static (EntryLine? Line, int Used) Take(EntryLine line, List<string> words)
    {
        var last = words[^1].ToLowerInvariant();
        var before = words.Count > 2 ? words[^2].ToLowerInvariant() : "";
        if (before.Length > 0 && Said(line, $"{before} {last}") is { } phrase)
        {
            return (phrase, 2);
        }

        if (before.Length > 0 && Counted.Contains(last, StringComparer.Ordinal) && IsCount(before, out var counted))
        {
            return (line with { Count = counted }, 2);
        }

        if (last is "%" && before.Length > 0)
        {
            return (Figure(line, before + "%"), 2);
        }

        return (Said(line, last) ?? Figure(line, last), 1);
    }

    private static EntryLine? Figure(EntryLine line, string word)
    {
        if (Feet.Contains(word, StringComparer.Ordinal) || Metric.Contains(word, StringComparer.Ordinal))
        {
            // "5 ft2": the figure is the word before.
            return line.Cover is null ? line with { CoverInFeet = Feet.Contains(word, StringComparer.Ordinal) } : null;
        }

        if (word.EndsWith('x') && IsCount(word[..^1], out var count))
        {
            return line with { Count = count };
        }

        if (word.EndsWith('%') && IsNumber(word[..^1], out var percent))
        {
            return line.Percent is null && line.Cover is null ? line with { Percent = percent } : Twice(line, word);
        }

        var unit = Feet.Concat(Metric).FirstOrDefault(u => word.EndsWith(u, StringComparison.Ordinal)) ?? "";
        if (!IsNumber(word[..^unit.Length], out var cover))
        {
            return null;
        }

        if (line.Cover is not null || line.Percent is not null || line.Unclear.Length > 0)
        {
            return Twice(line, word);
        }

        var read = line with
        {
            Cover = cover,
            CoverInFeet = unit.Length > 0 ? Feet.Contains(unit, StringComparer.Ordinal)
            : line.CoverInFeet
        };
        return IsThousands(word) ? read with { Unclear = word } : read;
    }

    /// <summary>"2 6": nobody knows which of two figures is the cover.</summary>
    private static EntryLine Twice(EntryLine line, string word)
    {
        var other = line.Unclear.Length > 0 ? line.Unclear : (line.Cover ?? line.Percent)?.ToString(CultureInfo.InvariantCulture)
            + (line.Percent is null ? "" : "%");
        return line with { Unclear = $"{word} {other}" };
    }

    /// <summary>Of two words for the same thing the later on the line holds: the line is read from its end.</summary>
    private static EntryLine? Said(EntryLine line, string words) => words switch
    {
        "bud" or "buds" or "in bud" => line with { GrowthStage = line.GrowthStage ?? 5 },
        // Finished: the flowers are over, BBCH goes on to the development of fruit.
        "finished" or "over" or "finished flowering" or "flowers over" or "done flowering" => line with
        {
            GrowthStage = line.GrowthStage
            ?? 7
        },
        "fl" or "flower" or "flowering" or "in flower" => line with { GrowthStage = line.GrowthStage ?? 6 },
        "fr" or "fruit" or "in fruit" => line with { GrowthStage = line.GrowthStage ?? 7 },
        "seed" or "ripe" or "seed ripe" or "ripe seed" => line with { GrowthStage = line.GrowthStage ?? 8 },
        "leaf" or "in leaf" => line with { GrowthStage = line.GrowthStage ?? 1 },
        "dormant" or "senescing" or "senescent" => line with { GrowthStage = line.GrowthStage ?? 9 },
        "planted" => line with { Origin = line.Origin ?? Ecology.Taxa.Origin.Planted },
        "self" or "self-sown" or "self sown" => line with { Origin = line.Origin ?? Ecology.Taxa.Origin.SelfSown },
        "relict" => line with { Origin = line.Origin ?? Ecology.Taxa.Origin.Relict },
        "sure" or "certain" => line with { Certainty = line.Certainty ?? Ecology.Taxa.Certainty.Certain },
        "prob" or "probable" => line with { Certainty = line.Certainty ?? Ecology.Taxa.Certainty.Probable },
        "tent" or "tentative" or "?" => line with { Certainty = line.Certainty ?? Ecology.Taxa.Certainty.Tentative },
        "cf" or "cf." => line with
        {
            Certainty = line.Certainty ?? Ecology.Taxa.Certainty.Tentative,
            Qualifier = line.Qualifier.Length > 0
            ? line.Qualifier : "cf."
        },
        "aff" or "aff." => line with
        {
            Certainty = line.Certainty ?? Ecology.Taxa.Certainty.Tentative,
            Qualifier = line.Qualifier.Length > 0 ? line.Qualifier : "aff."
        },
        "gone" or "ended" or "removed" or "taken out" => line with
        {
            Finding = line.Finding == Finding.Growing ? Finding.Ended
            : line.Finding
        },
        "dead" or "died" => line with { Finding = line.Finding == Finding.Growing ? Finding.Died : line.Finding },
        "nf" or "not found" or "not seen" => line with { Finding = line.Finding == Finding.Growing ? Finding.NotFound : line.Finding },
        ['#', _, ..] when !words.Contains(' ', StringComparison.Ordinal) => line.Patch.Length == 0
            ? line with { Patch = words[1..].Replace('_', ' ') } : null,
        _ => null,
    };

    private static bool IsCount(string word, out int count) => int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture,
        out count);

    /// <summary>A figure with a point or, as many keyboards have it, a comma before the decimals.</summary>
    private static bool IsNumber(string word, out double number) =>
        double.TryParse(word.Count(c => c == ',') == 1 && !word.Contains('.', StringComparison.Ordinal) ? word.Replace(',', '.') : word,
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out number)
                && double.IsFinite(number);

    /// <summary>"1,200" may be one and a fifth or twelve hundred.</summary>
    private static bool IsThousands(string word)
    {
        var comma = word.IndexOf(',', StringComparison.Ordinal);
        return comma > 0 && word[0] is >= '1' and <= '9' && word.Length - comma - 1 >= 3
            && word.AsSpan(comma + 1, 3).IndexOfAnyExceptInRange('0', '9') < 0
            && (word.Length == comma + 4 || !char.IsDigit(word[comma + 4]));
    }

    [GeneratedRegex(@"(?<=[\s\d])(sq\.?|square)\s*(ft\b\.?|feet\b|foot\b)", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex SquareFeet();

    [GeneratedRegex(@"(?<=[\s\d])(sq\.?|square)\s*(m\b\.?|met(er|re)s?\b)", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex SquareMetres();

    [GeneratedRegex("""\s["“](?<said>[^"”]*)["”]?(?<rest>.*)$""", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Remark();

    [GeneratedRegex(@"(?<=\S\s+)\d[\d.,]*\s*(ft2|ft²|m2|m²|sqft|sqm|%|x\b|plants?\b|stems?\b|clumps?\b)",
        RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Amount();
}
