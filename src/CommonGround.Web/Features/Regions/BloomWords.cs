using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Regions;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Regions;

/// <summary>What dates of bloom rest on, in one sentence: the catalogue's dates moved to the place, the group's own records, this year's
/// warmth.</summary>
public static class BloomWords
{
    /// <summary>Of the neighbourhood's dates as a whole; every page and report that shows one says it.</summary>
    public static string Sentence(CurrentNeighbourhood neighbourhood, BloomDates dates)
    {
        ArgumentNullException.ThrowIfNull(neighbourhood);
        ArgumentNullException.ThrowIfNull(dates);
        var usual = Usual(neighbourhood);
        var own = !dates.UsesOwn ? $"Dates of bloom are {usual}, not this neighbourhood’s own records"
            : dates.OwnTaxa == 0 ? $"Dates of bloom are {usual}, because there are too few of this neighbourhood’s own records"
            : $"For {Words.Count(dates.OwnTaxa, "plant")} dates of bloom rest on this neighbourhood’s own records of {Years(dates)}; for "
            + $"all others they are {usual}";
        return $"{own}; {Warmth(dates)}.";
    }

    /// <summary>Of one plant's dates.</summary>
    public static string Of(CatalogueTaxon taxon, CurrentNeighbourhood neighbourhood, BloomDates dates)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        ArgumentNullException.ThrowIfNull(dates);
        var basis = taxon.BloomBasis switch
        {
            BloomBasis.SetByGroup => "The group has set these dates itself.",
            BloomBasis.OwnRecords => $"These dates rest on this neighbourhood’s own records in "
                + $"{Words.Count(taxon.OwnBloom!.Yards, "yard")}, {Span(taxon.OwnBloom.FirstYear, taxon.OwnBloom.LastYear)}, drawn "
                + $"towards the usual ones ({Window(taxon.UsualBloom)}).",
            _ => $"These dates are {Usual(neighbourhood)}.",
        };
        return taxon.BloomBasis == BloomBasis.SetByGroup ? basis
            : $"{basis} {(taxon.WarmthDays is { } days ? $"The warmth of {dates.Year} moves them {RegionWords.Days(days)}{(days == 0 ? ", so not at all" : "")}." : "This year’s warmth is not known and moves nothing.")}";
    }

    /// <summary>"2021–2026", or one year.</summary>
    public static string Span(int from, int to) => from == to ? $"{from}" : $"{from}–{to}";

    private static string Usual(CurrentNeighbourhood neighbourhood) =>
        neighbourhood.Locality is not { } place ? "the usual ones of northern Illinois"
        : SpringShift.HalfMonths(place.SpringDays) == 0
        ? $"the usual ones of northern Illinois, which hold for {RegionWords.Place(neighbourhood)} as they are"
        : $"the usual ones of northern Illinois moved to {RegionWords.Place(neighbourhood)} ({RegionWords.Days(place.SpringDays)} in "
        + $"spring)";

    private static string Warmth(BloomDates dates) => dates switch
    {
        { WarmthDays: { } days } => $"the warmth of {dates.Year} moves them, {RegionWords.Days(days)} by now",
        { HasUsual: true } => $"the warmth of {dates.Year} is not given, so it moves nothing",
        _ => "this year’s warmth is not used, because the usual temperatures here are not given",
    };

    private static string Years(BloomDates dates) => Span(dates.OwnFrom, dates.OwnTo);

    private static string Window(BloomWindow? window) => window is { } w ? HalfMonthWords.RunShort(w.Start, w.End) : "not known";
}
