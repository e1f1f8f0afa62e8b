using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>A planting's history in words and as a chart: one line a year, a mark a visit.</summary>
public static class PlantingStory
{
    /// <summary>What a visit found.</summary>
    public static VisitMark MarkOf(Finding finding, double coverSquareMetres, int? stage) => (finding, stage) switch
    {
        (Finding.NotFound, _) => VisitMark.NotFound,
        (not Finding.Growing, _) => VisitMark.Gone,
        _ when coverSquareMetres == 0 => VisitMark.Gone,
        (_, null) => VisitMark.Seen,
        (_, 5) => VisitMark.Bud,
        (_, < 5) => VisitMark.Leaves,
        (_, GrowthStage.Flowering) => VisitMark.Flower,
        (_, 7) => VisitMark.Fruit,
        (_, 8) => VisitMark.Ripe,
        _ => VisitMark.Fading,
    };

    public static Visit VisitOf(Sighting s)
    {
        ArgumentNullException.ThrowIfNull(s);
        return new(s.ObservedOn, MarkOf(s.Finding, s.CoverSquareMetres, s.GrowthStage), s.Certainty == Certainty.Tentative);
    }

    /// <summary>"New England aster: certain since 2023, and a third wider".</summary>
    public static string Headline(PlantingView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        var oldest = view.Sightings.Reverse().ToList();
        var name = view.Taxon.DisplayName + (view.Patch.Length > 0 ? $", {Plants.PlantWords.Patch(view.Patch)}" : "");
        var last = oldest.FindLast(s => s.Finding != Finding.NotFound);
        if (last is null or { CoverSquareMetres: 0 })
        {
            return $"{name}: {(last is null ? "not found yet" : Plants.PlantWords.Of(last.Finding == Finding.Growing ? Finding.Ended : last.Finding))}";
        }

        var since = oldest.Skip(oldest.FindLastIndex(s => s.Certainty != last.Certainty) + 1).First().ObservedOn.Year;
        var sure = $"{Plants.PlantWords.Of(last.Certainty)} since {since}";
        return $"{name}: {sure}{Wider(oldest.Where(s => s.CoverSquareMetres > 0).Select(s => s.CoverSquareMetres).ToList())}";
    }

    /// <summary>"Ten visits in six years. First seen in flower on August 12, when the usual window is from August 16."</summary>
    public static string Lead(PlantingView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        var years = view.Sightings.Select(s => s.ObservedOn.Year).Distinct().Count();
        var visits = view.Sightings.Count == 1 ? "One visit"
            : $"{Words.Spelled(view.Sightings.Count)} visits in "
            + $"{(years == 1 ? "one year" : Words.Spelled(years).ToLowerInvariant() + " years")}";
        return $"{visits}. {Bloom(view)}";
    }

    /// <summary>One line a year, cover of its last look at the end.</summary>
    public static IReadOnlyList<VisitYear> Years(PlantingView view, Units units)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(units);
        var widest = view.Sightings.Max(s => s.CoverSquareMetres);
        var looks = view.Sightings.ToLookup(s => s.ObservedOn.Year);
        var (from, to) = (view.Sightings.Min(s => s.ObservedOn.Year), view.Sightings.Max(s => s.ObservedOn.Year));
        return [.. Enumerable.Range(from, to - from + 1).Select(year =>
        {
            var g = looks[year];
            var cover = g.OrderBy(s => s.ObservedOn).LastOrDefault(s => s.CoverSquareMetres > 0)?.CoverSquareMetres ?? 0;
            return new VisitYear(year, [.. g.Select(VisitOf)], cover > 0 ? units.AreaWords(cover) : "", widest > 0 ? cover / widest : 0);
        })];
    }

    private static string Bloom(PlantingView view)
    {
        var usual = view.Taxon.UsualBloom ?? view.Taxon.Bloom;
        var flowers = view.Sightings.Where(s => s.CoverSquareMetres > 0 && s.GrowthStage == GrowthStage.Flowering).Select(s => s.ObservedOn)
            .ToList();
        if (flowers.Count == 0)
        {
            return usual is { } w ? $"Nobody has noted it in flower; usual bloom is {HalfMonthWords.Run(w.Start, w.End)}."
                : "Nobody has noted it in flower.";
        }

        // By the calendar, whatever the year; of the same day the oldest.
        var (first, last) = (flowers.MinBy(d => (d.Month, d.Day, d.Year)), flowers.MaxBy(d => (d.Month, d.Day, -d.Year)));
        var seen = first == last ? $"Seen in flower on {Words.Date(first)}"
            : $"Seen in flower from {Words.DayMonth(first)} ({first.Year}) to {Words.DayMonth(last)} ({last.Year})";
        return usual is { } u ? $"{seen}; usual bloom is {HalfMonthWords.Run(u.Start, u.End)}." : seen + ".";
    }

    private static string Wider(List<double> covers)
    {
        if (covers.Count < 2)
        {
            return "";
        }

        return (covers[^1] / covers[0]) switch
        {
            >= 1.9 => $", and {Math.Round(covers[^1] / covers[0]):0} times as wide",
            >= 1.25 => $", and {Math.Round(100 * ((covers[^1] / covers[0]) - 1)):0} % wider",
            <= 0.8 => $", and {Math.Round(100 * (1 - (covers[^1] / covers[0]))):0} % smaller",
            _ => "",
        };
    }
}
