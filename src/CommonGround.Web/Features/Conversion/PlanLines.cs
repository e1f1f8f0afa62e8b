using CommonGround.Planning.Conversion;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Conversion;

/// <summary>The parts of a plan in a line each: what a phone shows of them until they are opened.</summary>
public static class PlanLines
{
    public static string TradeOffs(ConversionPlan plan) => plan.TradeOffs.Count == 0 ? "being worked out"
        : $"{PlanWords.Money(plan.TradeOffs[^1].Cost)} gets {plan.TradeOffs[^1].CoveredHalves} of "
            + $"{plan.Mix.Quality.SeasonHalves} half-months";

    public static string Feeds(ConversionMix mix) =>
        $"{Words.Count(mix.Visitors.Bees, "kind of bee", "kinds of bees")}, {mix.Visitors.Visitors} kinds of visitors in all";

    public static string Plants(ConversionMix mix) => $"{Words.Count(mix.Taxa.Count, "kind")}, {PlanWords.Money(mix.Cost)}";

    public static string Layout(ConversionMix mix)
    {
        var plugs = mix.Taxa.Sum(t => t.Plugs);
        var sown = mix.Taxa.Count(t => t.BulkGrams > 0);
        return string.Join(", ", new[] { plugs > 0 ? Words.Count(plugs, "plug") : "",
            sown > 0 ? Words.Count(sown, "kind sown", "kinds sown") : "" }.Where(s => s.Length > 0));
    }

    /// <summary>After ten years, middle figures.</summary>
    public static string Money(MoneyComparison money)
    {
        var more = money.PlantingByYear[^1].Mid - money.LawnByYear[^1].Mid;
        return $"{PlanWords.Money(Math.Abs(more))} {(more > 0 ? "more" : "less")} than lawn";
    }

    public static string Hours(WorkComparison work) =>
        $"{Words.Number(work.Years[0].Sum())} in the first year, {Words.Number(work.Years[^1].Sum())} later";

    public static string Water(WaterComparison? water, bool customary) => water is null ? "no weather to work it out from"
        : $"{PlanWords.Volume(water.PlantingLitres.Mid, customary)} a year; lawn {PlanWords.Volume(water.LawnLitres.Mid, customary)}";

    public static string Runoff(RunoffComparison runoff, bool customary) =>
        runoff is { YearBeforeLitres: { } before, YearAfterLitres: { } after }
            ? $"{PlanWords.Volume(after.Mid, customary)} a year; before {PlanWords.Volume(before.Mid, customary)}"
            : $"curve number {runoff.CurveAfter.Mid:0}; before {runoff.CurveBefore.Mid:0}";

    /// <summary>The first job: what the reader does next.</summary>
    public static string Calendar(IEnumerable<CalendarStep> steps) => steps.FirstOrDefault() is { } first
        ? $"starts in {PlanWords.Months(first)}" : "";
}
