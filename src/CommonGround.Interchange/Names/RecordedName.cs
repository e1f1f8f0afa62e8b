using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Names;

/// <summary>A plant recorded under a name that the catalogue does not list: only its genus, an aggregate, or a plain name. It has no C, no
/// bloom and no nativity.</summary>
public static class RecordedName
{
    private static readonly string[] OfGenus = ["sp.", "sp", "spp.", "spp", "species"];
    private static readonly string[] OfAggregate = ["agg.", "agg", "aggregate", "s.l."];

    /// <summary>Whether a name says itself that it stops above the species: "Asclepias sp.", "Solidago canadensis agg.".</summary>
    public static bool StopsAboveSpecies(string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        var words = written.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return words.Length > 1 && (Says(OfGenus, words[^1]) || Says(OfAggregate, words[^1]));
    }

    /// <summary>The taxon to record for a name as written.</summary>
    /// <param name="written">One or more words, without cover or short words.</param>
    /// <param name="index">Tells which words are genera, and their family.</param>
    public static CatalogueTaxon Of(string written, NameIndex index)
    {
        ArgumentNullException.ThrowIfNull(written);
        ArgumentNullException.ThrowIfNull(index);
        var words = written.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 2 && Says(OfGenus, words[1])) return Genus(words[0], index);
        if (words.Length == 1 && index.Genus(words[0]) is { } genus) return Genus(genus, index);
        if (words.Length > 2 && Says(OfAggregate, words[^1]))
        {
            var named = string.Join(' ', words[..^1]);
            var name = (index.Resolve(named)?.ScientificName ?? named) + " agg.";
            return new() { ScientificName = name, Rank = RecordedRank.Aggregate, Family = index.FamilyOf(words[0]) };
        }
        return new() { ScientificName = string.Join(' ', words) };
    }

    private static CatalogueTaxon Genus(string word, NameIndex index)
    {
        var name = index.Genus(word) ?? char.ToUpperInvariant(word[0]) + word[1..].ToLowerInvariant();
        return new() { ScientificName = name, Rank = RecordedRank.Genus, Family = index.FamilyOf(name) };
    }

    private static bool Says(string[] words, string word) => words.Contains(word, StringComparer.OrdinalIgnoreCase);
}
