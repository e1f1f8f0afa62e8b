using CommonGround.Ecology.Pollinators;
using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Visitors of one name that the record has on plants of a mix.</summary>
/// <param name="Name">"bumblebees", "monarch", "other flies".</param>
/// <param name="Kinds">How many kinds of them.</param>
/// <param name="Plants">Common names of their plants, those that most of them come to first.</param>
public sealed record ComingVisitor(string Name, int Kinds, IReadOnlyList<string> Plants)
{
    /// <summary>Who comes to a mix by the record, under the names people use; bees first, then the others, most kinds first.</summary>
    public static IReadOnlyList<ComingVisitor> Of(ForageIndex forage, ConversionMix mix)
    {
        ArgumentNullException.ThrowIfNull(forage);
        ArgumentNullException.ThrowIfNull(mix);
        var met = mix.Taxa.SelectMany(t => forage.RecordedOn(t.Taxon.ScientificName).Where(v => !v.IsHoneyBee)
            .Select(v => (Visitor: v, Plant: t.Taxon.DisplayName))).ToList();
        return [.. met.GroupBy(m => VisitorNames.Of(m.Visitor) ?? Rest(m.Visitor))
            .Select(g => (g.First().Visitor.Group, Line: new ComingVisitor(g.Key,
                g.Select(m => m.Visitor.Name).Distinct(StringComparer.Ordinal).Count(),
                [.. g.GroupBy(m => m.Plant).OrderByDescending(p => p.Count()).ThenBy(p => p.Key, StringComparer.Ordinal)
                    .Select(p => p.Key)])))
            .OrderBy(g => Array.IndexOf(s_order, g.Group) is var i and >= 0 ? i : s_order.Length)
            .ThenBy(g => g.Line.Name.StartsWith("other ", StringComparison.Ordinal)).ThenByDescending(g => g.Line.Kinds)
            .ThenBy(g => g.Line.Name, StringComparer.Ordinal).Select(g => g.Line)];
    }

    private static readonly string[] s_order = ["bees", "butterflies", "birds", "moths", "hover flies", "beetles", "wasps", "other flies"];

    private static string Rest(Visitor visitor) => visitor.Group switch
    {
        "bees" => "other wild bees",
        "butterflies" => "other butterflies and skippers",
        "moths" => "other moths",
        "beetles" => "other beetles",
        "birds" => "birds",
        var group => group,
    };
}
