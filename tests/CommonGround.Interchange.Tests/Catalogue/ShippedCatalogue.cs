using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;

namespace CommonGround.Interchange.Tests.Catalogue;

/// <summary>seed-data/plants.csv, read once.</summary>
internal static class ShippedCatalogue
{
    public static readonly ImportFile File = CatalogueFile.Read("plants.csv",
        System.IO.File.ReadAllBytes(Path.Combine(TestFiles.Root, "seed-data", "plants.csv")));

    public static readonly IReadOnlyList<CatalogueTaxon> Taxa = File.Taxa;

    public static CatalogueTaxon Of(string name) => Taxa.Single(t => t.ScientificName == name);
}
