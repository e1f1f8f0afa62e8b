namespace CommonGround.Ecology.Phenology;

/// <summary>One taxon of a site, as bloom coverage sees it.</summary>
/// <param name="Native">Only native taxa count.</param>
/// <param name="Window">When it flowers, or <c>null</c> for grasses, sedges and where no source was found: it then counts nowhere.</param>
/// <param name="PollinatorValue">0–1, or <c>null</c> when unknown: it then adds nothing to the support.</param>
/// <param name="CoverSquareMetres">Cover, m², above 0.</param>
public readonly record struct FloweringTaxon(bool Native, BloomWindow? Window, double? PollinatorValue, double CoverSquareMetres);

/// <summary>What flowers in one half-month.</summary>
/// <param name="N">Native taxa in flower.</param>
/// <param name="AreaSquareMetres">Cover of those taxa, m².</param>
/// <param name="Support">Σ cover·pollinator value over those taxa, m²; a taxon without a value adds nothing.</param>
public readonly record struct BloomHalfMonth(int N, double AreaSquareMetres, double Support);

/// <summary>A stretch of the season without enough in flower: a maximal run of uncovered half-months, both ends included.</summary>
/// <param name="From">First half-month, 0–23.</param>
/// <param name="To">Last half-month, 0–23, at or after <paramref name="From"/>.</param>
public readonly record struct BloomGap(int From, int To);

/// <summary>What native plants are in flower at a site through the year, and when too few are.</summary>
/// <param name="HalfMonths">24 entries, index 0 is January 1–15.</param>
/// <param name="CoveredShare">Half-months of the season with at least the norm of taxa in flower, as a share of the season's half-months,
/// 0–1; 0 for an empty site.</param>
/// <param name="LateSeasonCoveredShare">The same for the late season, 0–1; 0 for an empty site.</param>
/// <param name="Gaps">Maximal runs of uncovered half-months within the season, earliest first; the whole season for an empty site.</param>
/// <param name="TaxaWithoutPollinatorValue">Native taxa with a bloom window whose pollinator value is not known: they add nothing to any
/// support.</param>
/// <remarks>Our own measure; the norm of three taxa in flower follows US pollinator planting practice. See
/// docs/measures.md#bloom-coverage.</remarks>
public sealed record BloomCoverage(
    IReadOnlyList<BloomHalfMonth> HalfMonths,
    double CoveredShare,
    double LateSeasonCoveredShare,
    IReadOnlyList<BloomGap> Gaps,
    int TaxaWithoutPollinatorValue)
{
    /// <summary>Bloom coverage of a site's list of taxa.</summary>
    /// <param name="taxa">One entry per taxon present, order irrelevant.</param>
    /// <param name="season">The half-months that count and the norm.</param>
    /// <returns>n(t), area(t) and support(t) for all 24 half-months; shares and gaps within the season.</returns>
    /// <remarks>
    /// n(t) = native taxa whose window holds t; area(t) = Σ aᵢ, support(t) = Σ aᵢ·vᵢ over them. Covered: n(t) ≥ norm.
    /// See docs/measures.md#bloom-coverage.
    /// </remarks>
    public static BloomCoverage Of(IEnumerable<FloweringTaxon> taxa, Season season)
    {
        ArgumentNullException.ThrowIfNull(taxa);
        RequireSeason(season);
        var halfMonths = new BloomHalfMonth[HalfMonth.Count];
        var unknown = 0;
        foreach (var taxon in taxa)
        {
            if (!double.IsFinite(taxon.CoverSquareMetres) || taxon.CoverSquareMetres <= 0)
            {
                throw new ArgumentOutOfRangeException(nameof(taxa), taxon.CoverSquareMetres, "Cover of a taxon present is above 0 m².");
            }

            if (!taxon.Native || taxon.Window is not { } window)
            {
                continue;
            }

            unknown += taxon.PollinatorValue is null ? 1 : 0;
            for (var t = 0; t < HalfMonth.Count; t++)
            {
                if (window.Contains(t))
                {
                    var h = halfMonths[t];
                    halfMonths[t] = new(h.N + 1, h.AreaSquareMetres + taxon.CoverSquareMetres,
                        h.Support + (taxon.CoverSquareMetres * (taxon.PollinatorValue ?? 0)));
                }
            }
        }

        return FromHalfMonths(halfMonths, season, unknown);
    }

    /// <summary>Covered half-months of a season.</summary>
    /// <returns>0 to the season's length.</returns>
    public int Covered(Season season)
    {
        RequireSeason(season);
        return Enumerable.Range(season.First, season.Last - season.First + 1).Count(t => HalfMonths[t].N >= season.Norm);
    }

    internal static BloomCoverage FromHalfMonths(BloomHalfMonth[] halfMonths, Season season, int unknown) => new(
        halfMonths,
        CoveredBetween(halfMonths, season.First, season.Last, season.Norm),
        CoveredBetween(halfMonths, season.LateFrom, season.Last, season.Norm),
        FindGaps(halfMonths, season),
        unknown);

    internal static void RequireSeason(Season season)
    {
        ArgumentNullException.ThrowIfNull(season);
        if (season.First < 0 || season.Last >= HalfMonth.Count || season.First > season.LateFrom || season.LateFrom > season.Last
            || season.Norm < 1)
        {
            throw new ArgumentException("A season runs from First to LateFrom to Last within 0 to 23, with a norm of at least one taxon.",
                nameof(season));
        }
    }

    private static double CoveredBetween(BloomHalfMonth[] halfMonths, int from, int to, int norm)
    {
        var covered = 0;
        for (var t = from; t <= to; t++)
        {
            covered += halfMonths[t].N >= norm ? 1 : 0;
        }

        return (double)covered / (to - from + 1);
    }

    private static BloomGap[] FindGaps(BloomHalfMonth[] halfMonths, Season season)
    {
        Span<BloomGap> found = stackalloc BloomGap[HalfMonth.Count];
        var count = 0;
        for (var t = season.First; t <= season.Last; t++)
        {
            if (halfMonths[t].N >= season.Norm)
            {
                continue;
            }

            if (count > 0 && found[count - 1].To == t - 1)
            {
                found[count - 1] = found[count - 1] with { To = t };
            }
            else
            {
                found[count++] = new(t, t);
            }
        }

        return found[..count].ToArray();
    }
}
