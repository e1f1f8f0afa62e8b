using CommonGround.Ecology.Identification;

namespace CommonGround.Web.Features.Identify;

/// <summary>What was answered, as it stands in the page's address: a=character:state,state and no=character.</summary>
public sealed record IdentifyAddress(IReadOnlyList<FieldAnswer> Answers, IReadOnlyList<string> CannotTell, bool InFlower)
{
    /// <summary>Reads an address; what is no character or state of the table is left out.</summary>
    public static IdentifyAddress Read(IEnumerable<string>? answers, IEnumerable<string>? cannotTell, string? flower,
        IReadOnlyList<FieldCharacter> characters)
    {
        ArgumentNullException.ThrowIfNull(characters);
        var byId = characters.ToDictionary(c => c.Id, StringComparer.Ordinal);
        List<FieldAnswer> read = [];
        foreach (var one in answers ?? [])
        {
            var cut = one.IndexOf(':', StringComparison.Ordinal);
            if (cut > 0 && byId.TryGetValue(one[..cut], out var character) && read.TrueForAll(a => a.Character != character.Id)
                && Known(character, one[(cut + 1)..]) is { Count: > 0 } states)
            {
                read.Add(new(character.Id, states));
            }
        }

        return new(read, [.. (cannotTell ?? []).Where(byId.ContainsKey).Distinct()], flower != "no");
    }

    /// <summary>The same with one state added to a character, or taken from it where it is there.</summary>
    public string With(string character, string state)
    {
        var was = Answers.FirstOrDefault(a => a.Character == character)?.States ?? [];
        IReadOnlyList<string> now = was.Contains(state, StringComparer.Ordinal) ? [.. was.Where(s => s != state)] : [.. was, state];
        var others = Answers.Where(a => a.Character != character);
        return Write(now.Count == 0 ? others : [.. others, new(character, now)], CannotTell.Where(c => c != character), InFlower);
    }

    /// <summary>The same without an answer.</summary>
    public string Without(string character) => Write(Answers.Where(a => a.Character != character),
        CannotTell.Where(c => c != character), InFlower);

    /// <summary>The same, with a character that cannot be told.</summary>
    public string Skipping(string character) => Write(Answers, CannotTell.Append(character), InFlower);

    /// <summary>The same for a plant with or without flowers.</summary>
    public string Flowering(bool inFlower) => Write(Answers, CannotTell, inFlower);

    private static List<string> Known(FieldCharacter character, string said) =>
        [.. said.Split(',').Where(s => character.States.Any(k => k.Id == s)).Distinct()];

    private static string Write(IEnumerable<FieldAnswer> answers, IEnumerable<string> cannotTell, bool inFlower)
    {
        string[] parts = [.. answers.Select(a => $"a={a.Character}:{string.Join(',', a.States)}"), .. cannotTell.Select(c => $"no={c}"),
            .. inFlower ? Array.Empty<string>() : ["flower=no"]];
        return "/identify" + (parts.Length == 0 ? "" : "?" + string.Join('&', parts));
    }
}
