using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Yards;

/// <summary>One measure as it is read: value, unit, range and what it rests on.</summary>
public sealed record MeasureLine(string Name, string Value, string Unit, Chart? Band, string Range, string RestsOn);

/// <summary>A yard's measures with the range that tentative names allow: from without them to with them.</summary>
public static class YardMeasures
{
    public static IReadOnlyList<MeasureLine> Lines(YardView view, Units units)
    {
        var site = view.Measures;
        var season = view.Season;
        var (halves, lateHalves) = (season.Last - season.First + 1, season.Last - season.LateFrom + 1);
        var plantings = view.Beds.SelectMany(b => b.Plantings).ToList();
        var tentative = plantings.Where(p => p.Certainty == Certainty.Tentative).ToList();
        var native = plantings.GroupBy(p => p.Taxon).Where(g => g.Key.Nativity == Nativity.Native).ToList();
        var certainNative = native.Count(g => g.Any(p => p.Certainty != Certainty.Tentative));
        var half = HalfMonth.Of(view.History[^1].AsOf);
        int Covered(BloomCoverage bloom, int from) => Enumerable.Range(from, season.Last - from + 1)
            .Count(t => bloom.HalfMonths[t].N >= season.Norm);
        var (all, sure) = (site.Bloom, site.BloomWithoutTentative);
        return
        [
            Count("Native kinds", site.NativeRichness, certainNative, Math.Max(30, site.NativeRichness * 1.3), "", tentative.Count == 0
                ? "no tentative names"
                : $"{Words.Count(tentative.Count, "tentative name")}: "
                + $"{string.Join(", ", tentative.Select(t => t.Taxon.DisplayName).Distinct().Take(3))}"),
            Count("Kinds in all", site.Richness, site.Richness - site.OnOldSightings, Math.Max(30, site.Richness * 1.3), "",
                site.OnOldSightings == 0 ? "all confirmed in the last two seasons"
                    : $"{Words.Count(site.OnOldSightings, "taxon", "taxa")} not seen since before the last whole season"),
            Count("Season covered", Covered(all, season.First), Covered(sure, season.First),
                halves, $"of {halves}", $"half-months, {HalfMonthWords.Run(season.First, season.Last)}, with {season.Norm} native species "
                    + $"in flower"),
            Count("Late season covered", Covered(all, season.LateFrom), Covered(sure, season.LateFrom), lateHalves, $"of {lateHalves}",
                HalfMonthWords.Run(season.LateFrom, season.Last)),
            Figure("Flowering cover now", units.Area(all.HalfMonths[half].AreaSquareMetres),
                units.Area(sure.HalfMonths[half].AreaSquareMetres), units.AreaUnit, "cover is judged by eye"),
            Plain("Shannon H′", site.Shannon, "0.00", "", site.InverseSimpson is { } d
                ? $"inverse Simpson {d:0.0}: as diverse as that many taxa of equal cover" : "nothing recorded"),
            Plain("Evenness", site.Evenness, "0.00", "", "1 when all taxa cover alike"),
            Plain("Fidelity of the natives to old habitats", site.NativeMeanC, "0.0", "of 10", Fidelity(site)),
            Plain("Invasive pressure", site.InvasivePressureSquareMetres, "0.0", "m²-eq.",
                "from infestations round about, nearer ones more; the weights are our own convention"),
        ];
    }

    /// <summary>The floristic figures in one sentence: the scale, what introduced plants take from it, and the size of the list.</summary>
    private static string Fidelity(SiteMeasures site) => site.NativeMeanC is null ? "nothing native with a value is recorded"
        : "mean coefficient of conservatism: 0 grows anywhere, 10 only in old, undisturbed places"
        + (site.AdjustedFqi is { } adjusted ? $"; {adjusted:0} of 100 once introduced plants count against it" : "")
        + (site.NativeFqi is { } size ? $"; times the root of the number of species it is {size:0.0}, to compare yards of like size" : "")
        + (site.WithoutC > 0 ? $"; {Words.Count(site.WithoutC, "taxon", "taxa")} without a value left out" : "");

    private static MeasureLine Count(string name, int value, int low, double scale, string unit, string restsOn) => new(
        name, $"{value}", unit, SmallCharts.Range(value, low, value, scale, ""), low == value ? "" : $"{low}–{value}", restsOn);

    private static MeasureLine Figure(string name, double value, double low, string unit, string restsOn) => new(
        name, value.ToString("0.0"), unit, SmallCharts.Range(value, low, value, Math.Max(value * 1.25, 1), " " + unit), low < value
            ? $"{low:0.0}–{value:0.0}" : "", restsOn);

    private static MeasureLine Plain(string name, double? value, string format, string unit, string restsOn) => new(
        name, Words.Number(value, format), value is null ? "" : unit, null, "", restsOn);
}
