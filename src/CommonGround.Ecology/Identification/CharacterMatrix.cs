using System.Numerics;

namespace CommonGround.Ecology.Identification;

/// <summary>Which states of which characters a taxon shows. A taxon may show several states of one (polymorphic); a cell without any is
/// unknown, which is something else, and so is a character that a plant does not have at all: no ligule on an aster.</summary>
public sealed class CharacterMatrix
{
    /// <summary>The cell of a character that the taxon does not have.</summary>
    public const ulong NotThere = 1UL << 63;

    private readonly ulong[] cells;
    private readonly Dictionary<string, int> characterAt;

    /// <param name="characters">The columns; ids differ.</param>
    /// <param name="taxa">The rows, by whatever names the caller has for them; they differ.</param>
    /// <param name="states">The states of a cell as bits, 0 where unknown, or <see cref="NotThere"/>: taxon, character.</param>
    /// <exception cref="ArgumentException">Equal ids, a character with fewer than 2 or more than 63 states or an error rate that is none,
    /// a cell with states its character does not have.</exception>
    public CharacterMatrix(IReadOnlyList<FieldCharacter> characters, IReadOnlyList<string> taxa, Func<int, int, ulong> states)
    {
        ArgumentNullException.ThrowIfNull(characters);
        ArgumentNullException.ThrowIfNull(taxa);
        ArgumentNullException.ThrowIfNull(states);
        (Characters, Taxa) = (characters, taxa);
        characterAt = characters.Index().ToDictionary(c => c.Item.Id, c => c.Index, StringComparer.Ordinal);
        if (taxa.Distinct(StringComparer.Ordinal).Count() != taxa.Count)
        {
            throw new ArgumentException("A taxon stands in the matrix twice.", nameof(taxa));
        }

        cells = new ulong[taxa.Count * characters.Count];
        foreach (var (c, character) in characters.Index())
        {
            if (character.States.Count is < 2 or > FieldCharacter.MostStates || !(character.ErrorRate is >= 0 and < 1))
            {
                throw new ArgumentException($"{character.Id} needs 2 to 63 states and an error rate of 0 to below 1.", nameof(characters));
            }

            for (var t = 0; t < taxa.Count; t++)
            {
                var bits = states(t, c);
                if (bits != NotThere && bits >> character.States.Count != 0)
                {
                    throw new ArgumentException($"{taxa[t]} has a state of {character.Id} that does not exist.", nameof(states));
                }

                cells[(t * characters.Count) + c] = bits;
            }
        }
    }

    public IReadOnlyList<FieldCharacter> Characters { get; }

    public IReadOnlyList<string> Taxa { get; }

    /// <summary>The states of a cell as bits; 0 where nobody knows.</summary>
    public ulong this[int taxon, int character] => cells[(taxon * Characters.Count) + character];

    /// <summary>Position of a character.</summary>
    /// <exception cref="ArgumentException">There is no such character.</exception>
    public int At(string character) => characterAt.TryGetValue(character, out var at) ? at
        : throw new ArgumentException($"“{character}” is no character. There are {string.Join(", ", Characters.Select(c => c.Id))}.",
        nameof(character));

    /// <summary>How likely each state is of a plant of which nothing is known: the mean over the taxa that are known, 0 to 1, summing
    /// to 1; the same for all where none is known.</summary>
    public double[] Usual(int character)
    {
        var count = Characters[character].States.Count;
        var usual = new double[count];
        var known = 0;
        for (var t = 0; t < Taxa.Count; t++)
        {
            var bits = this[t, character];
            if (bits is 0 or NotThere)
            {
                continue;
            }

            known++;
            var each = 1.0 / BitOperations.PopCount(bits);
            for (; bits != 0; bits &= bits - 1)
            {
                usual[BitOperations.TrailingZeroCount(bits)] += each;
            }
        }

        for (var s = 0; s < count; s++)
        {
            usual[s] = known == 0 ? 1.0 / count : usual[s] / known;
        }

        return usual;
    }
}
