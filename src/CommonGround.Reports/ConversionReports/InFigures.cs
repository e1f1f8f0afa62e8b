using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Money, water, rain that runs off and work in figures, each with its low, middle and high case.</summary>
internal static class InFigures
{
    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var half = (width - Columns.Gap) / 2;
        var curve = TradeOff(report, words, set, half);
        IReadOnlyList<Flow> hours = Hours(report, words, set, curve.Count > 0 ? half : width);
        return [.. Money(report, words, set, width), Columns.Lay(Water(report, words, set, half), half,
            Runoff(report, words, set, half)) with { SpaceBefore = 20 },
            .. curve.Count > 0 ? [Columns.Lay(hours, half, curve) with { SpaceBefore = 24 }] : hours];
    }

    private static IReadOnlyList<Flow> Money(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        if (report.NoPrices) return [];
        var money = report.Plan.Money;
        var years = money.PlantingByYear.Count - 1;
        return
        [
            Prose.H2(set, width, "Money, year by year"),
            Prose.Small(set, width, $"{words.Prices()}Spent so far on this ground, later years discounted to today’s money. "
                + Range(money, years), keepWithNext: true),
            Sums(money, words, years).Lay(set, width) with { SpaceBefore = 4 },
        ];
    }

    private static IReadOnlyList<Flow> Hours(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var work = report.Plan.Work;
        return
        [
            Prose.H2(set, width, "Hours by month"),
            Prose.Small(set, width, $"{words.In(string.Join(" ", work.Assumptions))} Mowing takes "
                + $"{PlanWording.Hours(work.LawnHoursYear.Low)} to {PlanWording.Hours(work.LawnHoursYear.High)} hours a year.",
                keepWithNext: true),
            Picture.Of(HoursChart.Draw(work, Picture.DesignWidth(width)), width),
        ];
    }

    private static IReadOnlyList<Flow> TradeOff(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var plan = report.Plan;
        if (report.NoPrices || plan.TradeOffs.Count < 2) return [];
        var stops = plan.TradeOffs.Select(t => new TradeOffChart.Stop(t.Cost, t.CoveredHalves, t.Support, t.Taxa)).ToList();
        var chosen = new TradeOffChart.Stop(plan.Mix.Cost, plan.Mix.Quality.CoveredHalves, plan.Mix.Quality.Support, plan.Mix.Taxa.Count);
        var sorted = plan.TradeOffs.OrderBy(t => t.Cost).ToList();
        return
        [
            Prose.H2(set, width, "What more or less money buys"),
            Prose.Small(set, width, $"{words.Prices()}Seed and plants only, for this planting alone. Open circles: the best mix at that "
                + "cost; filled: this plan.", keepWithNext: true),
            Picture.Of(TradeOffChart.Draw(stops, chosen, report.Currency, Picture.DesignWidth(width)), width),
            Prose.FineList(set, width, [.. sorted.Select((t, i) => new[]
            {
                new Run(words.Money(t.Cost) + ": ", Faces.Label.In(Ink.Black)),
                new Run($"{TradeOffWords.Gets(t)}. {(i == 0 ? "" : TradeOffWords.More(sorted[i - 1], t, report.Currency))}", Faces.Foot),
            })]),
            .. TradeOffWords.Chosen(plan.Mix, plan.TradeOffs, report.Currency) is { Length: > 0 } buys
                ? [Prose.Small(set, width, buys)] : Array.Empty<Flow>(),
        ];
    }

    private static string Range(MoneyComparison money, int years)
    {
        var best = money.BreakEvenEarliest is { } early ? $"In the best case the planting is cheaper from year {early}"
            : $"Even in the best case the planting is not cheaper within {years} years";
        var worst = money.BreakEvenLatest is { } late ? $"in the worst from year {late}." : $"in the worst not within {years} years.";
        return money.BreakEvenEarliest is null ? best + "." : $"{best}, {worst}";
    }

    private static Table Sums(MoneyComparison money, PlanWording words, int years) => new(
        [new("Spent so far", 20), new("Planting, and range", 32, Right: true), new("Without it, and range", 32, Right: true)],
        [.. new[] { 1, 3, 5, years }.Where(y => y <= years).Distinct().Select(y => new Row([
            Cell.Of(y == 1 ? "1 year" : $"{y} years"),
            Cell.Of(words.Money(money.PlantingByYear[y])),
            Cell.Of(words.Money(money.LawnByYear[y])),
        ]))], TableSpacing.Close);

    private static IReadOnlyList<Flow> Water(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        if (report.Plan.Water is not { } water)
        {
            var why = report.WaterProblems.Count > 0 ? string.Join(" ", report.WaterProblems) : "The group has entered no daily weather.";
            return [Prose.H2(set, width, "Water: not worked out"),
                Prose.Body(set, width, $"{why} With a year of temperatures and rain the plan’s page compares the watering of both.")];
        }

        var less = water.LawnLitres.Mid - water.PlantingLitres.Mid;
        var heading = less >= 0.05 * Math.Max(1, water.LawnLitres.Mid)
            ? $"Water: {words.Litres(less)} less {(report.Plan.Request.WatersLawn ? "a year" : "to look its best")}"
            : less <= -0.05 * Math.Max(1, water.LawnLitres.Mid) ? $"Water: {words.Litres(-less)} more a year" : "Water: about the same";
        return
        [
            Prose.H2(set, width, heading),
            Prose.Small(set,
                width, $"If both are watered to look their best, in a year like the last: {words.Depth(water.RainMillimetres)} of rain "
                    + $"against the {words.Depth(water.ReferenceMillimetres)} that short grass would use. The planting is taken as grown "
                    + $"in; plugs need water in their first two summers.", keepWithNext: true),
            Picture.Of(WaterChart.Draw(water, words.Water, Picture.DesignWidth(width)), width),
        ];
    }

    private static IReadOnlyList<Flow> Runoff(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var runoff = report.Plan.Runoff;
        var storms = runoff.Storms;
        var heading = storms.All(s => s.AfterMillimetres.Mid < s.BeforeMillimetres.Mid || s.BeforeMillimetres.Mid < 0.05)
            && storms.Any(s => s.AfterMillimetres.Mid < s.BeforeMillimetres.Mid)
            ? Heading(storms) : storms.All(s => Math.Abs(s.AfterMillimetres.Mid - s.BeforeMillimetres.Mid) < 0.05) ? "Runoff: no change"
            : "Runoff: before and after";
        var year = runoff is { YearBeforeLitres: { } before, YearAfterLitres: { } after }
            ? $" Over the last year of rain: {words.Litres(before)} before, {words.Litres(after)} after."
            : " No year’s sum: the group has too few days of rain.";
        return
        [
            Prose.H2(set, width, heading),
            Prose.Small(set,
                width, $"Water leaving {words.Area(report.Plan.Request.SquareMetres)}: hatched before, solid after, bars on their range. "
                    + $"Curve number {Curve(runoff.CurveBefore)} before, {Curve(runoff.CurveAfter)} after.{year}", keepWithNext: true),
            Picture.Of(RunoffChart.Draw(runoff, report.Plan.Request.SquareMetres, words.Water, words.Customary,
                Picture.DesignWidth(width)), width),
        ];
    }

    private static string Heading(IReadOnlyList<StormRunoff> storms) =>
        storms.All(s => s.BeforeMillimetres.Mid >= 0.05) ? "Runoff: less in every rain" : "Runoff: less in heavy rain";

    private static string Curve(Spread curve) => curve.Low == curve.High ? $"{curve.Mid:0}"
        : $"{curve.Mid:0} ({curve.Low:0}–{curve.High:0})";
}
