namespace CommonGround.Ecology.Pollinators;

/// <summary>One kind of visitor of the record.</summary>
/// <param name="Name">Current name where it is known, else as printed.</param>
/// <param name="Name1929">As printed; empty when it is the same.</param>
/// <param name="Group">bees, hover flies, other flies, butterflies, moths, beetles, wasps, ants, true bugs, birds, other insects.</param>
/// <param name="Family">Empty where it is not known.</param>
public sealed record Visitor(string Name, string Name1929, string Group, string Family)
{
    /// <summary>An introduced animal that never counts.</summary>
    public bool IsHoneyBee => string.Equals(Name, "Apis mellifera", StringComparison.Ordinal);

    public bool IsBee => string.Equals(Group, "bees", StringComparison.Ordinal) && !IsHoneyBee;

    /// <summary>First word of the printed name: kinds that are not bees stand together by genus.</summary>
    public string Genus => (Name1929.Length > 0 ? Name1929 : Name).Split(' ')[0];
}

/// <summary>Who came to a plant.</summary>
/// <param name="Name1929">The plant as printed.</param>
/// <param name="CurrentName">Its name today; empty where nobody could say.</param>
/// <param name="Mapping">How the name was carried over.</param>
/// <param name="Visitors">Positions in <see cref="VisitorRecords.Visitors"/>.</param>
public sealed record VisitedPlant(string Name1929, string CurrentName, string Mapping, IReadOnlyList<int> Visitors);

/// <summary>Robertson's flower visitors of Carlinville, Illinois, 1884–1916: who came to which plant, presence only.</summary>
/// <remarks>Source: C. Robertson 1929, Flowers and insects (public domain). One county; how often he looked differs between
/// plants.</remarks>
public sealed record VisitorRecords(IReadOnlyList<Visitor> Visitors, IReadOnlyList<VisitedPlant> Plants)
{
    /// <summary>No record at all.</summary>
    public static VisitorRecords None { get; } = new([], []);

    /// <summary>Words that go with every figure made from the record.</summary>
    public const string Caveat =
        "Carlinville, Illinois, 1884–1916: one county, who was seen there on which flower. A record, not a promise for this street.";

    /// <summary>Visitors by a plant's current name; the same plant under two old names is one.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<int>> ByCurrentName { get; } = Plants.Where(p => p.CurrentName.Length > 0)
        .GroupBy(p => p.CurrentName, StringComparer.Ordinal)
        .ToDictionary(g => g.Key, g => (IReadOnlyList<int>)[.. g.SelectMany(p => p.Visitors).Distinct().Order()], StringComparer.Ordinal);
}
