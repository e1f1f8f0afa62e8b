using System.Globalization;
using System.Text;

namespace CommonGround.Interchange.Names;

/// <summary>Reduces a scientific name to what tells it from others: no case, accents, hybrid sign, authors or spelling of the
/// rank.</summary>
internal static class NameKey
{
    private static readonly HashSet<string> NotEpithets = ["ex", "et", "and", "in", "non", "nec", "auct", "auct.", "sensu", "hort",
        "hort.", "de", "van", "von", "der", "fil", "fil.", "f.", "p.p.", "emend", "emend."];

    /// <summary>The key of a name; empty for a name without letters.</summary>
    public static string Of(string name)
    {
        var words = Words(name);
        if (words.Count == 0) return "";
        var key = new List<string> { Fold(words[0]) };
        if (words.Count > 1 && IsEpithet(words[1], first: true)) key.Add(Fold(words[1]));
        for (var i = key.Count; key.Count >= 2 && i < words.Count; i++)
        {
            if (Rank(words[i]) is { } rank && i + 1 < words.Count && IsEpithet(words[i + 1], first: false))
            {
                key.Add(rank);
                key.Add(Fold(words[++i]));
            }
            else if (words[i] is "agg." or "agg" or "aggregate" or "s.l.") key.Add("agg.");
            else if (i == 2 && Rank(words[i]) is null && IsEpithet(words[i], first: false)) key.Add(Fold(words[i]));
            else if (words[i].StartsWith('\'')) key.Add(Fold(words[i]));
        }
        return string.Join(' ', key);
    }

    /// <summary>Small letters without accents.</summary>
    public static string Fold(string text)
    {
        var folded = new StringBuilder(text.Length);
        foreach (var c in text.Normalize(NormalizationForm.FormD))
        {
            if (CharUnicodeInfo.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark) folded.Append(char.ToLowerInvariant(c));
        }
        return folded.ToString();
    }

    private static List<string> Words(string name)
    {
        var words = new List<string>();
        foreach (var part in Sound(name).Replace('×', ' ').Replace('‘', '\'').Replace('’', '\'').Split((char[]?)null,
            StringSplitOptions.RemoveEmptyEntries))
        {
            // "x" standing alone is a hybrid sign; "sp." and "spp." say no more than the genus does.
            if (part is not ("x" or "X" or "sp." or "spp." or "sp" or "spp")) words.Add(part);
        }
        return words;
    }

    /// <summary>Half of a surrogate pair cannot be normalised; it becomes the replacement character.</summary>
    private static string Sound(string name) => string.Concat(name.EnumerateRunes().Select(r => r.ToString()));

    private static string? Rank(string word) => word.ToLowerInvariant() switch
    {
        "subsp." or "subsp" or "ssp." or "ssp" => "subsp.",
        "var." or "var" => "var.",
        "f." or "fo." or "forma" or "form" => "f.",
        _ => null,
    };

    /// <summary>The second word is an epithet whatever its case, unless it opens an author ("Carex L."); later ones only in small
    /// letters.</summary>
    private static bool IsEpithet(string word, bool first)
    {
        if (word.Length < 2 || NotEpithets.Contains(word.ToLowerInvariant())) return false;
        var letters = word.All(c => char.IsLetter(c) || c == '-');
        return letters && (first || char.IsLower(word[0]) || word.All(c => !char.IsLetter(c) || char.IsUpper(c)));
    }
}
