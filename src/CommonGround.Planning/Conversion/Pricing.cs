using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>What a taxon costs, from the group's table or its defaults.</summary>
internal static class Pricing
{
    /// <summary>Money for a gram of pure live seed, or for a plug.</summary>
    public static double Unit(CatalogueTaxon taxon, PlantedAs form, PriceTable prices) => Known(taxon, form, prices) ?? (form, taxon.LifeForm) switch
    {
        (PlantedAs.Plug, LifeForm.Shrub) => prices.ShrubEach,
        (PlantedAs.Plug, _) => prices.PlugEach,
        (_, LifeForm.Grass or LifeForm.Sedge) => prices.GrassSeedPerGram,
        _ => prices.ForbSeedPerGram,
    };

    public static bool IsEstimated(CatalogueTaxon taxon, PlantedAs form, PriceTable prices) => Known(taxon, form, prices) is null;

    /// <summary>Money for a m² of one taxon alone; plugs not rounded.</summary>
    public static double PerSquareMetre(CatalogueTaxon taxon, PlantedAs form, ConversionRequest request, PriceTable prices) => Unit(taxon, form, prices) * (form == PlantedAs.Plug
        ? PlugSpacing.Triangular(1, taxon.SpacingMetres!.Value)
        : SeedRate.Grams(ConversionConvention.SownSeedsPerSquareMetre(request), 1, taxon.SeedsPerGram!.Value));

    private static double? Known(CatalogueTaxon taxon, PlantedAs form, PriceTable prices) =>
        prices.Taxa.GetValueOrDefault(taxon.ScientificName) is { } price ? (form == PlantedAs.Plug ? price.PlugEach : price.SeedPerGram) : null;
}
