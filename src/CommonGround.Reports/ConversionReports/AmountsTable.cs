using CommonGround.Planning.Conversion;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Seed and plugs in full, for whoever weighs them out.</summary>
internal static class AmountsTable
{
    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var taxa = PlantingPages.Numbered(report.Plan);
        var seeds = taxa.Any(t => t.SeedsPerSquareMetre > 0)
            ? $"Pure live seed is what can grow; as sold there is more, for chaff and dead seed. In all "
            + $"{words.SeedDensity(taxa.Sum(t => t.SeedsPerSquareMetre))} live seeds on a square {(words.Customary ? "foot" : "metre")}. "
            : "";
        return
        [
            Prose.H2(set, width, "Amounts in full"),
            Prose.Small(set, width, $"{words.Prices()}{seeds}A lot’s own label goes before the catalogue’s figures.", keepWithNext: true),
            new Table(Columns(report, words), [.. taxa.Select((t, i) => Line(report, words, t, i + 1)), Sum(report, words, taxa)],
                TableSpacing.Close).Lay(set, width) with { SpaceBefore = 4 },
        ];
    }

    private static IReadOnlyList<Column> Columns(ConversionReport report, PlanWording words) =>
    [
        new("Plant", 56), new("As", 9.5), new("Ground, %", 12, Right: true),
        new($"Live seeds per {(words.Customary ? "ft²" : "m²")}", 13, Right: true),
        new($"Pure live seed, {words.WeightUnit}", 14, Right: true), new($"As sold, {words.WeightUnit}", 14, Right: true),
        new("Plugs", 10, Right: true), new(report.NoPrices ? "Cost" : $"Cost, {report.Currency}", 14, Right: true),
    ];

    private static Row Line(ConversionReport report, PlanWording words, PlannedTaxon taxon, int number)
    {
        var seed = taxon.As != PlantedAs.Plug;
        return new Row([
            new Cell([new Run($"{number} ", Faces.DataStrong), .. Plantings.Name(taxon.Taxon)]),
            Cell.Of(taxon.As switch { PlantedAs.Seed => "seed", PlantedAs.Plug => "plugs", _ => "both" }),
            Cell.Of(PlanWording.Percent(taxon.Share)),
            Cell.Of(seed ? words.SeedDensity(taxon.SeedsPerSquareMetre) : Wording.Undefined),
            Cell.Of(seed ? words.WeightFigure(taxon.PlsGrams) : Wording.Undefined),
            Cell.Of(seed ? words.WeightFigure(taxon.BulkGrams) : Wording.Undefined),
            Cell.Of(taxon.Plugs == 0 ? Wording.Undefined : $"{taxon.Plugs:#,0}"),
            Cell.Of(report.NoPrices ? Wording.Undefined : words.Price(taxon.Cost)[report.Currency.Length..] + (taxon.PriceEstimated ? "*"
                : "")),
        ]);
    }

    private static Row Sum(ConversionReport report, PlanWording words, IReadOnlyList<PlannedTaxon> taxa)
    {
        Cell Strong(string text) => Cell.Of(text, Faces.DataStrong);
        return new Row([
            Strong("Together"), Strong(""), Strong(PlanWording.Percent(taxa.Sum(t => t.Share))),
            Strong(words.SeedDensity(taxa.Sum(t => t.SeedsPerSquareMetre))),
            Strong(words.WeightFigure(taxa.Sum(t => t.PlsGrams))), Strong(words.WeightFigure(taxa.Sum(t => t.BulkGrams))),
            Strong($"{taxa.Sum(t => t.Plugs):#,0}"),
            Strong(report.NoPrices ? Wording.Undefined : words.Price(report.Plan.Mix.Cost)[report.Currency.Length..]),
        ]);
    }
}
