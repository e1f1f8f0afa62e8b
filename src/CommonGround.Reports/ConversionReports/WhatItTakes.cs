using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Money, hours, water and what the neighbours will see, each so that it can be counted on the page.</summary>
internal static class WhatItTakes
{
    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var half = (width - Columns.Gap) / 2;
        return
        [
            .. report.NoPrices ? NoMoney(set, width) : Money(report, words, set, width),
            .. Hours(report, words, set, width),
            Columns.Lay(Water(report, words, set, half), half, Storm(report, words, set, half)) with { SpaceBefore = 20 },
            .. Neighbours(report, words, set, width),
        ];
    }

    private static IReadOnlyList<Flow> NoMoney(Typesetter set, double width) =>
    [
        Prose.Section(set, width, "Money: not worked out"),
        Prose.Body(set, width,
            "The group has entered no prices. Once it has, the plan’s page compares ten years of planting with ten years of what stands "
                + "there now."),
    ];

    private static IReadOnlyList<Flow> Money(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var money = report.Plan.Money;
        var years = money.PlantingByYear.Count - 1;
        var (planting, now) = (money.PlantingByYear[^1], money.LawnByYear[^1]);
        var left = (width - Columns.Gap) * 0.54;
        var right = width - left - Columns.Gap;
        var month = Math.Abs(planting.Mid - now.Mid) / (12 * Math.Max(1, years));
        string Than(double more) => $"{words.Money(Math.Abs(more))} {(more >= 0 ? "more" : "less")}";
        return
        [
            Prose.Section(set, width, new PlanAnswer(report, words).MoneyHeading()),
            Prose.Lead(set, width, $"That is about {words.Small(month)} a month{(planting.Mid >= now.Mid ? "" : " saved")}. "
                + (money.BreakEvenYear is { } even ? $"From year {even} on it has cost less." : "Most of it is spent at the start.")),
            Columns.Lay([Picture.Of(NotesChart.Draw(money, words.Ground(), report.Currency, Picture.DesignWidth(left)), left)], left,
            [
                Prose.H3(set, right, "How sure is that?"),
                Prose.Body(set, right, $"If all goes well, it costs {Than(planting.Low - now.High)} than keeping the {words.Ground()}; if "
                    + $"much fails, {Than(planting.High - now.Low)}. Your own time is counted as free unless the group says otherwise."),
                Start(report, words).Lay(set, right) with { SpaceBefore = 6 },
                Prose.Small(set, right, $"{words.Prices()}Later years in today’s money."),
            ]) with { SpaceBefore = 8 },
        ];
    }

    private static Table Start(ConversionReport report, PlanWording words)
    {
        var money = report.Plan.Money;
        var start = money.Establishment;
        var years = money.PlantingByYear.Count - 1;
        double Later(IReadOnlyList<Spread> sums) => (sums[^1].Mid - sums[Math.Min(2, years)].Mid) / Math.Max(1, years - Math.Min(2, years));
        return new Table([new("What is paid", 34), new("About", 14, Right: true)],
        [
            new Row([Cell.Of("Seed and plants"), Cell.Of(words.Money(report.Plan.Mix.Cost))]),
            new Row([Cell.Of("Ground and all else"), Cell.Of(words.Money(start.Mid - report.Plan.Mix.Cost))]),
            new Row([Cell.Of("Together, to start", Faces.DataStrong), Cell.Of(words.Money(start.Mid), Faces.DataStrong)]),
            new Row([Cell.Of("likely between"), Cell.Of($"{words.Money(start.Low)}–{words.Money(start.High)}")]),
            new Row([Cell.Of("Upkeep, a later year"), Cell.Of(words.Money(Later(money.PlantingByYear)))]),
            new Row([Cell.Of($"Keeping the {words.Ground()}, a year"), Cell.Of(words.Money(Later(money.LawnByYear)))]),
        ], TableSpacing.Close);
    }

    private static IReadOnlyList<Flow> Hours(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var work = report.Plan.Work;
        return
        [
            Prose.H2(set, width, "Your time"),
            Prose.Small(set, width, "A guess from common practice: clearing, planting, weeding and cutting by hand. It may be half as much "
                + $"again; the first two years vary most. Mowing the same ground also burns {words.Fuel(work.FuelLitresYear)} of petrol a "
                + "year.", keepWithNext: true),
            Picture.Of(ClockChart.Draw(work, words.Ground(), Picture.DesignWidth(width)), width) with { SpaceBefore = 6 },
        ];
    }

    private static IReadOnlyList<Flow> Water(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        if (report.Plan.Water is not { } water)
        {
            var why = report.WaterProblems.Count > 0 ? string.Join(" ", report.WaterProblems) : "The group has entered no daily weather.";
            return [Prose.H2(set, width, "Watering: not worked out"),
                Prose.Body(set, width, $"{why} With a year of temperatures and rain the plan’s page compares the watering of both.")];
        }

        return
        [
            Prose.H2(set, width, "Watering, a summer"),
            Prose.Small(set, width, "If both are kept at their best. Plugs need water in their first two summers; after that rain does it "
                + "in most years.", keepWithNext: true),
            Picture.Of(BarsChart.Draw("Watering in a year",
            [
                new("lawn kept green", water.LawnLitres.Mid, words.Litres(water.LawnLitres.Mid), true),
                new("planting, rooted", water.PlantingLitres.Mid, words.Litres(water.PlantingLitres.Mid), false),
            ], Picture.DesignWidth(width)), width),
            Prose.Small(set, width, $"Likely {words.Litres(water.LawnLitres).Split('(')[1].Replace(")", "", StringComparison.Ordinal)} and "
                + $"{words.Litres(water.PlantingLitres).Split('(')[1].Replace(")", "", StringComparison.Ordinal)}."),
        ];
    }

    private static IReadOnlyList<Flow> Storm(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        if (new PlanAnswer(report, words).Storm() is not { } storm)
        {
            return [Prose.H2(set, width, "Rain that runs off: not worked out")];
        }

        double Litres(double millimetres) => millimetres * report.Plan.Request.SquareMetres;
        var (before, after) = (Litres(storm.BeforeMillimetres.Mid), Litres(storm.AfterMillimetres.Mid));
        return
        [
            Prose.H2(set, width, $"A heavy rain, {words.Depth(storm.RainMillimetres)}"),
            Prose.Small(set, width, "Water that runs off this ground into the street. The difference is surer than either figure.",
                keepWithNext: true),
            Picture.Of(BarsChart.Draw($"Running off in {words.Depth(storm.RainMillimetres)} of rain",
            [
                new($"{words.Ground()} now", before, words.Litres(before), true),
                new("planting, grown in", after, words.Litres(after), false),
            ], Picture.DesignWidth(width)), width),
            Prose.Small(set, width, $"Likely {words.Litres(Litres(storm.BeforeMillimetres.Low))} to "
                + $"{words.Litres(Litres(storm.BeforeMillimetres.High))}, and {words.Litres(Litres(storm.AfterMillimetres.Low))} to "
                + $"{words.Litres(Litres(storm.AfterMillimetres.High))}."),
        ];
    }

    private static IReadOnlyList<Flow> Neighbours(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var mix = report.Plan.Mix;
        var tallest = mix.Taxa.Where(t => t.Grown.HeightMaxMetres is not null).MaxBy(t => t.Grown.HeightMaxMetres);
        List<string> seen = [];
        if (tallest is not null)
        {
            var names = mix.Taxa.Where(t => t.Grown.HeightMaxMetres == tallest.Grown.HeightMaxMetres).Select(t => t.Taxon.DisplayName)
                .ToList();
            seen.Add($"The tallest, {Wording.Listed(names)}, may reach {words.Height(tallest.Grown.HeightMaxMetres!.Value)}"
                + (report.WalkHeightMetres is { } kerb ? $"; beside the walk the plants stand about {words.Height(kerb)} high." : "."));
        }

        seen.Add($"A mown strip {(words.Customary ? "12 to 20 in" : "30 to 50 cm")} wide runs all round: it shows that this is meant, and "
            + "keeps stems off the walk.");
        seen.Add("A small sign says what it is and whom to ask. The first summer is mostly green and looks like weeds; flowers come from "
            + "the second year on, and dry stems stand through the winter.");
        return [Prose.H2(set, width, "What the neighbours will see"), Prose.List(set, width,
            [.. seen.Select(s => new[] { new Run(s, Faces.Body) })])];
    }
}
