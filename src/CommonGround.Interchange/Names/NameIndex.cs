using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Names;

/// <summary>Which of a taxon's names was found.</summary>
public enum NameKind { Scientific, Common, Synonym }

/// <summary>A taxon offered while somebody types.</summary>
/// <param name="Taxon">The catalogue's taxon.</param>
/// <param name="Matched">The name of it that fits what was typed.</param>
/// <param name="Kind">Which kind of name that is; a synonym is worth showing beside the accepted name.</param>
public sealed record NameSuggestion(CatalogueTaxon Taxon, string Matched, NameKind Kind);

/// <summary>Finds catalogue taxa by name: exactly, by the nearest spelling, or while somebody types. Immutable and safe to share.</summary>
public sealed class NameIndex
{
    private readonly Dictionary<string, CatalogueTaxon> accepted = new(StringComparer.Ordinal);
    private readonly Dictionary<string, CatalogueTaxon> synonyms = new(StringComparer.Ordinal);
    private readonly Dictionary<string, GenusFacts> genera = new(StringComparer.Ordinal);
    private readonly NameSuggestions suggestions;
    private readonly Lazy<NameProposals> proposals;

    /// <summary>Where two taxa carry the same name the first keeps it; <c>CatalogueFile</c> refuses such a catalogue.</summary>
    public NameIndex(IEnumerable<CatalogueTaxon> taxa)
    {
        ArgumentNullException.ThrowIfNull(taxa);
        var all = taxa.ToList();
        foreach (var taxon in all)
        {
            accepted.TryAdd(NameKey.Of(taxon.ScientificName), taxon);
            foreach (var synonym in taxon.Synonyms) synonyms.TryAdd(NameKey.Of(synonym), taxon);
        }
        foreach (var (name, family) in all.Select(t => (t.ScientificName, t.Family))
            .Concat(all.SelectMany(t => t.Synonyms.Select(s => (s, t.Family)))))
        {
            // A plain name that a group recorded is no genus of the catalogue.
            var genus = name.Split(' ')[0];
            if (family.Length > 0 || name.Contains(' ', StringComparison.Ordinal)) genera.TryAdd(NameKey.Fold(genus), new(genus, family));
        }
        suggestions = new NameSuggestions(all);
        proposals = new(() => new NameProposals(all));
    }

    /// <summary>The taxon of a scientific name, accepted or synonym; case, accents, spaces, ×, authors and cf./aff. do not
    /// matter.</summary>
    public CatalogueTaxon? Resolve(string name)
    {
        var key = NameKey.Of(TaxonName.Parse(name).Name);
        return key.Length == 0 ? null : accepted.GetValueOrDefault(key) ?? synonyms.GetValueOrDefault(key);
    }

    /// <summary>The taxa with the most similar scientific names, best first; an accepted name goes before an equally near
    /// synonym.</summary>
    /// <param name="name">As written.</param>
    /// <param name="count">At most this many, each taxon once.</param>
    public IReadOnlyList<CatalogueTaxon> Nearest(string name, int count)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        var key = NameKey.Of(TaxonName.Parse(name).Name);
        if (key.Length > LongestCompared) key = key[..LongestCompared];
        return accepted.Select(n => (n.Key, n.Value, IsSynonym: false)).Concat(synonyms.Select(n => (n.Key, n.Value, IsSynonym: true)))
            .Select(n => (n.Value, Distance: EditDistance.Between(key, n.Key), n.IsSynonym))
            .OrderBy(n => n.Distance).ThenBy(n => n.IsSynonym).ThenBy(n => n.Value.ScientificName, StringComparer.Ordinal)
            .Select(n => n.Value).Distinct().Take(count).ToList();
    }

    /// <summary>Taxa that a name nobody knows may mean, likeliest first: each has a name that shares a word with it, or one that sounds
    /// or is spelled much like a word of it. None may be like it.</summary>
    public IReadOnlyList<NameProposal> Propose(string written, int most) => proposals.Value.For(written, most);

    /// <summary>The taxon that a name in a file means beyond doubt, as it would be understood where plants are recorded: as written, or the
    /// scientific or common name of "wild bergamot (Monarda fistulosa)".</summary>
    public CatalogueTaxon? Meant(string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        if (Sole(written) is { } whole) return whole;
        const StringSplitOptions Clean = StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries;
        var parts = written.Split(['(', ')', '[', ']', '/', ';', ','], Clean)
            .SelectMany(part => part.Split([" - ", " – ", " = "], StringSplitOptions.RemoveEmptyEntries)).ToList();
        if (parts.Count < 2) return null;
        // A scientific name settles it; common names do only where each part means the same plant.
        var scientific = parts.Select(Resolve).Where(taxon => taxon is not null).Distinct().ToList();
        if (scientific.Count > 0) return scientific is [var named] ? named : null;
        return parts.Select(Sole).Distinct().ToList() is [var only] ? only : null;
    }

    /// <summary>Taxa that fit what somebody is typing, best first: beginnings of words in any order, then the same with slips.</summary>
    /// <param name="typed">For example "aro ast" for aromatic aster.</param>
    /// <param name="max">At most this many, each taxon once.</param>
    public IReadOnlyList<NameSuggestion> Suggest(string typed, int max) => suggestions.For(typed, max);

    /// <summary>The taxon that a typed name means beyond doubt: a scientific name in full, a common name that only one taxon ends with, or
    /// the only one that fits without slips.</summary>
    /// <returns>Null where several are meant or none: then somebody has to choose.</returns>
    public CatalogueTaxon? Sole(string typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        if (Resolve(typed) is { } named) return named;
        if (RecordedName.StopsAboveSpecies(typed)) return null;
        var fits = suggestions.Fits(typed);
        // "Monarda": as a name of its own a genus fits all its species, were there only one of them.
        if (IsGenus(typed)) return null;
        return fits.Count == 1 ? fits[0] : suggestions.SoleCommonName(typed);
    }

    /// <summary>The genus as the catalogue spells it, where it has a species of it under an accepted name or a synonym.</summary>
    public string? Genus(string word) => genera.GetValueOrDefault(NameKey.Fold(word.Trim()))?.Name;

    /// <summary>The family of a genus; empty where the catalogue does not tell.</summary>
    public string FamilyOf(string genus) => genera.GetValueOrDefault(NameKey.Fold(genus.Trim()))?.Family ?? "";

    /// <summary>Genera that hold two or more of the taxa a typed name fits, most first: what may be recorded by somebody who cannot tell
    /// which it is.</summary>
    public IReadOnlyList<string> GeneraOf(string typed, int max)
    {
        ArgumentNullException.ThrowIfNull(typed);
        var words = typed.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length > 0 && Genus(words[0]) is { } own) return [own];
        return [.. suggestions.Fits(typed).GroupBy(t => t.ScientificName.Split(' ')[0], StringComparer.Ordinal).Where(g => g.Count() > 1)
            .OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).Take(max).Select(g => g.Key)];
    }

    private bool IsGenus(string typed) => !typed.Trim().Contains(' ', StringComparison.Ordinal) && Genus(typed) is not null;

    private sealed record GenusFacts(string Name, string Family);

    private const int LongestCompared = 100;
}
