using CommonGround.Ecology.Taxa;
using CommonGround.Planning.GapFilling;

namespace CommonGround.Planning.Conversion;

/// <summary>Why a plan does without plants that stand first in the yard's list of plants for its gaps: the list looks at gaps alone, the
/// plan at the whole planting.</summary>
public static class GapPlantWords
{
    /// <summary>One sentence or two for each listed plant that is neither in the mix nor unwanted by name; none for those that
    /// are.</summary>
    /// <param name="gaps">The yard's list, first is best.</param>
    /// <param name="request">What was asked for.</param>
    /// <param name="mix">What was chosen.</param>
    public static IReadOnlyList<string> LeftOut(IReadOnlyList<GapSuggestion> gaps, ConversionRequest request, ConversionMix mix)
    {
        ArgumentNullException.ThrowIfNull(gaps);
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(mix);
        var planned = mix.Taxa.Select(t => t.Taxon.ScientificName).ToHashSet(StringComparer.Ordinal);
        return [.. gaps.Index().Where(g => !planned.Contains(g.Item.Taxon.ScientificName)
            && !request.Never.Contains(g.Item.Taxon.ScientificName, StringComparer.Ordinal))
            .Select(g => $"{Capital(g.Item.Taxon.DisplayName)}, {Rank(g.Index)} in this yard’s list for its gaps, is not in this plan: "
                + $"{Why(g.Item, request, mix)}")];
    }

    private static string Why(GapSuggestion gap, ConversionRequest request, ConversionMix mix)
    {
        var taxon = gap.Taxon;
        var candidates = ConversionCandidates.Of(request, [taxon]);
        if (candidates.LeftOut is [var barred])
        {
            return WhyNotWords.Of(barred.Reasons[0]) + "."
                + (barred.Reasons.All(PracticeWords.IsPractice) && !barred.Reasons.Contains(WhyNot.HarmsPeople)
                    ? " Name it under “Must be in” to have it all the same." : "");
        }

        var genus = taxon.ScientificName.Split(' ')[0];
        var kin = mix.Taxa.Where(t => string.Equals(t.Taxon.ScientificName.Split(' ')[0], genus, StringComparison.Ordinal))
            .Select(t => t.Taxon.DisplayName).ToList();
        var instead = gap.Helps.Count > 0 && gap.Helps.All(h => mix.InFlower[h] >= request.Season.Norm)
            ? mix.Taxa.Where(t => !t.Traits.IsGrass && t.Taxon.Bloom is { } bloom && gap.Helps.Any(bloom.Contains))
                .OrderByDescending(t => gap.Helps.Count(t.Taxon.Bloom!.Value.Contains))
                .ThenBy(t => t.Taxon.ScientificName, StringComparer.Ordinal).Select(t => t.Taxon.DisplayName).Take(3).ToList() : [];
        var most = request.MostTaxa ?? MixSite.Of(request).MostTaxa;
        string[] why =
        [
            .. new[]
            {
                kin.Count > 0 ? $"{List(kin)} of the same genus {(kin.Count == 1 ? "is" : "are")} in" : "",
                instead.Count > 0 ? $"its half-months have {request.Season.Norm} kinds in flower without it, {List(instead)} among them"
                    : "",
                mix.Taxa.Count >= most ? $"{most} kinds are the most for ground of this size" : "",
            }.Where(w => w.Length > 0),
        ];
        return $"it suits, but {(why.Length == 0 ? "the mix feeds as many kinds of bees without it" : string.Join("; ", why))}. "
            + "Name it under “Must be in” to have it.";
    }

    private static string Rank(int index) => index switch { 0 => "first", 1 => "second", 2 => "third", _ => $"number {index + 1}" };

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string List(List<string> names) => names.Count < 2 ? string.Concat(names)
        : string.Join(", ", names.Take(names.Count - 1)) + " and " + names[^1];
}
