using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>What a taxon costs, from the group's table or its defaults.</summary>
internal static class Pricing
{
    /// <summary>Money for a gram of pure live seed, or for a plug.</summary>
    public static double Unit(CatalogueTaxon taxon, PlantedAs form, PriceTable prices) => Known(taxon, form, prices)
        ?? (form, taxon.LifeForm) switch
        {
            (PlantedAs.Plug, LifeForm.Shrub) => prices.ShrubEach,
            (PlantedAs.Plug, _) => prices.PlugEach,
            (_, LifeForm.Grass or LifeForm.Sedge) => prices.GrassSeedPerGram,
            _ => prices.ForbSeedPerGram,
        };

    public static bool IsEstimated(CatalogueTaxon taxon, PlantedAs form, PriceTable prices) => Known(taxon, form, prices) is null;

    private static double? Known(CatalogueTaxon taxon, PlantedAs form, PriceTable prices) =>
        prices.Taxa.GetValueOrDefault(taxon.ScientificName) is { } price ? (form == PlantedAs.Plug ? price.PlugEach : price.SeedPerGram)
            : null;
}
