using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Sites;

/// <summary>How long a plant that nobody saw again is still taken to grow where it was seen. Common practice, not a measurement; a group
/// sets it.</summary>
/// <param name="AnnualSeasons">Whole seasons without a sighting after which an annual or biennial no longer counts, 1 or more.</param>
/// <param name="PerennialSeasons">The same for perennials, shrubs and trees, and for plants whose duration nobody knows.</param>
/// <remarks>
/// A season is missed when it began after the last sighting and ended before the day asked about. A sighting is old once one season is
/// missed. See docs/measures.md#presence.
/// </remarks>
public sealed record PresenceRule(int AnnualSeasons, int PerennialSeasons)
{
    /// <summary>Two seasons for annuals and biennials, four for all others.</summary>
    public static PresenceRule Default { get; } = new(2, 4);

    /// <summary>After this many missed seasons the taxon no longer counts.</summary>
    /// <param name="taxon">Its duration decides; one that may be perennial counts as perennial.</param>
    public int SeasonsOf(CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        return IsShortLived(taxon) ? AnnualSeasons : PerennialSeasons;
    }

    /// <summary>The first day of the sightings that still count as of a day; all earlier ones have missed as many seasons as the rule
    /// allows.</summary>
    /// <param name="taxon">The taxon.</param>
    /// <param name="asOf">The day asked about.</param>
    /// <param name="season">The season, its two ends included.</param>
    public DateOnly CountsFrom(CatalogueTaxon taxon, DateOnly asOf, Season season) => SeenSince(SeasonsOf(taxon), asOf, season);

    /// <summary>The first day of the sightings that have missed fewer than <paramref name="seasons"/> whole seasons as of a day.</summary>
    /// <param name="seasons">1 or more; with 1, everything earlier is an old sighting.</param>
    /// <param name="asOf">The day asked about.</param>
    /// <param name="season">The season, its two ends included.</param>
    /// <returns>The first day of that season, or the first day of the calendar where the count reaches further back.</returns>
    public static DateOnly SeenSince(int seasons, DateOnly asOf, Season season)
    {
        ArgumentNullException.ThrowIfNull(season);
        ArgumentOutOfRangeException.ThrowIfLessThan(seasons, 1);
        var lastEnded = asOf > HalfMonth.LastDay(season.Last, asOf.Year) ? asOf.Year : asOf.Year - 1;
        var year = lastEnded - seasons + 1;
        return year < 1 ? DateOnly.MinValue : HalfMonth.FirstDay(season.First, year);
    }

    private static bool IsShortLived(CatalogueTaxon taxon) =>
        taxon.Duration.Length > 0 && !taxon.Duration.Contains("perennial", StringComparison.OrdinalIgnoreCase)
        && taxon.LifeForm is not (LifeForm.Shrub or LifeForm.Tree);
}
