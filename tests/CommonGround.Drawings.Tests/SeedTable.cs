using System.Runtime.CompilerServices;
using CommonGround.Drawings.Plants;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;

namespace CommonGround.Drawings.Tests;

/// <summary>The shipped tables.</summary>
internal static class SeedTable
{
    public static string Repository { get; } = Up(Here());

    public static IReadOnlyList<CatalogueTaxon> Taxa { get; } = CatalogueFile.Read("plants.csv",
        File.ReadAllBytes(Path.Combine(Repository, "seed-data", "plants.csv"))).Taxa;

    public static IReadOnlyList<Characters> Rows { get; } = CharactersFile.Read("characters.csv",
        File.ReadAllBytes(Path.Combine(Repository, "seed-data", "characters.csv")));

    public static IReadOnlyList<Likeness> Likenesses { get; } = [.. Rows.Select(Likeness.Of)];

    public static Likeness Of(string scientificName) => Likenesses.Single(l => l.ScientificName == scientificName);

    private static string Here([CallerFilePath] string path = "") => path;

    private static string Up(string path) => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(path)!, "..", ".."));
}
