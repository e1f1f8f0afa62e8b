using System.Globalization;
using CommonGround.Interchange.Csv;
using MiniExcelLibs;
using MiniExcelLibs.OpenXml;

namespace CommonGround.Interchange.Spreadsheets;

/// <summary>A table to take away: the same rows as CSV and as XLSX.</summary>
/// <param name="Name">Name of the sheet, at most 31 characters.</param>
/// <param name="Columns">Headings, in order.</param>
/// <param name="Rows">Texts, numbers and blanks, one for each column.</param>
public sealed record Sheet(string Name, IReadOnlyList<string> Columns, IReadOnlyList<object?[]> Rows)
{
    /// <summary>Cells that a spreadsheet would take for a formula (OWASP, "CSV Injection").</summary>
    private static readonly System.Buffers.SearchValues<char> FormulaStarts = System.Buffers.SearchValues.Create("=+-@\t\r");

    /// <summary>Comma-separated, UTF-8 when written; RFC 4180.</summary>
    public string ToCsv() => CsvText.Write(Columns, Rows.Select(row => (string[])[.. row.Select(Cell)]));

    /// <summary>Office Open XML (ECMA-376); numbers stay numbers, texts are never formulas.</summary>
    public void WriteXlsx(Stream target)
    {
        var rows = Rows.Select(row => Columns.Select((column, i) => (column, value: row[i])).ToDictionary(c => c.column, c => c.value));
        target.SaveAs(Rows.Count == 0 ? [Columns.ToDictionary(c => c, _ => (object?)null)] : rows, sheetName: Name, configuration: new OpenXmlConfiguration { AutoFilter = false, TableStyles = TableStyles.None });
    }

    private static string Cell(object? value) => value switch
    {
        null => "",
        // A quote in front makes it a text, as OWASP advises.
        string text => text.Length > 0 && FormulaStarts.Contains(text[0]) ? "'" + text : text,
        IFormattable figure => figure.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString() ?? "",
    };
}
