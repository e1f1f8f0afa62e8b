using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>The sheet to take along: where it goes, what to buy, and where to get it.</summary>
internal static class TearOff
{
    private static readonly TableSpacing[] s_spacings = [TableSpacing.Open, TableSpacing.Close, new(10, 0.35)];

    /// <summary>On one page where that can be: rows stand as wide apart as it allows.</summary>
    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, Sheet sheet)
    {
        IReadOnlyList<Flow> Spaced(TableSpacing spacing) => Laid(report, words, set, sheet, spacing);
        var tried = s_spacings.Select(Spaced).ToList();
        return tried.Find(f => Tall(f) - f[0].SpaceBefore <= sheet.TextHeight) ?? tried[1];
    }

    private static IReadOnlyList<Flow> Laid(ConversionReport report, PlanWording words, Typesetter set, Sheet sheet, TableSpacing spacing)
    {
        var width = sheet.TextWidth;
        var list = List(report, words, set, width, spacing);
        IReadOnlyList<Flow> plan = [.. SettingOut.Plugs(report, words, set, width)];
        if (DriftPlan.Of(report.Plan.Request, report.Plan.Mix).Count == 0)
        {
            // Ground from above beside the words; it takes what the list leaves of the page.
            var half = (width - Columns.Gap) * 0.56;
            var rest = width - half - Columns.Gap;
            IReadOnlyList<Flow> beside = [.. SettingOut.Plugs(report, words, set, rest), .. SettingOut.Sown(report, words, set, rest)];
            var room = Math.Clamp(sheet.TextHeight - Tall(list) - 36, 120, 210);
            var drawn = Picture.Of(Cover.Sketched(report, half, room / Picture.Scale), half);
            plan = [Columns.Lay([drawn], half, beside) with { SpaceBefore = 6 }];
        }

        return [Prose.Section(set, width, "Where it goes") with { StartsPage = true }, .. plan, .. list];
    }

    private static double Tall(IReadOnlyList<Flow> flows) => flows.Sum(f => f.SpaceBefore + f.Height);

    private static IReadOnlyList<Flow> List(ConversionReport report, PlanWording words, Typesetter set, double width, TableSpacing spacing)
    {
        var taxa = PlantingPages.Numbered(report.Plan);
        var cost = report.NoPrices ? "" : $", {words.Price(report.Plan.Mix.Cost)}";
        var place = report.Street.Length > 0 ? $"{report.YardCode}, {report.Street}. " : $"{report.YardCode}. ";
        var none = report.NoPrices ? "No cost: the group has entered no prices. " : "";
        var estimated = !report.NoPrices && taxa.Any(t => t.PriceEstimated)
            ? "* the group has no price for it, a usual one was taken. " : "";
        var packets = taxa.Any(t => t.BoughtGrams > t.PlsGrams + 1e-9)
            ? "Nobody sells less than a packet, so the cost counts whole packets: keep what is left for the gaps. " : "";
        return
        [
            Prose.Section(set, width, $"Shopping list{cost}"),
            Prose.Small(set, width, $"{place}{words.Prices()}{none}Ask for stock raised from wild seed of your own region, within "
                + $"{(words.Customary ? "100 to 200 miles" : "150 to 300 km")}, no garden cultivars. {packets}{estimated}",
                keepWithNext: true),
            new Table([new("Plant", 62), new("In flower", 25), new("As", 14), new("Amount", 25, Right: true),
                new(report.NoPrices ? "Cost" : $"About, {report.Currency}", 13, Right: true)],
                [.. taxa.Select((t, i) => Line(report, words, t, i + 1)), Sum(report, words, taxa)], spacing).Lay(set, width)
                with { SpaceBefore = 4 },
            Prose.H3(set, width, "Where to get them"),
            Prose.Body(set, width, report.Local.WhereToGetPlants.Trim() is { Length: > 0 } where
                ? string.Join("; ", where.ReplaceLineEndings("\n").Split('\n').Select(l => l.Trim()).Where(l => l.Length > 0)) + "."
                : "The group has not entered its growers yet: ask an organiser. Neighbours with older plantings often have seed and "
                    + "divisions to give."),
        ];
    }

    private static Row Line(ConversionReport report, PlanWording words, PlannedTaxon taxon, int number) => new(
    [
        new Cell([new Run($"{number} ", Faces.DataStrong), .. Plantings.Name(taxon.Taxon)], Tick: true),
        Cell.Of(taxon.Traits.IsGrass ? "grass or sedge" : Wording.Window(taxon.Taxon)),
        Cell.Of(taxon.As switch { PlantedAs.Seed => "seed", PlantedAs.Plug => "plugs", _ => "both" }),
        Cell.Of(Amount(words, taxon)),
        Cell.Of(report.NoPrices ? Wording.Undefined : words.Price(taxon.Cost)[report.Currency.Length..]
            + (taxon.PriceEstimated ? "*" : "")),
    ]);

    private static string Amount(PlanWording words, PlannedTaxon taxon)
    {
        var plugs = taxon.Plugs > 0 ? $"{taxon.Plugs:#,0}{(taxon.BulkGrams > 0 ? Wording.Unbroken(" plugs") : "")}" : "";
        var seed = taxon.BulkGrams > 0 ? words.Weight(taxon.BulkGrams) : "";
        return string.Join(", ", new[] { seed, plugs }.Where(s => s.Length > 0));
    }

    private static Row Sum(ConversionReport report, PlanWording words, IReadOnlyList<PlannedTaxon> taxa)
    {
        Cell Strong(string text) => Cell.Of(text, Faces.DataStrong);
        var plugs = taxa.Sum(t => t.Plugs);
        var grams = taxa.Sum(t => t.BulkGrams);
        return new Row([Strong($"{taxa.Count} kinds"), Strong(""), Strong(""),
            Strong(string.Join(", ", new[] { grams > 0 ? words.Weight(grams) : "", plugs > 0 ? Wording.Unbroken($"{plugs:#,0} plugs") : "" }
                .Where(s => s.Length > 0))),
            Strong(report.NoPrices ? Wording.Undefined : words.Price(report.Plan.Mix.Cost)[report.Currency.Length..])]);
    }
}
