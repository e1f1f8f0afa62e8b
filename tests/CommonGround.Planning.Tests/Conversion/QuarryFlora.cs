using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange;
using CommonGround.Interchange.Catalogue;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>The catalogue, mix traits, visitors and demo prices that come with the program.</summary>
internal static class QuarryFlora
{
    private static readonly Lazy<MixTraitsTable> LazyTraits = new(() => MixTraitsFile.Read("mix-attributes.csv",
        Seed("mix-attributes.csv")));

    private static readonly Lazy<IReadOnlyList<CatalogueTaxon>> LazyCatalogue =
        new(() => [.. CatalogueFile.Read("plants.csv", Seed("plants.csv")).Taxa.Select(LazyTraits.Value.With)]);

    private static readonly Lazy<ForageIndex> LazyForage =
        new(() => new(VisitorFile.Read(Seed("visitors", "visitors.csv"), Seed("visitors", "plants.csv")).Records, LazyCatalogue.Value));

    private static readonly Lazy<PriceTable> LazyPrices = new(() => new()
    {
        Invented = true,
        Taxa = ImportFile.Read("prices.csv", Seed("quarry-bend", "prices.csv")).Prices
            .ToDictionary(p => p.ScientificName, p => new TaxonPrice(p.SeedPerGram, p.PlugEach), StringComparer.Ordinal),
    });

    public static MixTraitsTable Traits => LazyTraits.Value;
    public static IReadOnlyList<CatalogueTaxon> Catalogue => LazyCatalogue.Value;
    public static ForageIndex Forage => LazyForage.Value;
    public static PriceTable Prices => LazyPrices.Value;

    public static ConversionSurroundings Around { get; } = Surroundings();

    public static CatalogueTaxon Taxon(string name) => Catalogue.Single(t => t.ScientificName == name);

    public static ConversionRequest Request(double squareMetres, Light light = Light.FullSun, Moisture moisture = Moisture.Medium) => new()
    {
        Areas = [new("front", squareMetres, [])],
        Light = light,
        Moisture = moisture,
        SoilGroup = SoilGroup.B,
    };

    public static MixOutcome Solve(ConversionRequest request, Effort? effort = null) => ConversionPlanner.Solve(request, Around, Prices,
        effort);

    private static ConversionSurroundings Surroundings() =>
        new(Catalogue, [.. Enumerable.Repeat(3, 24)], [.. Enumerable.Repeat(0, 24)],
            new HashSet<string>(StringComparer.Ordinal))
        { Forage = Forage };

    private static byte[] Seed(params string[] path) => File.ReadAllBytes(Path.Combine([Repository.Root(), "seed-data", .. path]));
}
