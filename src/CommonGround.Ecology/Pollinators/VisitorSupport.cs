using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Pollinators;

/// <summary>Kinds of visitors with something to feed on in one half-month.</summary>
/// <param name="Visitors">With at least one plant in flower; <paramref name="VisitorsTwice"/> with two or more.</param>
/// <param name="Bees">The bees among them; <paramref name="BeesTwice"/> with two or more plants.</param>
public readonly record struct HalfMonthVisitors(int Visitors, int VisitorsTwice, int Bees, int BeesTwice);

/// <summary>Who comes to a set of plants, by the record of 1884–1916.</summary>
/// <param name="HalfMonths">24 entries.</param>
/// <param name="Visitors">Kinds over the whole year; <paramref name="Bees"/> the bees among them, <paramref name="BeesTwice"/> those with
/// two plants or more.</param>
public sealed record VisitorSupport(IReadOnlyList<HalfMonthVisitors> HalfMonths, int Visitors, int Bees, int BeesTwice)
{
    /// <summary>Bees that keep to one plant family, by name.</summary>
    public IReadOnlyList<string> Specialists { get; init; } = [];

    /// <summary>Kinds by group: bees, butterflies, beetles …</summary>
    public IReadOnlyDictionary<string, int> ByGroup { get; init; } = new Dictionary<string, int>(StringComparer.Ordinal);

    /// <summary>Plants of the set that the record has.</summary>
    public int Recorded { get; init; }

    /// <summary>Plants of which only relatives are recorded: they add nothing to these counts.</summary>
    public int Estimated { get; init; }

    /// <summary>Flowering plants of which nothing is known: they add nothing, and that is not a nought.</summary>
    public int Blank { get; init; }
}

/// <summary>What one more plant would feed.</summary>
/// <param name="Visitors">Kinds that have nothing in the set yet; <paramref name="Bees"/> the bees among them.</param>
/// <param name="BeesTwice">Bees that would have a second plant, or their first.</param>
public sealed record ForageAddition(CatalogueTaxon Taxon, int Visitors, int Bees, int BeesTwice);

/// <summary>A plant of a set and the recorded kinds that come to it, by group; empty where nothing is recorded of it.</summary>
public sealed record VisitedTaxon(CatalogueTaxon Taxon, IReadOnlyDictionary<string, int> Kinds);

/// <summary>Who finds food on a set of plants.</summary>
/// <param name="Support">Counted over the whole set.</param>
/// <param name="Plants">Plant by plant, flowers only, by first flowering.</param>
/// <param name="Additions">What would feed most more, best first; each is counted as if those before it were planted.</param>
public sealed record FedVisitors(VisitorSupport Support, IReadOnlyList<VisitedTaxon> Plants, IReadOnlyList<ForageAddition> Additions)
{
    /// <summary>Plants of the set that flower, those included that are counted and not named.</summary>
    public int Flowering { get; init; } = Plants.Count;

    /// <summary>Nothing known of nothing.</summary>
    public static FedVisitors None { get; } = new(new(new HalfMonthVisitors[Phenology.HalfMonth.Count], 0, 0, 0), [], []);
}
