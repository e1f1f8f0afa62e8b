using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Csv;

/// <summary>Guesses which column of a file is which of ours: by name, by other words for the same thing, by the nearest spelling.</summary>
public static class ColumnMatching
{
    /// <summary>Far more than any kind has; a header beyond them is somebody's text.</summary>
    private const int MostColumns = 200, LongestName = 100;

    /// <summary>Other words for our columns, written as <see cref="Plain"/> writes them. Some are Darwin Core terms
    /// (rs.tdwg.org/dwc/terms).</summary>
    private static readonly Dictionary<string, string[]> Synonyms = new(StringComparer.Ordinal)
    {
        ["street"] = ["streetname", "road", "avenue"],
        ["block"] = ["blockname", "segment", "between"],
        ["yard"] = ["yardcode", "yardid", "garden", "gardencode", "site", "siteid", "plot", "parcel", "locationid"],
        ["bed"] = ["bedname", "border", "patch", "area"],
        ["latitude"] = ["lat", "y", "decimallatitude", "north"],
        ["longitude"] = ["lon", "lng", "long", "x", "decimallongitude", "east"],
        ["yard_m2"] = ["yardarea", "yardsize", "yardsqm", "lotsize", "sizem2"],
        ["lawn_m2"] = ["lawn", "lawnarea", "turf", "grassm2"],
        ["light"] = ["sun", "exposure"],
        ["moisture"] = ["water", "wetness", "soilmoisture"],
        ["soil_group"] = ["soil", "hydrologicgroup", "hsg"],
        ["household"] = ["householdlabel", "family", "owner"],
        ["shared"] = ["share", "sharing", "consent", "public"],
        ["area_m2"] = ["area", "size", "sqm", "squaremetres", "squaremeters", "m2"],
        ["established_on"] = ["established", "plantedon", "planted", "since"],
        ["scientific_name"] = ["scientificname", "species", "taxon", "plant", "plantname", "latinname", "latin", "botanicalname", "name"],
        ["observed_on"] = ["date", "day", "observed", "seen", "seenon", "eventdate", "observationdate", "visitdate", "when", "dateseen",
            "dateobserved", "dateofvisit", "dayseen"],
        ["cover_m2"] = ["cover", "coverage", "covered", "area", "aream2", "sqm", "squaremetres", "squaremeters", "m2"],
        ["count"] = ["number", "plants", "stems", "howmany", "individualcount", "quantity", "qty", "no"],
        ["origin"] = ["source", "howitcame"],
        ["certainty"] = ["sure", "howsure", "confidence"],
        ["growth_stage"] = ["stage", "bbch", "phenology"],
        ["observer"] = ["recordedby", "seenby", "walker", "who", "recorder", "volunteer"],
        ["remarks"] = ["notes", "note", "comment", "comments", "occurrenceremarks"],
        ["cover_percent"] = ["cover", "coverage", "percent", "percentcover", "density"],
        ["date"] = ["day", "observedon"],
        ["rain_mm"] = ["rain", "rainfall", "precipitation", "precip", "mm", "prcp"],
        ["tmin_c"] = ["tmin", "min", "low", "minimum", "mintemp", "lowest"],
        ["tmax_c"] = ["tmax", "max", "high", "maximum", "maxtemp", "highest"],
        ["seed_per_gram"] = ["seed", "seedprice", "pergram", "priceseed"],
        ["trait"] = ["value", "column", "what"],
        ["override_value"] = ["newvalue", "ourvalue"],
        ["override_reason"] = ["reason", "why"],
        ["plug_each"] = ["plug", "plugprice", "plantprice", "each", "priceplug"],
    };

    /// <summary>Our columns of a kind: those every file of it must have first.</summary>
    public static IReadOnlyList<(string Column, bool Required)> ColumnsOf(ImportKind kind) => CsvKind.Of(kind) is { } known
        ? [.. known.Required.Select(c => (c, true)), .. known.Optional.Select(c => (c, false))] : [];

    /// <summary>The kind whose columns the header most likely means; unrecognised when none is likely.</summary>
    public static ImportKind Kind(IReadOnlyList<string> header)
    {
        if (IsText(header)) return ImportKind.Unrecognised;
        var best = CsvKind.All.Select(kind => (kind, Fit: Fit(kind, header))).MaxBy(k => k.Fit);
        return best.Fit > 0 ? best.kind.Kind : ImportKind.Unrecognised;
    }

    /// <summary>Column of ours → number of the file's column; each is used once.</summary>
    public static IReadOnlyDictionary<string, int> Columns(ImportKind kind, IReadOnlyList<string> header)
    {
        var found = new Dictionary<string, int>(StringComparer.Ordinal);
        if (CsvKind.Of(kind) is not { } known || IsText(header)) return found;
        var pairs = known.Columns.SelectMany((ours, place) => header.Select((theirs, i) => (ours, i, place, Far: Distance(ours, theirs))))
            .Where(p => p.Far is not null).OrderBy(p => p.Far).ThenBy(p => p.place).ThenBy(p => p.i);
        var used = new HashSet<int>();
        foreach (var (ours, i, _, _) in pairs)
        {
            if (!found.ContainsKey(ours) && used.Add(i)) found.Add(ours, i);
        }
        return found;
    }

    private static bool IsText(IReadOnlyList<string> header)
    {
        ArgumentNullException.ThrowIfNull(header);
        return header.Count > MostColumns || header.Any(name => name.Length > LongestName);
    }

    /// <summary>Every needed column found counts 3, every other 1; a column nobody needs and a needed one that is missing count
    /// against.</summary>
    private static int Fit(CsvKind kind, IReadOnlyList<string> header)
    {
        var columns = Columns(kind.Kind, header);
        var needed = kind.Required.Count(columns.ContainsKey);
        var named = header.Count(name => name.Length > 0);
        return (3 * needed) + (columns.Count - needed) - (2 * (kind.Required.Length - needed)) - (named - columns.Count);
    }

    /// <summary>0 the name itself, 1 another word for it, more the more slips; null when it is not meant.</summary>
    private static int? Distance(string ours, string theirs)
    {
        var (us, them) = (Plain(ours), Plain(theirs));
        if (them.Length == 0) return null;
        if (us == them) return 0;
        if (Synonyms.TryGetValue(ours, out var words) && words.Any(word => Plain(word) == them)) return 1;
        var slips = EditDistance.Between(us, them);
        return them.Length > 2 && slips <= Math.Max(1, us.Length / 4) ? 1 + slips : null;
    }

    /// <summary>Small letters and digits alone, m² as m2: "Yard (m²)" is yardm2.</summary>
    private static string Plain(string name) =>
        string.Concat(NameKey.Fold(new string([.. name.Where(c => !char.IsSurrogate(c))])).Replace('²', '2').Where(char.IsLetterOrDigit));
}
