using System.Globalization;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>characters.csv, shipped beside the catalogue: how each plant is built. Further columns may follow; they are left
/// alone.</summary>
public static class CharactersFile
{
    /// <summary>The words each column of words may hold; seed-data/README.md says what they mean.</summary>
    public static IReadOnlyDictionary<string, IReadOnlyList<string>> Words { get; } = new Dictionary<string,
        IReadOnlyList<string>>(StringComparer.Ordinal)
    {
        ["form"] = ["clump", "single", "scape", "mat", "tuft", "sod", "fern", "vine", "shrub", "tree", "conifer"],
        ["habit"] = ["erect", "arching", "leaning"],
        ["branched"] = ["yes", "no"],
        ["leaf_place"] = ["basal", "alternate", "opposite", "whorled"],
        ["rosette"] = ["yes", "no"],
        ["leaf_shape"] =
        [
            "blade", "linear", "strap", "sword", "lanceolate", "elliptic", "ovate", "cordate", "arrow", "kidney", "round", "obovate",
                "spatulate", "oblong", "pinnate",
            "trifoliate", "trident", "ternate", "palmate", "pinnatifid", "perfoliate", "lobed", "frond", "frond2", "lacy",
                "pad",
        ],
        ["leaf_edge"] = ["entire", "toothed", "lobed", "spiny"],
        ["inflorescence"] =
        [
            "none", "solitary", "few", "spray", "corymb", "dome", "balls", "pyramid", "panicle", "plume", "spike", "buttons", "raceme",
                "nodraceme", "sideraceme", "tubes",
            "candelabra", "thimbles", "cluster", "umbels", "axilumbels", "compoundumbel", "umbelnod", "nod", "irises", "ground",
                "turkeyfoot", "racemes", "openpanicle", "grassplume",
            "onesided", "nodspike", "sedge", "sedgespike", "foxtail", "foxtailnod", "cattail",
        ],
        ["flower"] =
        [
            "none", "ray", "small", "fuzz", "button", "shag", "mint", "whitebutton", "milkweed", "pea", "lip", "tube", "three", "bottle",
                "monarda", "globe", "thimble", "iris",
            "columbine", "smoke", "shooting", "onion", "salver", "dense", "ball", "thistle", "trumpet", "bell", "spathe", "violet",
                "catkin", "spikelet", "grain", "oat", "awn", "egg",
        ],
        ["ray_tip"] = ["rounded", "pointed", "notched"],
        ["flower_colour"] = ["white", "yellow", "orange", "red", "pink", "purple", "blue", "green", "brown", "straw"],
        ["centre_colour"] = ["white", "yellow", "orange", "red", "pink", "purple", "blue", "green", "brown", "dark", "straw"],
        ["seed_head"] =
        [
            "none", "cone", "disk", "fluff", "puff", "pompon", "globe", "pod", "bigpod", "indigo", "button", "capsule", "bigcapsule",
                "follicle", "beak", "umbelseed", "umbelcaps",
            "plumes", "thimble", "grainspike", "berry", "bur", "samara", "bean", "silique", "nut", "cattail", "spikelet", "grain", "oat",
                "awn", "egg",
        ],
        ["seed_colour"] = ["white", "yellow", "orange", "red", "pink", "blue", "green", "brown", "dark", "straw"],
        ["winter"] = ["stand", "fountain", "collapse", "evergreen", "bare", "gone"],
        ["dry_colour"] = ["straw", "copper", "amber"],
        ["first_year_flowers"] = ["yes", "no"],
    };

    /// <summary>Reads the file.</summary>
    /// <exception cref="FormatException">A column is missing or a row is broken; the message names file, line, column and
    /// value.</exception>
    public static IReadOnlyList<Characters> Read(string fileName, byte[] content)
    {
        var table = CsvTable.ReadShipped(fileName, content);
        var row = new CharactersRow(fileName, table.Header);
        var all = table.Records.Select(row.Read).ToList();
        var twice = all.GroupBy(c => c.ScientificName, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1);
        return twice is null ? all
            : throw new FormatException($"{fileName} names {twice.Key} {twice.Count().ToString(CultureInfo.InvariantCulture)} times; keep "
            + $"one row.");
    }
}
