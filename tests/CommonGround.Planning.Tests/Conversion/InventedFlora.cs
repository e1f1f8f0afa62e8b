using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>Invented plants and requests.</summary>
internal static class InventedFlora
{
    public static readonly PriceTable Prices = new();

    public static CatalogueTaxon Forb(string name, int from = 8, int to = 12, double? value = 0.5) => new()
    {
        ScientificName = name,
        Nativity = Nativity.Native,
        LifeForm = LifeForm.Forb,
        C = 5,
        HeightMaxMetres = 0.8,
        Light = [Light.FullSun],
        Moisture = [Moisture.Medium],
        Bloom = new BloomWindow(from, to),
        PollinatorValue = value,
        SeedsPerGram = 1000,
        SpacingMetres = 0.35,
    };

    public static CatalogueTaxon Grass(string name) => Forb(name) with { LifeForm = LifeForm.Grass, Bloom = null, PollinatorValue = null };

    /// <summary>Some taxa of every kind, all of them suited to full sun and medium soil; a fifth of them grasses.</summary>
    public static CatalogueTaxon[] Any(Random random, int count, bool seedOnly = false) =>
    [
        .. Enumerable.Range(0, count).Select(i =>
        {
            var start = random.Next(6, 19);
            var taxon = i % 5 == 0 ? Grass($"Gramen n{i:000}") : Forb($"Flos n{i:000}", start, Math.Min(19, start + random.Next(1, 5)),
                random.Next(10) == 0 ? null : Math.Round(random.NextDouble(), 2));
            return taxon with
            {
                C = random.Next(2, 11),
                HeightMaxMetres = Math.Round(0.2 + (random.NextDouble() * 2), 2),
                SeedsPerGram = Math.Round(Math.Exp(3.5 + (random.NextDouble() * 6))),
                SpacingMetres = seedOnly ? null : Math.Round(0.2 + (random.NextDouble() * 0.4), 2),
                Toxicity = random.Next(6) == 0 ? "sap" : "",
            };
        }),
    ];

    public static ConversionRequest Request(params double[] squareMetres) => new()
    {
        Areas = [.. (squareMetres.Length == 0 ? [60] : squareMetres).Select((m, i) => new ConversionArea($"Area {i + 1}", m, []))],
        Light = Light.FullSun,
        Moisture = Moisture.Medium,
        SoilGroup = SoilGroup.B,
    };

    public static ConversionSurroundings Around(IReadOnlyList<CatalogueTaxon> catalogue, int onStreet = 3) =>
        new(catalogue, [.. Enumerable.Repeat(onStreet, 24)], [.. Enumerable.Repeat(0, 24)], new HashSet<string>(StringComparer.Ordinal));

    /// <summary>Six forbs in flower all season and three grasses: enough for any ordinary request of few taxa.</summary>
    public static CatalogueTaxon[] Plain() =>
        [.. Enumerable.Range(1, 6).Select(i => Forb($"Flos {(char)('a' + i - 1)}", 6, 19, 0.1 * i)), Grass("Gramen a"), Grass("Gramen b"),
            Grass("Gramen c")];
}
