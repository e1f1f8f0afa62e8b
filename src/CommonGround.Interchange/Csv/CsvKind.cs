using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Csv;

/// <summary>The columns that tell one kind of file from another.</summary>
/// <param name="Kind">What the file is.</param>
/// <param name="Required">Columns that must be there.</param>
/// <param name="Optional">Columns that may be left out; their cells count as blank.</param>
internal sealed record CsvKind(ImportKind Kind, string[] Required, string[] Optional)
{
    public static readonly CsvKind Places = new(ImportKind.Places,
        ["street", "block", "yard", "yard_m2"],
            ["latitude", "longitude", "lawn_m2", "light", "moisture", "soil_group", "household", "shared"]);

    public static readonly CsvKind Beds = new(ImportKind.Beds, ["yard", "bed"], ["area_m2", "established_on", "light", "moisture"]);

    public static readonly CsvKind Sightings = new(ImportKind.Sightings,
        ["yard", "bed", "scientific_name", "observed_on"], ["cover_m2", "count", "origin", "certainty", "growth_stage", "observer",
            "remarks", "patch", "finding", "verified_by", "place_in_bed", "seed_g"]);

    public static readonly CsvKind Infestations = new(ImportKind.Infestations,
        ["scientific_name", "observed_on", "area_m2"], ["yard", "block", "cover_percent", "growth_stage", "remarks"]);

    public static readonly CsvKind Rain = new(ImportKind.Rain, ["date", "rain_mm"], []);

    public static readonly CsvKind Temperature = new(ImportKind.Temperature, ["date", "tmin_c", "tmax_c"], []);

    public static readonly CsvKind Prices = new(ImportKind.Prices, ["scientific_name", "seed_per_gram", "plug_each"], []);

    public static readonly CsvKind Overrides = new(ImportKind.Overrides, ["scientific_name", "trait", "override_value", "override_reason"],
        []);

    public static readonly CsvKind Catalogue = new(ImportKind.Catalogue, ["scientific_name", "nativity", "life_form"],
        ["authority", "rank", "synonyms", "common_names", "family", "c_value", "c_region", "duration", "height_min_m", "height_max_m",
            "light", "moisture",
        "bloom_start", "bloom_end", "bloom_place", "flower_colour", "pollinator_value", "pollinator_groups", "caterpillar_hosts",
            "seed_for_birds",
        "seeds_per_gram", "spacing_m", "toxicity", "caution", "impact_rank", "dispersal_m", "seedbank_half_life_y", "control_start",
            "control_end",
        "nativity_second", "c_second", "region_second", "height_second_m", "wetland_indicator", "community", "bloom_second_start",
            "bloom_second_end",
        "pollinator_low", "pollinator_high", "toxicity_class", "look_alikes"]);

    public static readonly CsvKind[] All = [Places, Beds, Sightings, Infestations, Rain, Temperature, Prices, Overrides, Catalogue];

    public const string ScientificName = "scientific_name";
    private static readonly string[] Days = ["observed_on", "established_on", "date"];

    private static readonly string[] Numbers = ["latitude", "longitude", "yard_m2", "lawn_m2", "area_m2", "cover_m2", "count",
        "growth_stage", "cover_percent", "rain_mm", "tmin_c", "tmax_c", "seed_per_gram", "plug_each"];

    private static readonly string[] OneOfWords = ["light", "moisture", "soil_group", "shared", "origin", "certainty", "finding"];

    public static CsvKind? Of(ImportKind kind) => Array.Find(All, k => k.Kind == kind);

    /// <summary>Whether a column of ours holds days.</summary>
    public static bool IsDay(string column) => Days.Contains(column, StringComparer.Ordinal);

    /// <summary>Whether a column of ours holds figures.</summary>
    public static bool IsNumber(string column) => Numbers.Contains(column, StringComparer.Ordinal);

    /// <summary>Whether a column of ours holds one of a few words.</summary>
    public static bool IsWord(string column) => OneOfWords.Contains(column, StringComparer.Ordinal);

    public IReadOnlyList<string> Columns { get; } = [.. Required, .. Optional];

    public bool Knows(string column) => Columns.Contains(column, StringComparer.Ordinal)
        || (Kind == ImportKind.Catalogue && column.StartsWith("source_", StringComparison.Ordinal));

    /// <summary>The known column most like a mistyped one, or null when none is like it.</summary>
    public string? Nearest(string column)
    {
        var best = Columns.MinBy(known => EditDistance.Between(column, known))!;
        if (EditDistance.Between(column, best) <= Math.Max(1, column.Length / 3)) return best;
        return Columns.FirstOrDefault(known => known.StartsWith(column, StringComparison.Ordinal)
            || column.StartsWith(known, StringComparison.Ordinal));
    }

    /// <summary>How well a header fits: 2 for each known column, 1 for one nearly known, −1 for any other.</summary>
    public int Fit(IReadOnlyList<string> header) => header.Sum(column => Knows(column) ? 2 : Nearest(column) is not null ? 1 : -1);
}
