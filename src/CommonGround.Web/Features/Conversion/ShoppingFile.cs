using CommonGround.Interchange.Spreadsheets;
using CommonGround.Planning.Conversion;

namespace CommonGround.Web.Features.Conversion;

/// <summary>A plan's shopping list as rows: one for each plant and area, in the order of the plan.</summary>
public static class ShoppingFile
{
    public static readonly IReadOnlyList<string> Columns =
        ["area", "common_name", "scientific_name", "as", "plugs", "bulk_seed_g", "pure_live_seed_g", "seeds_per_m2", "seeds_per_ft2",
        "share_percent", "area_m2", "cost", "price"];

    public static Sheet Of(ConversionPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return new Sheet("shopping list", Columns, [.. plan.Mix.Areas.SelectMany(a => a.Taxa.Select(t => Row(a.Area.Name, t)))]);
    }

    private static object?[] Row(string area, PlannedTaxon t) =>
    [
        area, t.Taxon.DisplayName, t.Taxon.ScientificName, PlanWords.Form(t), t.Plugs > 0 ? t.Plugs : null,
            Seed(t, Math.Round(t.BulkGrams, 2)), Seed(t, Math.Round(t.PlsGrams, 2)),
        Seed(t, Math.Round(t.SeedsPerSquareMetre, 1)), Seed(t, Math.Round(t.SeedsPerSquareMetre / Shared.Words.SquareFeetPerSquareMetre,
            2)), Math.Round(t.Share * 100, 2), Math.Round(t.SquareMetres, 2), Math.Round(t.Cost, 2), t.PriceEstimated ? "estimated"
                : "listed",
    ];

    private static double? Seed(PlannedTaxon t, double value) => t.SeedsPerSquareMetre > 0 ? value : null;
}
