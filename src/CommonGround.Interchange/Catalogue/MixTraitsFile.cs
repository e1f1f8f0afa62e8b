using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>The traits of a mix as read, and everything wrong with the file.</summary>
public sealed record MixTraitsTable(IReadOnlyDictionary<string, MixTraits> ByName, IReadOnlyList<ImportError> Errors)
{
    /// <summary>The taxon with its traits; unchanged where the file has none for it or for a synonym.</summary>
    public CatalogueTaxon With(CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        var name = new[] { taxon.ScientificName }.Concat(taxon.Synonyms).FirstOrDefault(ByName.ContainsKey);
        return name is null ? taxon : taxon with { Mix = ByName[name] };
    }
}

/// <summary>mix-attributes.csv: role, spread, longevity and the like, one row a taxon.</summary>
public static class MixTraitsFile
{
    private static readonly Dictionary<string, AdvisedAgainst> Against = Words<AdvisedAgainst>();
    private static readonly Dictionary<string, WetlandIndicator> Wetland = new(StringComparer.OrdinalIgnoreCase)
    {
        ["OBL"] = WetlandIndicator.Obligate,
        ["FACW"] = WetlandIndicator.FacultativeWetland,
        ["FAC"] = WetlandIndicator.Facultative,
        ["FACU"] = WetlandIndicator.FacultativeUpland,
        ["UPL"] = WetlandIndicator.Upland,
    };

    /// <summary>Reads the file; rows with an error are left out and said.</summary>
    public static MixTraitsTable Read(string fileName, byte[] content)
    {
        ArgumentNullException.ThrowIfNull(content);
        var file = new FileText(fileName, content);
        if (file.Text is null) return new(new Dictionary<string, MixTraits>(), file.Errors);
        var table = CsvTable.Read(file);
        var columns = table.Header.Index().ToDictionary(c => c.Item, c => c.Index, StringComparer.Ordinal);
        var cells = new RowCells(table, columns);
        var found = new Dictionary<string, MixTraits>(StringComparer.Ordinal);
        foreach (var record in table.Records)
        {
            cells.Open(record);
            var row = Row(cells);
            if (found.ContainsKey(row.ScientificName)) cells.Refuse("scientific_name", "The taxon is there twice.", "Keep one row.");
            if (cells.Fine) found.Add(row.ScientificName, row);
        }

        return new(found, table.Errors);
    }

    private static MixTraits Row(RowCells cells)
    {
        var tables = List(cells, "native_tables");
        var spread = Word<Spreading>(cells, "spread");
        var longevity = Word<Longevity>(cells, "longevity");
        var seed = Word<FromSeed>(cells, "from_seed");
        var height = cells.OptionalNumber("height_max_m", 0, 120, "of metres from 0 to 120");
        return new()
        {
            ScientificName = cells.Code("scientific_name"),
            Role = Word<MixRole>(cells, "role"),
            Spread = spread,
            Longevity = longevity,
            FromSeed = seed,
            MostSeedsPerSquareFoot = cells.Number("max_seeds_per_ft2", 0, 100, "of seeds from 0 to 100"),
            Kerb = cells.YesOrNo("kerb"),
            AdvisedAgainst = Choose(cells, "advised_against", Against),
            Wetland = Choose(cells, "wetland_indicator", Wetland),
            NativeTables = [.. tables.Where(t => t[0] != '-')],
            IntroducedTables = [.. tables.Where(t => t[0] == '-').Select(t => t[1..])],
            HeightMinMetres = cells.OptionalNumber("height_min_m", 0, 120, "of metres from 0 to 120"),
            HeightMaxMetres = height,
            Trade = Word<Trade>(cells, "trade"),
            Site = cells.Has("site") ? Word<SiteNeed>(cells, "site") : SiteNeed.None,
            Salt = cells.YesOrNo("salt"),
            Browsed = cells.YesOrNo("browsed"),
            Communities = List(cells, "community"),
            Notes = cells.Text("notes"),
            Basis = cells.Has("basis") ? cells.Text("basis") : "from memory",
            Disputed =
            [
                .. Second(cells, "spread", "spread", cells.Raw("spread")),
                    .. Second(cells, "longevity", "longevity", cells.Raw("longevity")),
                .. Second(cells, "from_seed", "from seed", cells.Raw("from_seed")),
                    .. Second(cells, "height_max", "height", cells.Raw("height_max_m"), "_second_m"),
            ],
        };
    }

    private static IEnumerable<DisputedTrait> Second(RowCells cells, string column, string trait, string used, string ending = "_second") =>
        cells.Has(column + ending) ? [new(trait, used.Replace('_', ' '), cells.Text(column + ending).Replace('_', ' '))] : [];

    private static T Word<T>(RowCells cells, string column)
        where T : struct, Enum
    {
        if (cells.Has(column)) return Choose(cells, column, Words<T>());
        cells.Refuse(column, "The cell is blank.", $"Write one of {string.Join(", ", Words<T>().Keys)}.");
        return default;
    }

    private static T Choose<T>(RowCells cells, string column, Dictionary<string, T> words)
        where T : struct, Enum
    {
        if (!cells.Has(column) || words.TryGetValue(cells.Raw(column), out var value))
            return cells.Has(column) ? words[cells.Raw(column)] : default;
        cells.Refuse(column, "The word is not one of those this column knows.", $"Write one of {string.Join(", ", words.Keys)}.");
        return default;
    }

    /// <summary>The words of a column: the names of the values in small letters, with _ between.</summary>
    private static Dictionary<string, T> Words<T>()
        where T : struct, Enum => Enum.GetValues<T>().ToDictionary(
            v => string.Concat(v.ToString().Select((c, i) => char.IsUpper(c) && i > 0 ? "_" + char.ToLowerInvariant(c)
                : char.ToLowerInvariant(c).ToString())),
            StringComparer.OrdinalIgnoreCase);

    private static string[] List(RowCells cells, string column) =>
        cells.Text(column).Split('|', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
}
