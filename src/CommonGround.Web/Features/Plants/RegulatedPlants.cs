using CommonGround.Ecology.Regions;
using CommonGround.Interchange.Catalogue;
using CommonGround.Web.Features.Regions;

namespace CommonGround.Web.Features.Plants;

/// <summary>Which laws name a plant, each with the date of the list that was read. Shipped with the program, so a newer program brings
/// newer lists.</summary>
public static class RegulatedPlants
{
    /// <summary>The entries that name a plant, those of one state first.</summary>
    /// <param name="scientificName">Accepted name in the catalogue.</param>
    /// <param name="state">Two letters of the group's state.</param>
    public static IReadOnlyList<RegulatedPlant> Of(string scientificName, string state) =>
        [.. RegionFiles.Law.Where(r => r.Names(scientificName)).OrderBy(r => r.Jurisdiction != state).ThenBy(r => r.Jurisdiction,
            StringComparer.Ordinal)];

    public static string State(string jurisdiction) => StateRules.Find(jurisdiction)?.Name ?? jurisdiction;

    /// <summary>"exotic weed in Illinois (list of October 1, 2025), in force from January 1, 2028".</summary>
    public static string Words(RegulatedPlant entry) =>
        $"{State(entry.Jurisdiction)}: {entry.Category}{(entry.IsGenus ? $", as every {entry.Taxon}" : "")}{(entry.InForceFrom.Length > 0 ? $", in force from {Day(entry.InForceFrom)}" : "")}"
        + $"{(entry.Qualifier.Length > 0 && entry.InForceFrom.Length == 0 ? $" ({entry.Qualifier})" : "")}; {entry.Law}, "
        + $"{(entry.AsOf.Length > 0 ? $"list of {Day(entry.AsOf)}" : "list without a date")}";

    /// <summary>A day of the table as people write it; what is no whole day stays.</summary>
    private static string Day(string written) => DateOnly.TryParseExact(written, "yyyy-MM-dd",
        System.Globalization.CultureInfo.InvariantCulture, System.Globalization.DateTimeStyles.None, out var day)
        ? Shared.Words.Date(day) : written;
}
