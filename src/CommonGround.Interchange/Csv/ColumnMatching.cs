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
        ["street"] = ["streetname", "road", "avenue", "st", "onstreet", "lane"],
        ["block"] = ["blockname", "segment", "between", "crossstreets", "betweenstreets", "blockbetween"],
        ["yard"] = ["yardcode", "yardid", "garden", "gardencode", "site", "siteid", "plot", "parcel", "locationid",
            "code", "yardno", "yardnumber", "house", "houseno", "whichyard", "property", "place", "location"],
        ["bed"] = ["bedname", "border", "patch", "where", "spot", "bedlocation", "gardenbed", "part", "partofyard",
            "position"],
        ["latitude"] = ["lat", "y", "decimallatitude", "north"],
        ["longitude"] = ["lon", "lng", "long", "x", "decimallongitude", "east"],
        ["yard_m2"] = ["yardarea", "yardsize", "yardsqm", "lotsize", "sizem2", "lot", "lotarea", "wholeyard", "parcelsize", "propertysize",
            "wholelot", "totalarea", "totalyard", "propertyarea", "size"],
        ["lawn_m2"] = ["lawn", "lawnarea", "turf", "grassm2", "grass", "lawnsize", "turfarea", "lawnleft", "grassarea", "mowed", "mown"],
        ["light"] = ["sun", "exposure", "sunlight", "sunshade", "sunorshade", "lightlevel", "howsunny", "hoursofsun"],
        ["moisture"] = ["water", "wetness", "soilmoisture", "wetordry", "drywet", "wetdry", "howwet", "soilwetness", "damp"],
        ["soil_group"] = ["soil", "hydrologicgroup", "hsg"],
        ["household"] = ["householdlabel", "family", "owner", "name", "homeowner", "neighbour", "neighbor", "resident", "who", "person",
            "householdname", "gardener", "people", "names", "contact"],
        ["shared"] = ["share", "sharing", "consent", "public", "oktoshare", "mayshare", "permission", "agreed", "shareok", "canshare"],
        ["area_m2"] = ["area", "size", "sqm", "squaremetres", "squaremeters", "m2", "bedsize", "bedarea"],
        ["established_on"] = ["established", "plantedon", "planted", "since", "dateplanted", "whenplanted", "yearplanted"],
        ["scientific_name"] = ["scientificname", "species", "taxon", "plant", "plantname", "latinname", "latin", "botanicalname", "name",
            "plants", "common", "commonname", "flower", "whatisit", "speciesname", "what",
            "plantspecies", "latinnames", "botanical", "weed", "kind",
            "whatgrows"],
        ["observed_on"] = ["date", "day", "observed", "seen", "seenon", "eventdate", "observationdate", "visitdate", "when", "dateseen",
            "dateobserved", "dateofvisit", "dayseen", "lastseen", "whenseen", "checked", "datechecked", "surveydate", "dateofsurvey"],
        ["cover_m2"] = ["cover", "coverage", "covered", "area", "aream2", "sqm", "squaremetres", "squaremeters", "m2", "size", "howbig",
            "patchsize", "space", "areacovered", "spread", "extent"],
        ["count"] = ["number", "plants", "stems", "howmany", "individualcount", "quantity", "qty", "no",
            "numberofplants", "noofplants", "plantcount", "ofplants", "clumps", "numbers"],
        ["origin"] = ["source", "howitcame", "plantedorwild", "howitgothere", "plantedorvolunteer"],
        ["certainty"] = ["sure", "howsure", "confidence", "areyousure", "idsure", "sureofid"],
        ["growth_stage"] = ["stage", "bbch", "phenology", "inbloom", "blooming", "flowering", "status", "growthstage"],
        ["observer"] = ["recordedby", "seenby", "walker", "who", "recorder", "volunteer", "surveyor", "by", "checkedby"],
        ["remarks"] = ["notes", "note", "comment", "comments", "occurrenceremarks", "remark", "other",
            "misc", "observations", "memo"],
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
        var weeds = Columns(ImportKind.Infestations, header);
        if (CsvKind.Infestations.Required.All(weeds.ContainsKey) && SpeaksOfWeeds(header, weeds)) return ImportKind.Infestations;
        var best = CsvKind.All.Where(kind => kind.Kind != ImportKind.Infestations || SpeaksOfWeeds(header, weeds))
            .Select(kind => (kind, Fit: Fit(kind, header))).MaxBy(k => k.Fit);
        if (best.Fit > 0) return best.kind.Kind;
        // Plants with a number, a size or a day are plants seen; what the list does not say is asked.
        var seen = Columns(ImportKind.Sightings, header);
        return seen.ContainsKey(CsvKind.ScientificName) && seen.Keys.Any(c => c is "count" or "cover_m2" or "observed_on" or "yard")
            ? ImportKind.Sightings : ImportKind.Unrecognised;
    }

    /// <summary>Plants seen and unwanted plants have nearly the same columns: how much of an area is covered, or a weed in a heading, tells
    /// them apart.</summary>
    private static bool SpeaksOfWeeds(IReadOnlyList<string> header, IReadOnlyDictionary<string, int> columns) =>
        (columns.TryGetValue("cover_percent", out var at) && Plain(header[at]) is not "cover" and not "coverage")
            || header.Any(name => WeedWords.Any(word => Plain(name).Contains(word, StringComparison.Ordinal)));

    private static readonly string[] WeedWords = ["weed", "invasive", "infest", "unwanted"];

    /// <summary>Column of ours → number of the file's column; each is used once.</summary>
    public static IReadOnlyDictionary<string, int> Columns(ImportKind kind, IReadOnlyList<string> header)
    {
        var found = new Dictionary<string, int>(StringComparer.Ordinal);
        if (CsvKind.Of(kind) is not { } known || IsText(header)) return found;
        // Where rows have no household of their own, its label tells the yard.
        var byHousehold = !known.Knows("household");
        int? Far(string ours, string theirs) => Distance(ours, theirs)
            ?? (byHousehold && ours == "yard" && Distance("household", theirs) <= 1 ? 2 : null);
        var pairs = known.Columns.SelectMany((ours, place) => header.Select((theirs, i) => (ours, i, place, Far: Far(ours, theirs))))
            .Where(p => p.Far is not null).OrderBy(p => p.Far).ThenBy(p => p.place).ThenBy(p => p.i);
        var used = new HashSet<int>();
        foreach (var (ours, i, _, _) in pairs)
        {
            if (!found.ContainsKey(ours) && used.Add(i)) found.Add(ours, i);
        }
        return found;
    }

    /// <summary>How many columns of the likeliest kind a row would name, were it the header: 3 for each by its own name or another word
    /// for it, 2 for each with slips.</summary>
    internal static int Recognised(IReadOnlyList<string> row) => IsText(row) ? 0 : CsvKind.All.Where(k => k.Kind != ImportKind.Catalogue)
        .Max(kind => Columns(kind.Kind, row).Sum(c => Distance(c.Key, row[c.Value]) <= 1 ? 3 : 2));

    /// <summary>A second column of plant names, which stands in where the first is blank; −1 where there is none.</summary>
    internal static int SpareName(IReadOnlyList<string> header, IReadOnlyDictionary<string, int> columns) =>
        !columns.TryGetValue(CsvKind.ScientificName, out var taken) ? -1
            : header.Index().Where(h => h.Index != taken && !columns.Values.Contains(h.Index)
                && Distance(CsvKind.ScientificName, h.Item) <= 1).Select(h => h.Index).DefaultIfEmpty(-1).First();

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
        if (Synonyms.TryGetValue(ours, out var words) && words.Contains(them, StringComparer.Ordinal)) return 1;
        // "Lot sq ft" is "lot" to a column that holds areas; "sq ft" alone is whatever area the row has.
        if (MeasureUnit.Of(ours) is var quantity && quantity != Quantity.None && MeasureUnit.InHeading(theirs) is { Unit: { } unit } said
            && unit.Quantity == quantity)
        {
            var bare = MeasureUnit.InHeading(ours).Name;
            return said.Name.Length == 0 || said.Name == bare || words?.Contains(said.Name, StringComparer.Ordinal) == true ? 1 : null;
        }
        var slips = EditDistance.Between(us, them);
        return them.Length > 2 && slips <= Math.Max(1, us.Length / 4) ? 1 + slips : null;
    }

    /// <summary>Small letters and digits alone, m² as m2: "Yard (m²)" is yardm2.</summary>
    private static string Plain(string name) =>
        string.Concat(NameKey.Fold(new string([.. name.Where(c => !char.IsSurrogate(c))])).Replace('²', '2').Where(char.IsLetterOrDigit));
}
