namespace CommonGround.Interchange.Csv;

/// <summary>prices.csv: what seed and plants cost here.</summary>
public static class PriceRows
{
    private const string Range = "of money from 0 to 10000; leave it blank when nobody knows";

    /// <summary>prices.csv, ready to be read again.</summary>
    public static string Write(IEnumerable<PlantPriceRow> rows) =>
        CsvText.Write(CsvKind.Prices.Columns, rows.Select(r => (string[])[CsvText.Guard(r.ScientificName), CsvText.Number(r.SeedPerGram),
            CsvText.Number(r.PlugEach)]));

    internal static List<PlantPriceRow> Read(CsvTable table, RowCells cells)
    {
        var rows = new List<PlantPriceRow>();
        var seen = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        foreach (var record in table.Records)
        {
            cells.Open(record);
            var row = new PlantPriceRow(record.Line, cells.Code("scientific_name"),
                cells.OptionalNumber("seed_per_gram", 0, 10_000, Range), cells.OptionalNumber("plug_each", 0, 10_000, Range));
            if (!cells.Fine) continue;
            if (seen.TryAdd(row.ScientificName, record.Line)) rows.Add(row);
            else cells.Refuse("scientific_name", $"The plant is already on line {seen[row.ScientificName]}.", "Keep one of the rows.");
        }
        return rows;
    }
}
