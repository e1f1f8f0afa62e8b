using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace CommonGround.Interchange.Csv;

/// <summary>One record of a CSV file: the line it starts on and its cells, trimmed.</summary>
internal sealed record CsvRecord(int Line, string[] Cells)
{
    public bool IsBlank => Array.TrueForAll(Cells, cell => cell.Length == 0);
}

/// <summary>A CSV file cut into cells by RFC 4180, before anything is known of its columns.</summary>
internal sealed class CsvTable
{
    private const int LongestCell = 10_000;

    private CsvTable(FileText file) => (File, Errors) = (file, file.Errors);

    public FileText File { get; }
    public List<ImportError> Errors { get; }
    public string[] Header { get; private set; } = [];

    /// <summary>−1 when the header itself could not be cut into cells: nothing more can be said of the file.</summary>
    public int HeaderLine { get; private set; }
    public List<CsvRecord> Records { get; } = [];

    public static CsvTable Read(FileText file)
    {
        var table = new CsvTable(file);
        var configuration = new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = ",",
            Mode = CsvMode.RFC4180,
            IgnoreBlankLines = false,
            CountBytes = false,
            // Found again below, with a reason; without this the parser would throw.
            BadDataFound = null,
        };
        using var text = new StringReader(file.Text!);
        using var parser = new CsvParser(text, configuration);
        var nextLine = 1;
        while (parser.Read())
        {
            var record = new CsvRecord(nextLine, Array.ConvertAll(parser.Record ?? [], Trim));
            nextLine += LinesIn(parser.RawRecord);
            var flaw = FlawOf(parser.RawRecord);
            if (flaw == QuoteFlaw.None) table.Take(record);
            else table.RefuseQuotes(record, parser.RawRecord, flaw);
        }
        return table;
    }

    public void Refuse(int line, string column, string value, string what, string howToMend) =>
        Errors.Add(new ImportError(File.Name, line, column, ImportError.Shown(value), what, howToMend));

    private void Take(CsvRecord record)
    {
        if (record.IsBlank) return;
        if (HeaderLine < 0) return;
        if (Header.Length == 0)
        {
            HeaderLine = record.Line;
            Header = Array.ConvertAll(record.Cells, name => name.ToLowerInvariant());
            return;
        }
        var tooLong = Array.FindIndex(record.Cells, cell => cell.Length > LongestCell);
        if (tooLong >= 0)
        {
            Refuse(record.Line, tooLong < Header.Length ? Header[tooLong] : "", record.Cells[tooLong], $"The cell holds {record.Cells[tooLong].Length} characters.",
                $"Shorten it to {LongestCell} characters, or look for a quote mark that was never closed.");
            return;
        }
        var (cells, width) = (record.Cells, Header.Length);
        if (cells.Length > width && Array.TrueForAll(cells[width..], cell => cell.Length == 0)) cells = cells[..width];
        if (cells.Length == width)
        {
            Records.Add(record with { Cells = cells });
            return;
        }
        Refuse(record.Line, "", "", $"The row has {cells.Length} cells, the header has {width}.", cells.Length > width
            ? "Put quote marks around a text that holds a comma."
            : "Add the missing commas: a blank cell still has its comma.");
    }

    private void RefuseQuotes(CsvRecord record, string raw, QuoteFlaw flaw)
    {
        if (Header.Length == 0) HeaderLine = -1;
        var (what, howToMend) = flaw switch
        {
            QuoteFlaw.NeverClosed => ("A quote mark opens here and is never closed.", "Close it, or double a quote mark that belongs to the text."),
            QuoteFlaw.TextAfterClosing => ("Text follows a closing quote mark.", "Put the whole cell inside the quote marks and double those that belong to the text."),
            _ => ("A quote mark stands in the middle of a cell.", "Put quote marks around the whole cell and double the one inside: \"a 5\"\" pot\"."),
        };
        Refuse(record.Line, "", raw.Trim(), what, howToMend);
    }

    private enum QuoteFlaw { None, NeverClosed, TextAfterClosing, InTheMiddle }

    /// <summary>Whether quote marks stand only where RFC 4180, rules 5 to 7, allows them: around a whole cell, and doubled inside.</summary>
    private static QuoteFlaw FlawOf(string raw)
    {
        if (!raw.Contains('"', StringComparison.Ordinal)) return QuoteFlaw.None;
        var place = Place.Start;
        var flaw = QuoteFlaw.None;
        foreach (var c in raw)
        {
            (place, var found) = (place, c) switch
            {
                (Place.Inside, '"') => (Place.Closed, QuoteFlaw.None),
                (Place.Inside, _) => (Place.Inside, QuoteFlaw.None),
                (_, ',' or '\n' or '\r') => (Place.Start, QuoteFlaw.None),
                (Place.Start or Place.Closed, '"') => (Place.Inside, QuoteFlaw.None),
                (Place.Closed, _) => (Place.Plain, QuoteFlaw.TextAfterClosing),
                (Place.Plain, '"') => (Place.Plain, QuoteFlaw.InTheMiddle),
                _ => (Place.Plain, QuoteFlaw.None),
            };
            if (flaw == QuoteFlaw.None) flaw = found;
        }
        return flaw == QuoteFlaw.None && place == Place.Inside ? QuoteFlaw.NeverClosed : flaw;
    }

    private enum Place { Start, Plain, Inside, Closed }

    /// <summary>A line ends with LF, CR or CRLF; inside quotes as well.</summary>
    private static int LinesIn(string raw)
    {
        var lines = 0;
        for (var i = 0; i < raw.Length; i++)
        {
            if (raw[i] == '\n' || (raw[i] == '\r' && (i + 1 == raw.Length || raw[i + 1] != '\n'))) lines++;
        }
        return lines;
    }

    private static string Trim(string? cell) => (cell ?? "").Trim();
}
