using System.Globalization;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Spreadsheets;

/// <summary>A table to take away: the same rows as CSV and as XLSX.</summary>
/// <param name="Name">Name of the sheet, at most 31 characters.</param>
/// <param name="Columns">Headings, in order.</param>
/// <param name="Rows">Texts, numbers and blanks, one for each column.</param>
public sealed record Sheet(string Name, IReadOnlyList<string> Columns, IReadOnlyList<object?[]> Rows)
{
    /// <summary>Comma-separated, UTF-8 when written; RFC 4180.</summary>
    public string ToCsv() => CsvText.Write(Columns, Rows.Select(row => (string[])[.. row.Select(Cell)]));

    /// <summary>Office Open XML (ECMA-376); numbers stay numbers, texts are never formulas, not even after somebody saves the sheet as
    /// CSV.</summary>
    public void WriteXlsx(Stream target) => WriteXlsx(target, [this]);

    /// <summary>One workbook, a sheet a table.</summary>
    public static void WriteXlsx(Stream target, IEnumerable<Sheet> sheets) => WorkbookWriter.Write(target, sheets);

    /// <summary>A CSV text of ours as a sheet: what we would write as a number is one, all else is text.</summary>
    public static Sheet Of(string name, string csv)
    {
        ArgumentNullException.ThrowIfNull(csv);
        var table = CsvTable.Read(new FileText(name, System.Text.Encoding.UTF8.GetBytes(csv)));
        return new Sheet(name, table.WrittenHeader, [.. table.Records.Select(r => Array.ConvertAll(r.Cells, Typed))]);
    }

    /// <summary>A code such as 007 stays a text: as a number it would come back as 7.</summary>
    private static object? Typed(string cell) => cell.Length == 0 ? null : CellFormats.TryNumber(cell, out var number)
        && CellFormats.Write(number) == cell ? number : CsvText.Unguard(cell);

    private static string Cell(object? value) => value switch
    {
        null => "",
        string text => CsvText.Guard(text),
        IFormattable figure => figure.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString() ?? "",
    };
}
