using CommonGround.Interchange.Catalogue;

namespace CommonGround.Interchange.Csv;

/// <summary>plant-overrides.csv: values of plants that a group has put in the catalogue's place, each with its reason.</summary>
public static class PlantOverrideRows
{
    private const int LongestValue = 200, LongestReason = 500;

    /// <summary>plant-overrides.csv, ready to be read again.</summary>
    public static string Write(IEnumerable<PlantOverrideRow> rows) =>
        CsvText.Write(CsvKind.Overrides.Columns,
            rows.Select(r => (string[])[CsvText.Guard(r.ScientificName), r.Trait, CsvText.Guard(r.Value), CsvText.Guard(r.Reason)]));

    internal static List<PlantOverrideRow> Read(CsvTable table, RowCells cells)
    {
        var rows = new List<PlantOverrideRow>();
        var seen = new HashSet<(string, string)>();
        foreach (var record in table.Records)
        {
            cells.Open(record);
            var row = new PlantOverrideRow(record.Line, cells.Code("scientific_name"), cells.Code("trait"), cells.Code("override_value"),
                cells.Text("override_reason"));
            if (row.Reason.Length == 0) cells.Refuse("override_reason", "The cell is blank.", "Say why the group knows better.");
            if (row.Reason.Length > LongestReason)
                cells.Refuse("override_reason", $"The text has {row.Reason.Length} characters.", $"Shorten it to {LongestReason}.");
            if (row.Value.Length > LongestValue)
                cells.Refuse("override_value", $"The text has {row.Value.Length} characters.", $"Shorten it to {LongestValue}.");
            if (row.Trait.Length > 0 && PlantTraits.Of(row.Trait) is null)
                cells.Refuse(
                    "trait", $"\"{row.Trait}\" is not a value that can be overridden.", $"Write one of "
                        + $"{string.Join(", ", PlantTraits.All.Select(t => t.Column))}.");
            if (!seen.Add((row.ScientificName, row.Trait)))
                cells.Refuse("trait", "The plant has this value overridden twice.", "Keep one of the rows.");
            if (cells.Fine) rows.Add(row);
        }
        return rows;
    }
}
