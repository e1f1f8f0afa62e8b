using CommonGround.Planning.Conversion;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Conversion;

/// <summary>A rate of the group as the page shows it: its words, how it is read and how it is changed.</summary>
public sealed record RateField(string Name, string Words, string Unit, Func<PriceTable, Spread> Read,
    Func<PriceTable, Spread, PriceTable> Write, bool Single, double Most)
{
    public string? Fault(PriceTable rates)
    {
        var spread = Read(rates);
        return !double.IsFinite(spread.Low) || !double.IsFinite(spread.Mid) || !double.IsFinite(spread.High) || spread.Low < 0
            || spread.High > Most ? $"{Words}: figures from 0 to {Most:0.##}."
            : spread.Low > spread.Mid || spread.Mid > spread.High ? $"{Words}: low, middle and high must rise."
            : null;
    }
}

/// <summary>Every rate a plan uses, in the order of the page.</summary>
public static class RateFields
{
    public static readonly IReadOnlyList<RateField> All =
    [
        One(nameof(PriceTable.ForbSeedPerGram), "Seed of flowers, where no price is known", "money a gram", t => t.ForbSeedPerGram,
            (t, v) => t with { ForbSeedPerGram = v }, 1000),
        One(nameof(PriceTable.GrassSeedPerGram), "Seed of grasses and sedges, where no price is known", "money a gram",
            t => t.GrassSeedPerGram, (t, v) => t with { GrassSeedPerGram = v }, 1000),
        One(nameof(PriceTable.PlugEach), "A plug, where no price is known", "money each", t => t.PlugEach,
            (t, v) => t with { PlugEach = v }, 1000),
        One(nameof(PriceTable.ShrubEach), "A young shrub, where no price is known", "money each", t => t.ShrubEach,
            (t, v) => t with { ShrubEach = v }, 1000),
        One(nameof(PriceTable.PacketGrams), "The smallest packet of flower seed; of grass seed three times as much", "grams of live seed",
            t => t.PacketGrams, (t, v) => t with { PacketGrams = v }, 1000),
        One(nameof(PriceTable.Purity), "Pure seed in what is sold", "share, 0 to 1", t => t.Purity, (t, v) => t with { Purity = v }, 1),
        One(nameof(PriceTable.Germination), "Seed that germinates", "share, 0 to 1", t => t.Germination,
            (t, v) => t with { Germination = v }, 1),
        Three(nameof(PriceTable.PreparePerSquareMetre), "Preparing the ground", "money a m²", t => t.PreparePerSquareMetre,
            (t, v) => t with { PreparePerSquareMetre = v }, 1000),
        Three(nameof(PriceTable.LawnPerSquareMetreYear), "Keeping lawn, without fuel", "money a m² and year",
            t => t.LawnPerSquareMetreYear, (t, v) => t with { LawnPerSquareMetreYear = v }, 1000),
        Three(nameof(PriceTable.PlantingPerSquareMetreYear), "Keeping an established planting", "money a m² and year",
            t => t.PlantingPerSquareMetreYear, (t, v) => t with { PlantingPerSquareMetreYear = v }, 1000),
        Three(nameof(PriceTable.MowMinutesPer100SquareMetres), "Mowing 100 m² once", "minutes", t => t.MowMinutesPer100SquareMetres,
            (t, v) => t with { MowMinutesPer100SquareMetres = v }, 600),
        Three(nameof(PriceTable.MowingsPerYear), "Mowings", "a year", t => t.MowingsPerYear, (t, v) => t with { MowingsPerYear = v }, 200),
        Three(nameof(PriceTable.FuelLitresPerHour), "Fuel for mowing", "litres an hour", t => t.FuelLitresPerHour,
            (t, v) => t with { FuelLitresPerHour = v }, 50),
        One(nameof(PriceTable.FuelPerLitre), "Fuel", "money a litre", t => t.FuelPerLitre, (t, v) => t with { FuelPerLitre = v }, 100),
        One(nameof(PriceTable.WaterPerCubicMetre), "Water", "money for 1,000 litres", t => t.WaterPerCubicMetre,
            (t, v) => t with { WaterPerCubicMetre = v }, 1000),
        One(nameof(PriceTable.HourValue), "An hour of your own work (0: it is free)", "money an hour", t => t.HourValue,
            (t, v) => t with { HourValue = v }, 1000),
        One(nameof(PriceTable.DiscountRate), "Discount a year, above inflation", "share, 0 to 0.2", t => t.DiscountRate,
            (t, v) => t with { DiscountRate = v }, 0.2),
    ];

    public static IEnumerable<Problem> Check(PriceTable rates)
    {
        foreach (var field in All)
        {
            if (field.Fault(rates) is { } fault)
            {
                yield return new Problem(field.Name, fault);
            }
        }

        if (rates.Purity <= 0 || rates.Germination <= 0)
        {
            yield return new Problem(nameof(PriceTable.Purity),
                "Pure seed and germination are above 0: otherwise no amount of seed would do.");
        }
    }

    private static RateField One(string name, string words, string unit, Func<PriceTable, double> read,
        Func<PriceTable, double, PriceTable> write, double most) =>
        new(name, words, unit, t => new Spread(read(t), read(t), read(t)), (t, v) => write(t, v.Mid), Single: true, most);

    private static RateField Three(string name, string words, string unit, Func<PriceTable, Spread> read,
        Func<PriceTable, Spread, PriceTable> write, double most) =>
        new(name, words, unit, read, write, Single: false, most);
}
