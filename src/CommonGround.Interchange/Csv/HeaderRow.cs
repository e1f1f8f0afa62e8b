namespace CommonGround.Interchange.Csv;

/// <summary>Finds the row that names the columns below titles, dates and blank rows.</summary>
internal static class HeaderRow
{
    private const int MostLookedAt = 30, TwoColumns = 5;

    /// <summary>The line of the row that names the most columns; where none names two, the first row of two or more different cells, and
    /// else the first row.</summary>
    public static int Find(CsvTable table)
    {
        var rows = table.Written.Take(MostLookedAt).ToList();
        var best = rows.Select(r => (r.Line, Known: Different(r) < 2 ? 0 : ColumnMatching.Recognised(r.Cells))).MaxBy(r => r.Known);
        return best.Known >= TwoColumns ? best.Line : (rows.Find(r => Different(r) > 1) ?? rows[0]).Line;
    }

    /// <summary>A title over merged cells stands in each of them.</summary>
    private static int Different(CsvRecord row) => row.Cells.Where(c => c.Length > 0).Distinct(StringComparer.Ordinal).Take(2).Count();
}
