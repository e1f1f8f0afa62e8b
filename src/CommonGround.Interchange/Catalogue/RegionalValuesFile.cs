using System.Globalization;
using CommonGround.Ecology.Regions;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>regions/values.csv and regions/bloom-places.csv, shipped beside the catalogue: what each regional table says of each
/// taxon.</summary>
public static class RegionalValuesFile
{
    /// <summary>Reads the values: scientific name → what is published.</summary>
    /// <exception cref="FormatException">A column is missing or a cell is broken; the message names it.</exception>
    public static IReadOnlyDictionary<string, TaxonRegions> Read(string fileName, byte[] content)
    {
        var (at, records) = Open(fileName, content);
        var name = Column(fileName, at, "scientific_name");
        int[] states = [Column(fileName, at, "usda_native_states"), Column(fileName, at, "usda_introduced_states"),
            Column(fileName, at, "epa_states")];
        var tables = RegionalTables.All.Select(t => (t.Id, Value: Column(fileName, at, t.Id),
            Wetland: Column(fileName, at, t.Id + "_wetland"), As: Column(fileName, at, t.Id + "_as"))).ToArray();
        var found = new Dictionary<string, TaxonRegions>(records.Count, StringComparer.Ordinal);
        foreach (var (line, cells) in records)
        {
            var said = new Dictionary<string, RegionalValue>(StringComparer.Ordinal);
            foreach (var table in tables)
            {
                if (cells[table.Value].Length > 0)
                {
                    said[table.Id] = Value(fileName, line, table.Id, cells[table.Value], cells[table.Wetland], cells[table.As]);
                }
            }

            found.Add(cells[name], new TaxonRegions(cells[name], said, States(cells[states[0]]), States(cells[states[1]]),
                States(cells[states[2]])));
        }

        return found;
    }

    /// <summary>Reads where bloom was observed: name of the place → how many days later spring comes there than in northern
    /// Illinois.</summary>
    /// <exception cref="FormatException">A column is missing or a cell is no number; the message names it.</exception>
    public static IReadOnlyDictionary<string, double> ReadBloomPlaces(string fileName, byte[] content)
    {
        var (at, records) = Open(fileName, content);
        double Number((int Line, string[] Cells) record, string column) => double.TryParse(record.Cells[Column(fileName, at, column)],
            NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            ? number : throw new FormatException($"{fileName}, line {record.Line}: {column} is no number.");
        return records.ToDictionary(r => r.Cells[Column(fileName, at, "bloom_place")],
            r => SpringShift.Days(Number(r, "lat_n"), Number(r, "lon_w"), Number(r, "elevation_m")), StringComparer.Ordinal);
    }

    /// <summary>"native 6", "native 4-6", "introduced" or "depends".</summary>
    private static RegionalValue Value(string fileName, int line, string table, string cell, string wetland, string name)
    {
        var words = cell.Split(' ');
        var (nativity, known) = words[0] switch
        {
            "native" => (Nativity.Native, true),
            "introduced" => (Nativity.Introduced, true),
            "depends" => (Nativity.Unknown, true),
            _ => (Nativity.Unknown, false)
        };
        double? low = null, high = null;
        if (words.Length == 2)
        {
            var ends = words[1].Split('-');
            known &= ends.Length <= 2 && ends.All(e => double.TryParse(e, NumberStyles.Float, CultureInfo.InvariantCulture, out var c)
                && c is >= 0 and <= 10);
            if (known)
            {
                (low, high) = (double.Parse(ends[0], CultureInfo.InvariantCulture), double.Parse(ends[^1], CultureInfo.InvariantCulture));
            }
        }

        var indicator = WetlandIndicator.Unknown;
        return known && words.Length <= 2 && (wetland.Length == 0 || Words.WetlandIndicator.TryRead(wetland, out indicator))
            ? new RegionalValue(nativity, low, high, indicator, name)
            : throw new FormatException($"{fileName}, line {line}: “{cell}”, “{wetland}” of {table} cannot be read. Write native with C "
            + $"from 0 to 10, introduced or depends, and OBL, FACW, FAC, FACU, UPL or nothing.");
    }

    private static string[] States(string cell) => cell.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private static int Column(string fileName, Dictionary<string, int> at, string column) => at.TryGetValue(column, out var index) ? index
        : throw new FormatException($"{fileName} has no column {column}.");

    private static (Dictionary<string, int> At, List<(int Line, string[] Cells)> Records) Open(string fileName, byte[] content)
    {
        var table = CsvTable.ReadShipped(fileName, content);
        return (table.Header.Index().ToDictionary(p => p.Item, p => p.Index, StringComparer.Ordinal),
            table.Records.ConvertAll(r => (r.Line, r.Cells)));
    }
}
