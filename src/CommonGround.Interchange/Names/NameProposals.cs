using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Names;

/// <summary>A plant that a name nobody knows may mean.</summary>
/// <param name="Taxon">The catalogue's taxon.</param>
/// <param name="Matched">The name of it that is like what was written.</param>
/// <param name="Likeness">0 to 1; 1 where every word is the same.</param>
public sealed record NameProposal(CatalogueTaxon Taxon, string Matched, double Likeness);

/// <summary>
/// Proposes plants for a name as somebody wrote it. Only a plant with a name that shares a word with it, or a word that sounds or is
/// spelled much like one of its words, is proposed: a few letters in common are not enough. Rare words weigh more than such as "wild".
/// </summary>
internal sealed class NameProposals
{
    private const int MostWords = 8, LongestWord = 40;

    /// <summary>A word less like than this shares nothing.</summary>
    private const double Like = 0.72, Sounds = 0.8, Begins = 0.85;

    private readonly List<(CatalogueTaxon Taxon, string Name, int[] Words)> names = [];
    private readonly List<string> vocabulary = [];
    private readonly List<string> sounds = [];
    private readonly Dictionary<string, int> ids = new(StringComparer.Ordinal);
    private readonly List<int> uses = [];

    public NameProposals(IEnumerable<CatalogueTaxon> taxa)
    {
        foreach (var taxon in taxa)
        {
            foreach (var name in taxon.CommonNames.Prepend(taxon.ScientificName).Concat(taxon.Synonyms))
                names.Add((taxon, name, [.. NameSuggestions.WordsOf(name).Take(MostWords).Select(Id)]));
        }
        foreach (var word in names.SelectMany(n => n.Words.Distinct())) uses[word]++;
    }

    public IReadOnlyList<NameProposal> For(string written, int most)
    {
        var words = NameSuggestions.WordsOf(written).Where(w => w.Length > 1).Take(MostWords)
            .Select(w => w.Length > LongestWord ? w[..LongestWord] : w).ToArray();
        if (words.Length == 0) return [];
        var like = words.Select(Likeness).ToArray();
        var weights = words.Select((w, i) => Weight(like[i])).ToArray();
        var joined = string.Concat(words);
        return [.. names.Select(n => (n.Taxon, n.Name, Score: Math.Max(Score(n.Words, like, weights), Whole(joined, n.Words))))
            .Where(n => n.Score > 0).GroupBy(n => n.Taxon, (taxon, all) => all.MaxBy(n => n.Score))
            .OrderByDescending(n => n.Score).ThenBy(n => n.Taxon.ScientificName, StringComparer.Ordinal).Take(most)
            .Select(n => new NameProposal(n.Taxon, n.Name, Math.Round(n.Score, 3)))];
    }

    private int Id(string word)
    {
        if (ids.TryGetValue(word, out var id)) return id;
        ids.Add(word, id = vocabulary.Count);
        vocabulary.Add(word);
        sounds.Add(SoundOf(word));
        uses.Add(0);
        return id;
    }

    /// <summary>How like a written word is to each word of the vocabulary; 0 where it is not.</summary>
    private double[] Likeness(string word)
    {
        var sound = SoundOf(word);
        var like = new double[vocabulary.Count];
        for (var i = 0; i < like.Length; i++)
        {
            var other = vocabulary[i];
            if (other == word) like[i] = 1;
            else if (word.Length > 2 && other.StartsWith(word, StringComparison.Ordinal)) like[i] = Begins;
            else if (word.Length > 3 && other.Length > 3 && Math.Abs(word.Length - other.Length) <= 3)
            {
                var near = 1 - ((double)EditDistance.Between(word, other) / Math.Max(word.Length, other.Length));
                like[i] = near >= Like ? near : sound.Length > 2 && sound == sounds[i] ? Sounds * Like / 0.8 : 0;
            }
        }
        return like;
    }

    /// <summary>A word that many names have tells little; one that no name has tells as much as a rare one.</summary>
    private double Weight(double[] like)
    {
        var with = like.Select((l, i) => l > 0 ? uses[i] : 0).Sum();
        return 1 / (1 + Math.Log(1 + with));
    }

    private double Score(int[] name, double[][] like, double[] weights)
    {
        var (used, sum, whole) = (0, 0.0, 0.0);
        for (var t = 0; t < weights.Length; t++)
        {
            var (best, at) = (0.0, -1);
            for (var w = 0; w < name.Length; w++)
            {
                if ((used & (1 << w)) == 0 && like[t][name[w]] > best) (best, at) = (like[t][name[w]], w);
            }
            whole += weights[t];
            if (at < 0) continue;
            used |= 1 << at;
            sum += best * weights[t];
        }
        // Words of the name that nobody wrote count half.
        for (var w = 0; w < name.Length; w++)
        {
            if ((used & (1 << w)) == 0) whole += 0.5 / (1 + Math.Log(1 + uses[name[w]]));
        }
        return sum / whole;
    }

    /// <summary>"blackeyed susan" is "black-eyed susan" with the words run together.</summary>
    private double Whole(string joined, int[] name)
    {
        var other = string.Concat(name.Select(w => vocabulary[w]));
        if (joined.Length < 5 || Math.Abs(joined.Length - other.Length) > 2) return 0;
        var slips = EditDistance.Between(joined, other);
        return slips <= 2 ? 1 - ((double)slips / other.Length) : 0;
    }

    /// <summary>The consonants as they sound, doubled ones once: "filipendula" and "philipendulla" are alike.</summary>
    private static string SoundOf(string word)
    {
        var text = word.Replace("ph", "f", StringComparison.Ordinal).Replace("ck", "k", StringComparison.Ordinal)
            .Replace("gh", "g", StringComparison.Ordinal);
        var sound = new System.Text.StringBuilder();
        foreach (var c in text)
        {
            var heard = c switch { 'c' or 'q' => 'k', 'z' => 's', 'd' => 't', 'v' => 'f', _ => c };
            if (heard is 'a' or 'e' or 'i' or 'o' or 'u' or 'y' or 'h' or 'w') continue;
            if (sound.Length == 0 || sound[^1] != heard) sound.Append(heard);
        }
        return sound.ToString();
    }
}
