using System.Globalization;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Web.Features.Record;

/// <summary>One typed line taken apart: the name, then cover or count, and short words in any order.</summary>
public sealed record EntryLine(string Name, double? Cover, int? Count, int? GrowthStage, Origin? Origin, Certainty? Certainty, string Qualifier)
{
    private static readonly string[] Metric = ["m2", "m²", "sqm"];
    private static readonly string[] Feet = ["ft2", "ft²", "sqft"];

    /// <summary>The unit typed with the cover: true for ft², false for m², null when none was typed.</summary>
    public bool? CoverInFeet { get; init; }

    /// <summary>Short words and what they set; read from the end of the line until a word is part of the name.</summary>
    public static EntryLine Parse(string typed)
    {
        var words = typed.Split(' ', StringSplitOptions.RemoveEmptyEntries).ToList();
        var line = new EntryLine("", null, null, null, null, null, "");
        for (var i = words.Count - 1; i > 0; i--)
        {
            if (Take(line, words[i]) is not { } next)
            {
                break;
            }

            line = next;
            words.RemoveAt(i);
        }

        // "Aster cf. laevis": the doubt stands inside the name.
        var doubt = words.FindIndex(w => w is "cf." or "cf" or "aff." or "aff");
        if (doubt >= 0)
        {
            line = line with { Qualifier = words[doubt].StartsWith('c') ? "cf." : "aff.", Certainty = line.Certainty ?? Ecology.Taxa.Certainty.Tentative };
            words.RemoveAt(doubt);
        }

        return line with { Name = string.Join(' ', words) };
    }

    private static EntryLine? Take(EntryLine line, string word)
    {
        var lower = word.ToLowerInvariant();
        if (Feet.Contains(lower, StringComparer.Ordinal) || Metric.Contains(lower, StringComparer.Ordinal))
        {
            // "5 ft2": the figure is the word before.
            return line.Cover is null ? line with { CoverInFeet = Feet.Contains(lower, StringComparer.Ordinal) } : null;
        }

        var unit = Feet.Concat(Metric).FirstOrDefault(u => lower.EndsWith(u, StringComparison.Ordinal)) ?? "";
        if (double.TryParse(lower[..^unit.Length], NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var cover) && double.IsFinite(cover))
        {
            return line.Cover is null ? line with { Cover = cover, CoverInFeet = unit.Length > 0 ? Feet.Contains(unit, StringComparer.Ordinal) : line.CoverInFeet } : null;
        }

        if (lower.EndsWith('x') && int.TryParse(lower[..^1], NumberStyles.None, CultureInfo.InvariantCulture, out var count))
        {
            return line with { Count = count };
        }

        return lower switch
        {
            "bud" => line with { GrowthStage = 5 },
            "fl" or "flower" or "flowering" => line with { GrowthStage = 6 },
            "fr" or "fruit" => line with { GrowthStage = 7 },
            "seed" or "ripe" => line with { GrowthStage = 8 },
            "leaf" => line with { GrowthStage = 1 },
            "dormant" => line with { GrowthStage = 9 },
            "planted" => line with { Origin = Ecology.Taxa.Origin.Planted },
            "self" => line with { Origin = Ecology.Taxa.Origin.SelfSown },
            "relict" => line with { Origin = Ecology.Taxa.Origin.Relict },
            "prob" or "probable" => line with { Certainty = Ecology.Taxa.Certainty.Probable },
            "tent" or "tentative" => line with { Certainty = Ecology.Taxa.Certainty.Tentative },
            "cf" or "cf." => line with { Certainty = Ecology.Taxa.Certainty.Tentative, Qualifier = "cf." },
            _ => null,
        };
    }
}
