using System.Collections.Concurrent;
using CommonGround.Ecology.Regions;
using CommonGround.Interchange.Catalogue;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Features.Regions;

/// <summary>The regional tables and law lists that came with the program, read once when somebody first asks.</summary>
internal static class RegionFiles
{
    private static readonly Lazy<IReadOnlyDictionary<string, TaxonRegions>> Values =
        new(() => RegionalValuesFile.Read("regions/values.csv", Bytes("regions", "values.csv")));
    private static readonly Lazy<IReadOnlyDictionary<string, double>> BloomPlaces =
        new(() => RegionalValuesFile.ReadBloomPlaces("regions/bloom-places.csv", Bytes("regions", "bloom-places.csv")));
    private static readonly Lazy<IReadOnlyList<RegulatedPlant>> LawLists = new(() => RegulatedPlantsFile.Read("regulated-plants.csv",
        Bytes("regulated-plants.csv")));
    private static readonly ConcurrentDictionary<Locality, RegionalCatalogue> Known = new();

    public static IReadOnlyList<RegulatedPlant> Law => LawLists.Value;

    /// <summary>What the regional tables say of one taxon; null where none has it.</summary>
    public static TaxonRegions? Of(string scientificName) => Values.Value.GetValueOrDefault(scientificName);

    /// <summary>The catalogue as it holds at a place.</summary>
    public static RegionalCatalogue At(Locality place) => Known.GetOrAdd(place,
        p => new RegionalCatalogue(p, Values.Value, BloomPlaces.Value, name => WeedLaw.Ask(Law, p.State, name) == LawAnswer.Listed));

    private static byte[] Bytes(params string[] path) => File.ReadAllBytes(Path.Combine([SiteOptions.SeedFolder, .. path]));
}
