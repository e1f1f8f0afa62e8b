using CommonGround.Ecology.Regions;
using CommonGround.Interchange.Catalogue;

namespace CommonGround.Interchange.Tests.Regions;

/// <summary>seed-data/regions, read once, and places in it.</summary>
internal static class ShippedRegions
{
    public static readonly IReadOnlyDictionary<string, TaxonRegions> Values = RegionalValuesFile.Read("values.csv",
        Bytes("regions/values.csv"));
    public static readonly IReadOnlyDictionary<string, double> BloomPlaces = RegionalValuesFile.ReadBloomPlaces("bloom-places.csv",
        Bytes("regions/bloom-places.csv"));
    public static readonly IReadOnlyList<RegulatedPlant> Law = RegulatedPlantsFile.Read("regulated-plants.csv",
        Bytes("regulated-plants.csv"));

    /// <summary>Eight places, one or two a state; positions from memory to 0.05°, heights to 30 m.</summary>
    public static readonly IReadOnlyDictionary<string, Locality> Places = new Dictionary<string, Locality>
    {
        ["Quarry Bend, Illinois"] = new("IL", 41.87, -88.56, 240),
        ["Springfield, Missouri"] = new("MO", 37.21, -93.29, 396),
        ["Salina, Kansas"] = new("KS", 38.84, -97.61, 373),
        ["Lincoln, Nebraska"] = new("NE", 40.81, -96.7, 358),
        ["Des Moines, Iowa"] = new("IA", 41.59, -93.62, 290),
        ["Minneapolis, Minnesota"] = new("MN", 44.98, -93.27, 256),
        ["Madison, Wisconsin"] = new("WI", 43.07, -89.4, 266),
        ["Columbus, Ohio"] = new("OH", 39.96, -83, 239),
        ["Kalamazoo, Michigan"] = new("MI", 42.29, -85.59, 239),
        ["South Bend, Indiana"] = new("IN", 41.68, -86.25, 213),
        ["Springfield, Illinois"] = new("IL", 39.8, -89.65, 180),
        ["Moorhead, Minnesota"] = new("MN", 46.87, -96.77, 275),
    };

    public static RegionalCatalogue At(Locality place) =>
        new(place, Values, BloomPlaces, name => WeedLaw.Ask(Law, place.State, name) == LawAnswer.Listed);

    internal static byte[] Bytes(string file) => File.ReadAllBytes(Path.Combine(TestFiles.Root, "seed-data", file));
}
