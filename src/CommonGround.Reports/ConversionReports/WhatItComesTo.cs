using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Money, water and runoff, each with its low, middle and high case.</summary>
internal static class WhatItComesTo
{
    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var half = (width - Columns.Gap) / 2;
        return [.. Money(report, words, set, width), Columns.Lay(Water(report, words, set, half), half,
            Runoff(report, words, set, half)) with { SpaceBefore = 20 }];
    }

    private static IReadOnlyList<Flow> Money(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        if (report.NoPrices)
        {
            return [Prose.Section(set, width, "Money: not worked out"),
                Prose.Body(set, width,
                    "The group has entered no prices. Once it has, the plan’s page compares ten years of planting with ten years of what "
                        + "stands there now.")];
        }

        var money = report.Plan.Money;
        var years = money.PlantingByYear.Count - 1;
        var half = (width - Columns.Gap) * 0.4;
        return
        [
            Prose.Section(set, width, new PlanAnswer(report, words).MoneyHeading()),
            Prose.Small(set,
                width, $"{words.Prices()}Spent so far on this ground, later years discounted to today’s money. Solid line and grey band: "
                    + $"the planting, middle and range; dashed line and hatching: the {words.Ground()}. {Range(money, years)}",
                    keepWithNext: true),
            Picture.Of(MoneyChart.Draw(money, report.Currency, Picture.DesignWidth(width)), width),
            Columns.Lay([Start(report, words).Lay(set, half)], half,
                [Sums(money, words, years).Lay(set, width - half - Columns.Gap)]) with { SpaceBefore = 6 },
        ];
    }

    private static string Range(MoneyComparison money, int years)
    {
        var best = money.BreakEvenEarliest is { } early ? $"In the best case the planting is cheaper from year {early}"
            : $"Even in the best case the planting is not cheaper within {years} years";
        var worst = money.BreakEvenLatest is { } late ? $"in the worst from year {late}." : $"in the worst not within {years} years.";
        return money.BreakEvenEarliest is null ? best + "." : $"{best}, {worst}";
    }

    private static Table Start(ConversionReport report, PlanWording words)
    {
        var start = report.Plan.Money.Establishment;
        return new Table([new("To start", 26), new("About", 12, Right: true)],
        [
            new Row([Cell.Of("Seed and plants"), Cell.Of(words.Money(report.Plan.Mix.Cost))]),
            new Row([Cell.Of("Ground and all else"), Cell.Of(words.Money(start.Mid - report.Plan.Mix.Cost))]),
            new Row([Cell.Of("Together", Faces.DataStrong), Cell.Of(words.Money(start.Mid), Faces.DataStrong)]),
            new Row([Cell.Of("Likely between"), Cell.Of($"{words.Money(start.Low)}–{words.Money(start.High)}")]),
        ], TableSpacing.Close);
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
