namespace CommonGround.Ecology.Identification;

/// <summary>One of the answers to a character: a stable word and what it means.</summary>
/// <param name="Id">Stable, in lower case: "opposite".</param>
/// <param name="Words">As somebody in the field reads it: "two at a node, facing each other".</param>
public sealed record CharacterState(string Id, string Words);

/// <summary>Something that can be seen, felt or smelled on a plant, with the answers it may have.</summary>
/// <param name="Id">Stable, in lower case: "leaf_place".</param>
/// <param name="Words">The question: "How do the leaves stand on the stem?".</param>
/// <param name="States">2 to 63 states.</param>
/// <param name="ErrorRate">How often an observer names another state than the plant shows, 0 to below 1.</param>
/// <param name="CostBits">What looking costs, bits of information that it has to bring first, 0 or more: a hand lens, a dug root.</param>
/// <param name="NeedsFlower">It can be seen only while the plant is in flower.</param>
public sealed record FieldCharacter(string Id, string Words, IReadOnlyList<CharacterState> States, double ErrorRate, double CostBits = 0,
    bool NeedsFlower = false)
{
    public const int MostStates = 63;

    /// <summary>The states of these ids as bits, the first state lowest.</summary>
    /// <exception cref="ArgumentException">A state that the character does not have.</exception>
    public ulong Bits(IEnumerable<string> ids)
    {
        ArgumentNullException.ThrowIfNull(ids);
        var bits = 0UL;
        foreach (var id in ids)
        {
            var at = States.Index().FirstOrDefault(s => s.Item.Id == id, (-1, null!)).Index;
            bits |= at >= 0 ? 1UL << at
                : throw new ArgumentException($"“{id}” is no state of {Id}. Its states are {string.Join(", ", States.Select(s => s.Id))}.",
                    nameof(ids));
        }

        return bits;
    }
}

/// <summary>What was seen of one character. Several states mean "one of these"; an answer that cannot be given is left out.</summary>
public sealed record FieldAnswer(string Character, IReadOnlyList<string> States);
