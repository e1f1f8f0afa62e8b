namespace CommonGround.Planning.Conversion;

/// <summary>Prices of one taxon; null where the group has none.</summary>
/// <param name="SeedPerGram">Money for a gram of pure live seed.</param>
/// <param name="PlugEach">Money for a plug.</param>
public sealed record TaxonPrice(double? SeedPerGram, double? PlugEach);

/// <summary>Low, middle and high of a figure that nobody knows exactly; low ≤ middle ≤ high.</summary>
public readonly record struct Spread(double Low, double Mid, double High);

/// <summary>What things cost and how long work takes here: the group's one editable table.</summary>
public sealed record PriceTable
{
    /// <summary>The figures are invented for the demo; everything made from them says so.</summary>
    public bool Invented { get; init; }

    /// <summary>By scientific name; taxa that are missing take the defaults below and are marked as estimated.</summary>
    public IReadOnlyDictionary<string, TaxonPrice> Taxa { get; init; } = new Dictionary<string, TaxonPrice>(StringComparer.Ordinal);

    /// <summary>A gram of pure live seed, forbs and legumes; grasses and sedges.</summary>
    public double ForbSeedPerGram { get; init; } = 0.9;
    public double GrassSeedPerGram { get; init; } = 0.35;

    /// <summary>A plug of any herb; a young shrub.</summary>
    public double PlugEach { get; init; } = 2.8;
    public double ShrubEach { get; init; } = 24;

    /// <summary>The smallest packet of flower seed, g of live seed; grass seed comes in three times as much.</summary>
    public double PacketGrams { get; init; } = 1;

    /// <summary>Pure seed and germination, 0–1, where the seller does not say.</summary>
    public double Purity { get; init; } = 0.95;
    public double Germination { get; init; } = 0.8;

    /// <summary>Preparing and mulching the ground, money per m².</summary>
    public Spread PreparePerSquareMetre { get; init; } = new(0.4, 1.2, 3.5);

    /// <summary>Keeping lawn (fertiliser, reseeding, watering, hired or own mower's wear), money per m² and year, without fuel.</summary>
    public Spread LawnPerSquareMetreYear { get; init; } = new(0.15, 0.5, 1.4);

    /// <summary>Keeping an established planting, money per m² and year.</summary>
    public Spread PlantingPerSquareMetreYear { get; init; } = new(0.08, 0.2, 0.5);

    /// <summary>What an hour of somebody's own work is worth; 0 counts it as free.</summary>
    public double HourValue { get; init; }

    /// <summary>Minutes to mow 100 m² once; mowings a year.</summary>
    public Spread MowMinutesPer100SquareMetres { get; init; } = new(4, 7, 12);
    public Spread MowingsPerYear { get; init; } = new(18, 26, 32);

    /// <summary>Litres of petrol per hour of mowing; money per litre.</summary>
    public Spread FuelLitresPerHour { get; init; } = new(0.8, 1.2, 1.9);
    public double FuelPerLitre { get; init; } = 0.95;

    /// <summary>Money per 1,000 litres of water.</summary>
    public double WaterPerCubicMetre { get; init; } = 2.2;

    /// <summary>Real discount rate a year, 0–0.2.</summary>
    public double DiscountRate { get; init; } = 0.03;
}
