using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Names;

/// <summary>Type-ahead over all names: every typed word must begin a different word of the name.</summary>
internal sealed class NameSuggestions
{
    private const int MostWords = 8, LongestWord = 40, MostWordsOfName = 30;
    private readonly List<Entry> entries = [];
    private readonly Dictionary<string, int> wordIds = new(StringComparer.Ordinal);
    private readonly string[] vocabulary;

    private sealed record Entry(CatalogueTaxon Taxon, string Name, NameKind Kind, int[] Words);

    public NameSuggestions(IReadOnlyList<CatalogueTaxon> taxa)
    {
        foreach (var taxon in taxa)
        {
            Add(taxon, taxon.ScientificName, NameKind.Scientific);
            foreach (var name in taxon.CommonNames) Add(taxon, name, NameKind.Common);
            foreach (var name in taxon.Synonyms) Add(taxon, name, NameKind.Synonym);
        }
        vocabulary = [.. wordIds.OrderBy(w => w.Value).Select(w => w.Key)];
    }

    public IReadOnlyList<NameSuggestion> For(string typed, int max)
    {
        ArgumentNullException.ThrowIfNull(typed);
        ArgumentOutOfRangeException.ThrowIfNegative(max);
        var words = WordsOf(typed).Take(MostWords).Select(w => w.Length > LongestWord ? w[..LongestWord] : w).ToArray();
        if (words.Length == 0 || max == 0) return [];
        var found = Find(words, withSlips: false);
        if (found.Count == 0) found = Find(words, withSlips: true);
        return found.OrderBy(f => f.Value.Penalty).ThenBy(f => f.Value.Entry.Name.Length).ThenBy(f => f.Value.Entry.Name,
            StringComparer.Ordinal)
            .Take(max).Select(f => new NameSuggestion(f.Key, f.Value.Entry.Name, f.Value.Entry.Kind)).ToList();
    }

    /// <summary>Taxa with a name in which every typed word begins a word, without slips; best first.</summary>
    public IReadOnlyList<CatalogueTaxon> Fits(string typed)
    {
        var words = WordsOf(typed).Take(MostWords).Select(w => w.Length > LongestWord ? w[..LongestWord] : w).ToArray();
        return words.Length == 0 ? [] : [.. Find(words, withSlips: false).OrderBy(f => f.Value.Penalty).ThenBy(f => f.Value.Entry.Name,
            StringComparer.Ordinal).Select(f => f.Key)];
    }

    /// <summary>The one taxon whose common name this is in full, where no other taxon's name ends with it: "gayfeather" is also the end of
    /// "prairie gayfeather".</summary>
    public CatalogueTaxon? SoleCommonName(string typed)
    {
        var words = WordsOf(typed);
        var ids = words.Select(w => wordIds.TryGetValue(w, out var id) ? id : -1).ToArray();
        if (ids.Length == 0 || ids.Contains(-1)) return null;
        var ending = entries.Where(e => e.Words.AsSpan().EndsWith(ids)).ToList();
        var whole = ending.Find(e => e.Kind == NameKind.Common && e.Words.Length == ids.Length);
        return whole is not null && ending.TrueForAll(e => ReferenceEquals(e.Taxon, whole.Taxon)) ? whole.Taxon : null;
    }

    private void Add(CatalogueTaxon taxon, string name, NameKind kind)
    {
        var words = WordsOf(name).Select(word =>
        {
            if (!wordIds.TryGetValue(word, out var id)) wordIds.Add(word, id = wordIds.Count);
            return id;
        });
        entries.Add(new Entry(taxon, name, kind, [.. words.Take(MostWordsOfName)]));
    }

    private Dictionary<CatalogueTaxon, (Entry Entry, int Penalty)> Find(string[] typed, bool withSlips)
    {
        var slips = typed.Select(word => SlipsAgainst(word, withSlips)).ToArray();
        var best = new Dictionary<CatalogueTaxon, (Entry Entry, int Penalty)>(ReferenceEqualityComparer.Instance);
        foreach (var entry in entries)
        {
            if (PenaltyOf(entry, typed, slips) is not { } penalty) continue;
            if (!best.TryGetValue(entry.Taxon, out var known) || penalty < known.Penalty) best[entry.Taxon] = (entry, penalty);
        }
        return best;
    }

    /// <summary>For each word of the vocabulary the slips between it and the typed beginning, or 255 where they are too many.</summary>
    private byte[] SlipsAgainst(string typed, bool withSlips)
    {
        var allowed = !withSlips || typed.Length < 3 ? 0 : typed.Length < 7 ? 1 : 2;
        var slips = new byte[vocabulary.Length];
        for (var i = 0; i < slips.Length; i++)
        {
            if (vocabulary[i].StartsWith(typed, StringComparison.Ordinal)) continue;
            var distance = allowed == 0 || vocabulary[i].Length + allowed < typed.Length ? int.MaxValue
                : EditDistance.ToPrefix(typed, vocabulary[i], allowed);
            slips[i] = distance <= allowed ? (byte)distance : byte.MaxValue;
        }
        return slips;
    }

    /// <summary>0 for the best fit; null when a typed word begins no word that is left.</summary>
    private int? PenaltyOf(Entry entry, string[] typed, byte[][] slips)
    {
        if (typed.Length > entry.Words.Length) return null;
        var (used, penalty, last) = (0, 0, -1);
        for (var t = 0; t < typed.Length; t++)
        {
            var (chosen, least) = (-1, (int)byte.MaxValue);
            for (var w = 0; w < entry.Words.Length; w++)
            {
                if ((used & (1 << w)) == 0 && slips[t][entry.Words[w]] < least) (chosen, least) = (w, slips[t][entry.Words[w]]);
            }
            if (chosen < 0) return null;
            used |= 1 << chosen;
            penalty += least * SlipPenalty;
            if (vocabulary[entry.Words[chosen]].Length > typed[t].Length) penalty += UnfinishedPenalty;
            if (chosen != last + 1) penalty += chosen > last ? SkippedPenalty : OrderPenalty;
            last = chosen;
        }
        return penalty + ((entry.Words.Length - typed.Length) * UnfinishedPenalty) + (entry.Kind == NameKind.Synonym ? SynonymPenalty : 0);
    }

    // Ranks, not measures: a slip weighs most, then words out of order, then a name that is only a synonym, then what is still to be typed.
    private const int SlipPenalty = 100, OrderPenalty = 30, SkippedPenalty = 20, SynonymPenalty = 10, UnfinishedPenalty = 2;

    /// <summary>Words in small letters; an apostrophe joins, everything else parts them.</summary>
    internal static string[] WordsOf(string name) =>
        NameKey.Fold(new string([.. name.Select(c => char.IsLetterOrDigit(c) ? c : c is '\'' or '’' ? '\0' : ' ')]).Replace("\0", "",
            StringComparison.Ordinal))
            .Split(' ', StringSplitOptions.RemoveEmptyEntries);
}
