using CommonGround.Interchange.Catalogue;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Features.Plants;

/// <summary>Which laws name a plant, each with the date of the list that was read. Shipped with the program, so a newer program brings newer lists.</summary>
public sealed class RegulatedPlants
{
    private static readonly Dictionary<string, string> States = new(StringComparer.Ordinal)
    {
        ["IL"] = "Illinois",
        ["IN"] = "Indiana",
        ["IA"] = "Iowa",
        ["MO"] = "Missouri",
        ["MN"] = "Minnesota",
        ["WI"] = "Wisconsin",
    };

    private readonly Lazy<IReadOnlyList<RegulatedPlant>> all = new(() => RegulatedPlantsFile.Read("regulated-plants.csv", File.ReadAllBytes(Path.Combine(SiteOptions.SeedFolder, "regulated-plants.csv"))));

    /// <summary>The entries that name a plant, Illinois first.</summary>
    public IReadOnlyList<RegulatedPlant> Of(string scientificName) =>
        [.. all.Value.Where(r => r.Names(scientificName)).OrderBy(r => r.Jurisdiction != "IL").ThenBy(r => r.Jurisdiction, StringComparer.Ordinal)];

    public static string State(string jurisdiction) => States.GetValueOrDefault(jurisdiction, jurisdiction);

    /// <summary>"exotic weed in Illinois (list of 2025-10-01), in force from 2028-01-01".</summary>
    public static string Words(RegulatedPlant entry) =>
        $"{State(entry.Jurisdiction)}: {entry.Category}{(entry.IsGenus ? $", as every {entry.Taxon}" : "")}{(entry.InForceFrom.Length > 0 ? $", in force from {entry.InForceFrom}" : "")}"
        + $"{(entry.Qualifier.Length > 0 && entry.InForceFrom.Length == 0 ? $" ({entry.Qualifier})" : "")}; {entry.Law}, {(entry.AsOf.Length > 0 ? $"list of {entry.AsOf}" : "list without a date")}";
}
