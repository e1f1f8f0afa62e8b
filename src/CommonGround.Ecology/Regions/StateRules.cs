namespace CommonGround.Ecology.Regions;

/// <summary>What the law lists of a state are worth: whether a plant that is not on them can be called "not listed".</summary>
public enum LawCoverage
{
    /// <summary>The whole list was read: absence means not listed, on its date.</summary>
    Complete,

    /// <summary>A part was read: absence means nothing.</summary>
    Partial,
}

/// <summary>A state whose plants are known here.</summary>
/// <param name="Code">Two letters.</param>
/// <param name="Name">In full.</param>
/// <param name="Law">How much of its weed law is held.</param>
/// <param name="South">Southern edge, degrees north, from memory to 0.2°.</param>
/// <param name="North">Northern edge, degrees north.</param>
/// <param name="West">Western edge, degrees west.</param>
/// <param name="East">Eastern edge, degrees west.</param>
public sealed record StateOfRecord(string Code, string Name, LawCoverage Law, double South, double North, double West, double East)
{
    /// <summary>Whether a point may lie in it: the edges are a box, so a point near a border may pass for two states.</summary>
    public bool MayHold(double latitude, double longitude) => latitude >= South - 0.2 && latitude <= North + 0.2
        && -longitude <= West + 0.2 && -longitude >= East - 0.2;
}

/// <summary>Which tables speak for a place.</summary>
/// <param name="First">Decides on nativity, and gives C.</param>
/// <param name="Second">Asked where the first lacks a taxon; what it gives is shown as borrowed. In turn.</param>
/// <param name="Shown">Only shown beside the first, never taken; empty for none.</param>
/// <param name="Choices">Tables the group may take instead of the first.</param>
/// <param name="Why">Why these, in a sentence for people.</param>
public sealed record TablesOfPlace(string First, IReadOnlyList<string> Second, string Shown, IReadOnlyList<string> Choices, string Why);

/// <summary>From a place to its tables.</summary>
/// <remarks>
/// A state's own table comes first; where a second one comes in, and why, follows the note on each state (differences between the tables
/// were counted from them; counties and state edges are from memory, drawn as boxes: the group sees the outcome and may choose).
/// </remarks>
public static class StateRules
{
    /// <summary>The ten states.</summary>
    public static IReadOnlyList<StateOfRecord> All { get; } =
    [
        new("IA", "Iowa", LawCoverage.Complete, 40.4, 43.5, 96.6, 90.1),
        new("IL", "Illinois", LawCoverage.Partial, 37.0, 42.5, 91.5, 87.0),
        new("IN", "Indiana", LawCoverage.Partial, 37.8, 41.8, 88.1, 84.8),
        new("KS", "Kansas", LawCoverage.Complete, 37.0, 40.0, 102.1, 94.6),
        new("MI", "Michigan", LawCoverage.Partial, 41.7, 48.3, 90.4, 82.4),
        new("MN", "Minnesota", LawCoverage.Partial, 43.5, 49.4, 97.2, 89.5),
        new("MO", "Missouri", LawCoverage.Complete, 36.0, 40.6, 95.8, 89.1),
        new("NE", "Nebraska", LawCoverage.Complete, 40.0, 43.0, 104.1, 95.3),
        new("OH", "Ohio", LawCoverage.Partial, 38.4, 42.0, 84.8, 80.5),
        new("WI", "Wisconsin", LawCoverage.Partial, 42.5, 47.1, 92.9, 86.8),
    ];

    /// <summary>A state by its two letters or its name; null where it is none of the ten.</summary>
    public static StateOfRecord? Find(string state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var asked = state.Trim();
        return All.FirstOrDefault(s => s.Code.Equals(asked, StringComparison.OrdinalIgnoreCase)
            || s.Name.Equals(asked, StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>The tables of a place; null outside the ten states: then no C is known and the record works without.</summary>
    public static TablesOfPlace? TablesOf(Locality place)
    {
        ArgumentNullException.ThrowIfNull(place);
        if (Find(place.State) is not { } state)
        {
            return null;
        }

        var tables = OfState(state.Code, place.Latitude, -place.Longitude);
        return place.Table.Length > 0 && place.Table != tables.First && tables.Choices.Contains(place.Table, StringComparer.Ordinal)
            ? tables with
            {
                First = place.Table,
                Shown = tables.First,
                Why = $"The group chose {RegionalTables.NameOf(place.Table)} instead of {RegionalTables.NameOf(tables.First)}."
            }
            : tables;
    }

    private static TablesOfPlace OfState(string state, double latitude, double west) => state switch
    {
        // Cook, DuPage, Kane, Kendall, Lake, McHenry, Will.
        "IL" when latitude >= 41.2 && west <= 88.71 => new(RegionalTables.Chicago, [], RegionalTables.Illinois, [RegionalTables.Illinois],
            "Illinois’ seven north-eastern counties have a table of their own; it differs from the state’s by 3 or more for a fifth of "
                + "their plants."),
        "IL" => new(RegionalTables.Illinois, [], RegionalTables.Chicago, [RegionalTables.Chicago], "Illinois has one table."),
        "IN" => new(RegionalTables.Indiana, [], "", latitude >= 41.1 && west is >= 86.5 and <= 87.6 ? [RegionalTables.Chicago] : [],
            "Indiana has one table."),
        "WI" => new(RegionalTables.Wisconsin, [], "", latitude <= 42.9 && west <= 88.8 ? [RegionalTables.Chicago] : [],
            "Wisconsin’s table was made for wetlands and scores upland plants too."),
        "MI" => new(RegionalTables.Michigan, [], "", latitude <= 42.3 && west >= 86.2 ? [RegionalTables.Chicago] : [],
            "Michigan has one table."),
        "MN" => new(RegionalTables.Minnesota, west >= 95.5 ? [RegionalTables.Wisconsin, RegionalTables.Dakotas]
            : [RegionalTables.Wisconsin], "", [],
            "Minnesota’s table covers wetlands only; values of upland plants are borrowed from Wisconsin."),
        "KS" => new(RegionalTables.Kansas, [west <= 96 ? RegionalTables.Missouri : RegionalTables.Nebraska], "", [],
            $"Kansas has one table; what it lacks is borrowed from {(west <= 96 ? "Missouri" : "Nebraska")}."),
        "IA" => new(RegionalTables.Iowa, [latitude < 42 ? RegionalTables.Missouri : RegionalTables.Wisconsin], "", [],
            $"Iowa’s table is of 2001; what it lacks is borrowed from {(latitude < 42 ? "Missouri" : "Wisconsin")}."),
        "NE" => new(RegionalTables.Nebraska, [RegionalTables.Dakotas], "", [],
            "Nebraska has one table; what it lacks is borrowed from the Dakotas."),
        "OH" => new(RegionalTables.Ohio, [], "", [], "Ohio has one table."),
        _ => new(RegionalTables.Missouri, [], "", [], "Missouri has one table."),
    };
}
