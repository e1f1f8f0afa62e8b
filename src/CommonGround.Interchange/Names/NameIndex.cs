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
    private readonly NameSuggestions suggestions;

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
        suggestions = new NameSuggestions(all);
    }

    /// <summary>The taxon of a scientific name, accepted or synonym; case, accents, spaces, ×, authors and cf./aff. do not matter.</summary>
    public CatalogueTaxon? Resolve(string name)
    {
        var key = NameKey.Of(TaxonName.Parse(name).Name);
        return key.Length == 0 ? null : accepted.GetValueOrDefault(key) ?? synonyms.GetValueOrDefault(key);
    }

    /// <summary>The taxa with the most similar scientific names, best first; an accepted name goes before an equally near synonym.</summary>
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

    /// <summary>Taxa that fit what somebody is typing, best first: beginnings of words in any order, then the same with slips.</summary>
    /// <param name="typed">For example "aro ast" for aromatic aster.</param>
    /// <param name="max">At most this many, each taxon once.</param>
    public IReadOnlyList<NameSuggestion> Suggest(string typed, int max) => suggestions.For(typed, max);

    private const int LongestCompared = 100;
}
