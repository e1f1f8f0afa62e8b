using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>A taxon that could stand in for another.</summary>
/// <param name="Distance">0 for one that differs in nothing we compare; larger is worse.</param>
/// <param name="Differs">What differs, in words; empty when nothing does.</param>
public sealed record Substitute(CatalogueTaxon Taxon, PlantedAs As, double Distance, IReadOnlyList<string> Differs);

/// <summary>Finds what to take when a seller has run out.</summary>
public static class Substitutes
{
    /// <summary>Taxa that suit the request, are not in the mix, and are most like the one planned; nearest first, then by name.</summary>
    /// <param name="count">How many at most, 1 or more.</param>
    /// <returns>Grasses and sedges only for a grass or sedge, flowers for flowers. Empty when nothing suits.</returns>
    /// <remarks>
    /// Distance: half-months in which just one of the two flowers, + 4 per metre of height, + 2 × share of moistures, + 2 × share of light not in
    /// common, + 3 × lost pollinator value, + 1 for another form. Heights nobody knows count as a metre apart. Our own convention.
    /// </remarks>
    public static IReadOnlyList<Substitute> For(PlannedTaxon planned, ConversionMix mix, ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices, int count = 5)
    {
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(mix);
        ArgumentNullException.ThrowIfNull(surroundings);
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        var inMix = mix.Taxa.Select(t => t.Taxon.ScientificName).Append(planned.Taxon.ScientificName).ToHashSet(StringComparer.Ordinal);
        return
        [
            .. ConversionCandidates.Of(request, surroundings.Catalogue, prices).Suitable
                .Where(c => !inMix.Contains(c.Taxon.ScientificName))
                .Where(c => c.IsGrass == (planned.Taxon.LifeForm is LifeForm.Grass or LifeForm.Sedge) && (c.Taxon.LifeForm == LifeForm.Shrub) == (planned.Taxon.LifeForm == LifeForm.Shrub))
                .Select(c => new Substitute(c.Taxon, c.As, Distance(planned, c), Differences(planned, c)))
                .OrderBy(s => s.Distance).ThenBy(s => s.Taxon.ScientificName, StringComparer.Ordinal).Take(count),
        ];
    }

    private static double Distance(PlannedTaxon planned, ConversionCandidate other)
    {
        var (a, b) = (planned.Taxon, other.Taxon);
        var bloom = Enumerable.Range(0, HalfMonth.Count).Count(t => Flowers(a, t) != Flowers(b, t));
        var metres = a.HeightMaxMetres is { } one && b.HeightMaxMetres is { } two ? Math.Abs(one - two) : 1;
        var lost = Math.Max(0, (a.PollinatorValue ?? 0) - (b.PollinatorValue ?? 0));
        return bloom + (4 * metres) + (2 * Apart(a.Moisture, b.Moisture)) + (2 * Apart(a.Light, b.Light)) + (3 * lost) + (planned.As == other.As ? 0 : 1);
    }

    private static List<string> Differences(PlannedTaxon planned, ConversionCandidate other)
    {
        var (a, b) = (planned.Taxon, other.Taxon);
        var words = new List<string>();
        void When(bool holds, string what)
        {
            if (holds) words.Add(what);
        }

        When(a.Bloom is not null && b.Bloom is null, "when it flowers is not known");
        if (a.Bloom is { } one && b.Bloom is { } two)
        {
            When(one.Start != two.Start, $"starts to flower {Shift(two.Start - one.Start)}");
            When(one.End != two.End, $"stops flowering {Shift(two.End - one.End)}");
        }

        var metres = b.HeightMaxMetres - a.HeightMaxMetres;
        When(metres is >= 0.1, $"{metres:0.0} m taller");
        When(metres is <= -0.1, $"{-metres:0.0} m lower");
        When(metres is null, "height of one of the two is not known");
        When(!a.Moisture.ToHashSet().SetEquals(b.Moisture), "grows in " + string.Join(" or ", b.Moisture.Select(LimitWords.Of)) + " soil");
        When(!a.Light.ToHashSet().SetEquals(b.Light), "grows in " + string.Join(" or ", b.Light.Select(LimitWords.Of)));
        When((a.PollinatorValue ?? 0) - (b.PollinatorValue ?? 0) >= 0.1, b.PollinatorValue is null ? "its visitors are not known" : "fewer kinds of visitors");
        When(planned.As != other.As, other.As == PlantedAs.Plug ? "planted as plugs instead of sown" : "sown instead of planted as plugs");
        When(a.Toxicity.Length == 0 && b.Toxicity.Length > 0, "has a toxicity note: read its caution first");
        return words;
    }

    private static bool Flowers(CatalogueTaxon taxon, int t) => taxon.Bloom?.Contains(t) ?? false;

    /// <summary>Half-months the short way round the year.</summary>
    private static string Shift(int halfMonths)
    {
        var by = ((halfMonths + HalfMonth.Count + (HalfMonth.Count / 2)) % HalfMonth.Count) - (HalfMonth.Count / 2);
        var how = Math.Abs(by) switch { 1 => "half a month", 2 => "a month", var n when n % 2 == 0 => $"{n / 2} months", var n => $"{n / 2} and a half months" };
        return how + (by > 0 ? " later" : " earlier");
    }

    private static double Apart<T>(IReadOnlyList<T> one, IReadOnlyList<T> other)
    {
        var all = one.Union(other).Count();
        return all == 0 ? 0 : 1 - ((double)one.Intersect(other).Count() / all);
    }
}
