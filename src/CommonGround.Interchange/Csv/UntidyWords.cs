using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Csv;

/// <summary>What people write where a column wants one of a few words.</summary>
internal static class UntidyWords
{
    private static readonly string[] NotKnown = ["", "na", "nodata", "unknown", "unk", "notsure", "dontknow", "dk", "tbd", "notmeasured",
        "notrecorded", "nil", "null", "notknown", "varies"];

    private static readonly string[] Yes = ["y", "yes", "yep", "yeah", "ok", "okay", "true", "x", "1", "sure", "agreed", "consented"];
    private static readonly string[] No = ["n", "no", "nope", "false", "0", "none", "never"];

    private static readonly Dictionary<string, (string Word, string[] Written)[]> Known = new(StringComparer.Ordinal)
    {
        ["light"] =
        [
            ("full_sun", ["full", "fullsun", "sun", "sunny", "fs", "allday", "alldaysun", "verysunny", "fullsunny", "bright", "open",
                "fulsun", "6hrs", "6hours", "8hrs", "8hours"]),
            ("part_shade", ["part", "partsun", "partshade", "partial", "partialsun", "partialshade", "partlysunny", "partlyshady",
                "ptshade", "ptsun", "ps", "semi", "semishade", "halfsun", "halfshade", "half", "halfday", "mixed", "dappled",
                "dappledshade", "filtered", "somesun", "someshade", "morningsun", "afternoonsun", "sunpart", "sunpartshade", "lightshade",
                "medium", "med", "4hrs", "4hours"]),
            ("shade", ["shade", "shady", "fullshade", "deepshade", "heavyshade", "allshade", "mostlyshade", "dark", "dense"]),
        ],
        ["moisture"] =
        [
            ("dry", ["dry", "verydry", "xeric", "dryish", "driesout", "sandydry"]),
            ("medium", ["med", "medium", "mesic", "average", "avg", "normal", "regular", "m", "mid", "moderate", "drymesic", "ok", "fine"]),
            ("moist", ["moist", "damp", "wetmesic", "moistish", "mostlymoist", "dampish"]),
            ("wet", ["wet", "soggy", "swampy", "boggy", "verywet", "standingwater", "floods", "raingarden"]),
        ],
        ["soil_group"] = [.. "ABCD".Select(c => ($"{c}", new[] { $"{c}".ToLowerInvariant(), $"group{c}".ToLowerInvariant(),
            $"type{c}".ToLowerInvariant(), $"hsg{c}".ToLowerInvariant() }))],
        ["certainty"] =
        [
            ("certain", ["certain", "sure", "yes", "y", "positive", "definite", "confirmed", "100"]),
            ("probable", ["probable", "probably", "likely", "prettysure", "fairlysure", "think", "ithinkso"]),
            ("tentative", ["tentative", "maybe", "unsure", "notsure", "guess", "no", "possible", "possibly", "doubtful"]),
        ],
        ["origin"] =
        [
            ("planted", ["planted", "plugs", "plug", "seeded", "sown", "bought", "nursery", "transplant", "transplanted", "plantedplugs"]),
            ("self_sown", ["selfsown", "volunteer", "volunteered", "selfseeded", "seededitself", "cameup", "wild", "spread", "reseeded"]),
            ("relict", ["relict", "remnant", "alwaysthere", "wasthere"]),
            ("unknown", ["unknown"]),
        ],
        ["finding"] =
        [
            ("growing", ["growing", "alive", "present", "good", "fine", "ok", "there", "yes", "established"]),
            ("ended", ["ended", "removed", "moved", "takenout", "dugout"]),
            ("died", ["died", "dead", "winterkill", "winterkilled"]),
            ("not_found", ["notfound", "notseen", "missing", "gone", "no", "didntfind"]),
        ],
        // BBCH principal stages: Meier (ed.), Growth stages of mono- and dicotyledonous plants, 2nd edition, 2001, table 1.
        ["growth_stage"] =
        [
            ("0", ["sprouting", "emerging", "germinating"]), ("1", ["leaf", "leafing", "leaves", "leavesonly", "rosette"]),
            ("5", ["bud", "buds", "budding", "inbud"]),
            ("6", ["flower", "flowers", "flowering", "inflower", "bloom", "blooming", "inbloom", "fl", "fullbloom"]),
            ("7", ["fruit", "fruiting", "infruit", "berries"]), ("8", ["seed", "seeds", "inseed", "seedheads", "gonetoseed", "ripe"]),
            ("9", ["dormant", "dead", "dieback", "brown"]),
        ],
    };

    /// <summary>Whether a cell says that nobody knows: "?", "n/a", "–".</summary>
    public static bool MeansBlank(string cell) => cell.Length is > 0 and < 20 && NotKnown.Contains(Plain(cell), StringComparer.Ordinal);

    /// <summary>The word of ours that a cell means; null where the column has none like it.</summary>
    public static string? Read(string column, string cell)
    {
        if (cell.Length > 30) return null;
        var plain = Plain(cell);
        if (column == "shared")
            return Array.IndexOf(Yes, plain) >= 0 || cell is "✓" or "✔" ? "yes" : Array.IndexOf(No, plain) >= 0 ? "no" : null;
        return Known.TryGetValue(column, out var words)
            ? Array.Find(words, w => Array.IndexOf(w.Written, plain) >= 0).Word : null;
    }

    private static string Plain(string cell) =>
        string.Concat(NameKey.Fold(new string([.. cell.Where(c => !char.IsSurrogate(c))])).Where(char.IsLetterOrDigit));
}
