using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
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
    /// <returns>Taxa of the same role that flower in one of the same bloom periods. Empty when nothing suits.</returns>
    /// <remarks>
    /// Distance: half-months in which just one of the two flowers, + 4 per metre of height, + 2 × share of moistures, + 2 × share of light
    /// not in common, + 3 × share of recorded bees lost, + 1 for another form. Heights nobody knows count as a metre apart. Our own
    /// convention.
    /// </remarks>
    public static IReadOnlyList<Substitute> For(PlannedTaxon planned, ConversionMix mix, ConversionRequest request,
        ConversionSurroundings surroundings, PriceTable prices, int count = 5)
    {
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(mix);
        ArgumentNullException.ThrowIfNull(surroundings);
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        var inMix = mix.Taxa.Select(t => t.Taxon.ScientificName).Append(planned.Taxon.ScientificName).ToHashSet(StringComparer.Ordinal);
        return
        [
            .. ConversionCandidates.Of(request, surroundings.Catalogue).Suitable
                .Where(c => !inMix.Contains(c.Taxon.ScientificName) && c.Traits.Role == planned.Traits.Role && SameSeason(planned, c)
                && FormOf(planned, c) is not null)
                .Select(c => new Substitute(c.Taxon, FormOf(planned, c)!.Value, Distance(planned, c, surroundings.Forage),
                Differences(planned, c, surroundings.Forage)))
                .OrderBy(s => s.Distance).ThenBy(s => s.Taxon.ScientificName, StringComparer.Ordinal).Take(count),
        ];
    }

    /// <summary>Flowers in one of the bloom periods in which the other does; grasses have none.</summary>
    private static bool SameSeason(PlannedTaxon planned, ConversionCandidate other) => other.IsGrass || planned.Taxon.Bloom is not { } bloom
        || ForageIndex.Periods.Any(p => Enumerable.Range(p.First, p.Last - p.First + 1) is var halves && halves.Any(bloom.Contains)
        && halves.Any(other.Flowers));

    /// <summary>As the planned one where it can be; null where it can be neither sown nor planted in its stead.</summary>
    private static PlantedAs? FormOf(PlannedTaxon planned, ConversionCandidate other)
    {
        var sows = other.Taxon.SeedsPerGram is not null && other.Traits.MostSeedsPerSquareFoot > 0
            && (other.Traits.FromSeed is FromSeed.Easy or FromSeed.Slow);
        return sows ? planned.As : planned.As == PlantedAs.Seed ? null : PlantedAs.Plug;
    }

    /// <summary>Share of the bees recorded on the one that are not recorded on the other, 0–1.</summary>
    private static double LostBees(CatalogueTaxon one, CatalogueTaxon other, ForageIndex forage)
    {
        var bees = forage.RecordedOn(one.ScientificName).Where(v => v.IsBee).ToList();
        return bees.Count == 0 ? 0 : (double)bees.Except(forage.RecordedOn(other.ScientificName)).Count() / bees.Count;
    }

    private static double Distance(PlannedTaxon planned, ConversionCandidate other, ForageIndex forage)
    {
        var (a, b) = (planned.Taxon, other.Taxon);
        var bloom = Enumerable.Range(0, HalfMonth.Count).Count(t => Flowers(a, t) != Flowers(b, t));
        var metres = a.HeightMaxMetres is { } one && b.HeightMaxMetres is { } two ? Math.Abs(one - two) : 1;
        var lost = LostBees(a, b, forage);
        return bloom + (4 * metres) + (2 * Apart(a.Moisture, b.Moisture)) + (2 * Apart(a.Light, b.Light)) + (3 * lost)
            + (planned.As == FormOf(planned, other) ? 0 : 1);
    }

    private static List<string> Differences(PlannedTaxon planned, ConversionCandidate other, ForageIndex forage)
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

        var metres = other.Tallest - CandidateRules.Tall(a);
        When(metres is >= 0.1, $"{metres:0.0} m taller");
        When(metres is <= -0.1, $"{-metres:0.0} m lower");
        When(metres is null, "height of one of the two is not known");
        When(!a.Moisture.ToHashSet().SetEquals(b.Moisture), "grows in " + string.Join(" or ", b.Moisture.Select(LimitWords.Of)) + " soil");
        When(!a.Light.ToHashSet().SetEquals(b.Light), "grows in " + string.Join(" or ", b.Light.Select(LimitWords.Of)));
        var lost = LostBees(a, b, forage);
        When(lost >= 0.1, forage.BasisOf(b.ScientificName) != VisitorBasis.Recorded ? "its visitors are not recorded"
            : $"{lost:P0} of its recorded bees do not come to this one");
        When(planned.As != FormOf(planned, other), "planted as plugs only");
        When(ToxicityGrades.Gravest(b) is { } harm && !(ToxicityGrades.Gravest(a) <= harm), "may do harm: read its caution first");
        return words;
    }

    private static bool Flowers(CatalogueTaxon taxon, int t) => taxon.Bloom?.Contains(t) ?? false;

    /// <summary>Half-months the short way round the year.</summary>
    private static string Shift(int halfMonths)
    {
        var by = ((halfMonths + HalfMonth.Count + (HalfMonth.Count / 2)) % HalfMonth.Count) - (HalfMonth.Count / 2);
        var how = Math.Abs(by) switch
        {
            1 => "half a month",
            2 => "a month",
            var n when n % 2 == 0 => $"{n / 2} months",
            var n => $"{n / 2} and a half months"
        };
        return how + (by > 0 ? " later" : " earlier");
    }

    private static double Apart<T>(IReadOnlyList<T> one, IReadOnlyList<T> other)
    {
        var all = one.Union(other).Count();
        return all == 0 ? 0 : 1 - ((double)one.Intersect(other).Count() / all);
    }
}
