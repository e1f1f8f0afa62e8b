using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>A plant, or a whole genus, that a state's law or rule names.</summary>
/// <param name="Jurisdiction">Two letters of the state.</param>
/// <param name="Law">Name of the law.</param>
/// <param name="Category">What the law calls it.</param>
/// <param name="ListedName">As printed there.</param>
/// <param name="IsGenus">The whole genus is named; <paramref name="Taxon"/> is then the genus.</param>
/// <param name="Taxon">Accepted name in the catalogue, or the genus; empty when the catalogue has none.</param>
/// <param name="Qualifier">Exceptions and limits in the law's sense.</param>
/// <param name="InForceFrom">ISO date from which it is in force where that lies ahead of the list; else empty.</param>
/// <param name="AsOf">Year or ISO date of the list as read; empty when the copy carries none.</param>
/// <param name="Citation">Where the law is found.</param>
/// <param name="ListVersion">Which text was read.</param>
/// <param name="ListComplete">Whether the whole list was read: only then does absence mean anything.</param>
public sealed record RegulatedPlant(string Jurisdiction, string Law, string Category, string ListedName, bool IsGenus, string Taxon,
    string Qualifier,
    string InForceFrom, string AsOf, string Citation, string ListVersion, bool ListComplete)
{
    /// <summary>Whether it names a plant of the catalogue, by itself or with its genus.</summary>
    public bool Names(string scientificName) => Taxon.Length > 0
        && (IsGenus ? scientificName.StartsWith(Taxon + " ", StringComparison.Ordinal) : Taxon == scientificName);
}

/// <summary>regulated-plants.csv, shipped beside the catalogue.</summary>
public static class RegulatedPlantsFile
{
    private static readonly string[] Columns =
        ["jurisdiction", "law", "category", "listed_name", "scope", "taxon", "qualifier", "in_force_from", "as_of", "citation",
        "list_version", "list_complete"];

    /// <summary>Reads the file.</summary>
    /// <exception cref="FormatException">A column is missing or a row is broken; the message names it.</exception>
    public static IReadOnlyList<RegulatedPlant> Read(string fileName, byte[] content)
    {
        var table = CsvTable.ReadShipped(fileName, content);
        if (Array.Find(Columns, c => !table.Header.Contains(c)) is { } missing)
            throw new FormatException($"{fileName} has no column {missing}.");
        var at = table.Header.Index().ToDictionary(p => p.Item, p => p.Index, StringComparer.Ordinal);
        return [.. table.Records.Select(r => new RegulatedPlant(Cell(r, "jurisdiction"), Cell(r, "law"), Cell(r, "category"),
            Cell(r, "listed_name"), Cell(r, "scope") == "genus", Cell(r, "taxon"),
            Cell(r, "qualifier"), Cell(r, "in_force_from"), Cell(r, "as_of"), Cell(r, "citation"), Cell(r, "list_version"),
                Cell(r, "list_complete") == "yes"))];

        string Cell(CsvRecord record, string column) => record.Cells[at[column]].Trim();
    }
}

/// <summary>What can be said of a plant and a state's law.</summary>
public enum LawAnswer
{
    /// <summary>A list that is held names it.</summary>
    Listed,

    /// <summary>The whole list was read and does not name it.</summary>
    NotOnTheList,

    /// <summary>Only a part of the state's list is held, or none: nothing can be said.</summary>
    Unknown,
}

/// <summary>Asks the lists that are held about one state. City and county rules are never held.</summary>
public static class WeedLaw
{
    /// <param name="lists">All entries held.</param>
    /// <param name="state">Two letters.</param>
    /// <param name="scientificName">Accepted name in the catalogue.</param>
    public static LawAnswer Ask(IEnumerable<RegulatedPlant> lists, string state, string scientificName)
    {
        ArgumentNullException.ThrowIfNull(lists);
        return lists.Any(r => r.Jurisdiction == state && r.Names(scientificName)) ? LawAnswer.Listed
            : Ecology.Regions.StateRules.Find(state) is { Law: Ecology.Regions.LawCoverage.Complete } ? LawAnswer.NotOnTheList
            : LawAnswer.Unknown;
    }
}
