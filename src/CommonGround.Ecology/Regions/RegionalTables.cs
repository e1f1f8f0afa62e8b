namespace CommonGround.Ecology.Regions;

/// <summary>A published table that says for one region which plants are native and how conservative each is.</summary>
/// <param name="Id">As the data files name it, for example <c>missouri_2015</c>.</param>
/// <param name="Name">For people, for example "Missouri 2015".</param>
/// <param name="Note">What a reader has to know of it; empty where nothing stands out.</param>
public sealed record RegionalTable(string Id, string Name, string Note);

/// <summary>The twelve tables of the Midwest whose values are held.</summary>
/// <remarks>Source: tables approved or formerly certified by the US Army Corps of Engineers, as published by its research centre (CC0);
/// citations in seed-data/README.md.</remarks>
public static class RegionalTables
{
    public const string Illinois = "illinois_2020", Chicago = "chicago_region_2017", Missouri = "missouri_2015", Iowa = "iowa_2001",
        Michigan = "michigan_2014",
        Indiana = "indiana_2019", Ohio = "ohio_2014", Wisconsin = "wisconsin_wetland_southwestern_southeastern_2017",
        Minnesota = "minnesota_wetlands_2007",
        Nebraska = "nebraska_2003", Kansas = "kansas_2014", Dakotas = "dakotas_excluding_black_hills_2017";

    /// <summary>All tables, in the order of the data file.</summary>
    public static IReadOnlyList<RegionalTable> All { get; } =
    [
        new(Illinois, "Illinois 2020", "It uses names of the 1990s."),
        new(Chicago, "Chicago region 2017", ""),
        new(Missouri, "Missouri 2015", ""),
        new(Iowa, "Iowa 2001", "It is the oldest of the tables."),
        new(Michigan, "Michigan 2014", ""),
        new(Indiana, "Indiana 2019", ""),
        new(Ohio, "Ohio 2014", ""),
        new(Wisconsin, "Wisconsin 2017",
            "It was made for wetlands and scores upland plants too; the far north has a table of its own, which is not held."),
        new(Minnesota, "Minnesota wetlands 2007", "It covers wetlands only."),
        new(Nebraska, "Nebraska 2003", ""),
        new(Kansas, "Kansas 2014", "It was certified once and is not now; it has no wetland indicator."),
        new(Dakotas, "Dakotas without the Black Hills 2017", ""),
    ];

    private static readonly Dictionary<string, RegionalTable> ById = All.ToDictionary(t => t.Id, StringComparer.Ordinal);

    /// <summary>The table of an id, or null where none is held.</summary>
    public static RegionalTable? Find(string id) => ById.GetValueOrDefault(id);

    /// <summary>The table's name for people; an unknown id with its underlines taken out, an empty one stays empty.</summary>
    public static string NameOf(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        return Find(id)?.Name ?? (id.Length == 0 ? "" : char.ToUpperInvariant(id[0]) + id[1..].Replace('_', ' '));
    }
}
