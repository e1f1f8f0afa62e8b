using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace CommonGround.Interchange.Csv;

/// <summary>Writes CSV by RFC 4180: comma, CRLF, quote marks only where needed.</summary>
public static class CsvText
{
    /// <summary>Beginnings that a spreadsheet takes for a formula: OWASP, "CSV Injection", and its ASVS 5.0, requirement 1.2.10 (which adds
    /// the null character).</summary>
    private const string FormulaStarts = "=+-@\t\r\n\0\uFF1D\uFF0B\uFF0D\uFF20";

    // Spaces at either end are quoted too: many readers cut them off otherwise.
    private static readonly CsvConfiguration Rfc4180 = new(CultureInfo.InvariantCulture)
    {
        NewLine = "\r\n",
        ShouldQuote = cell => cell.Field is { } text && (text.AsSpan().IndexOfAny("\",\r\n") >= 0
            || text.AsSpan().Trim().Length != text.Length),
    };

    /// <summary>A table as text.</summary>
    /// <param name="header">Column names.</param>
    /// <param name="rows">Cells as they shall stand in the file; people's texts go through <see cref="Guard"/> first.</param>
    public static string Write(IReadOnlyList<string> header, IEnumerable<IReadOnlyList<string>> rows)
    {
        ArgumentNullException.ThrowIfNull(header);
        ArgumentNullException.ThrowIfNull(rows);
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new CsvWriter(text, Rfc4180))
        {
            WriteRow(csv, header);
            foreach (var row in rows) WriteRow(csv, row);
        }
        return text.ToString();
    }

    /// <summary>A double as the shortest text that reads back the same; null is blank.</summary>
    public static string Number(double? value) => value is { } known ? CellFormats.Write(known) : "";

    /// <summary>A day as year-month-day; null is blank.</summary>
    public static string Day(DateOnly? value) => value is { } known ? CellFormats.Write(known) : "";

    /// <summary>Puts an apostrophe before a text that a spreadsheet would take for a formula (it starts with = + - @ or their full-width
    /// forms, tab, a line break or null).</summary>
    /// <remarks>Reading takes the apostrophe away again, so a text comes back as it went.</remarks>
    public static string Guard(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return StartsLikeFormula(text) ? "'" + text : text;
    }

    /// <summary>Takes away the apostrophe that <see cref="Guard"/> put there.</summary>
    public static string Unguard(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.StartsWith('\'') && StartsLikeFormula(text) ? text[1..] : text;
    }

    /// <summary>Apostrophes and spaces in front do not matter: so a text that really starts with '= survives the round trip as
    /// well.</summary>
    private static bool StartsLikeFormula(string text)
    {
        var start = text.AsSpan().TrimStart("' ");
        return start.Length > 0 && FormulaStarts.Contains(start[0], StringComparison.Ordinal);
    }

    private static void WriteRow(CsvWriter csv, IReadOnlyList<string> cells)
    {
        foreach (var cell in cells) csv.WriteField(cell);
        csv.NextRecord();
    }
}
