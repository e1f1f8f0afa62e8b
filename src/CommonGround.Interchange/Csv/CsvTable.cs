using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace CommonGround.Interchange.Csv;

/// <summary>One record of a CSV file: the line it starts on and its cells, trimmed.</summary>
internal sealed record CsvRecord(int Line, string[] Cells)
{
    public bool IsBlank => Array.TrueForAll(Cells, cell => cell.Length == 0);
}

/// <summary>A row that could not be cut into the header's cells, kept so that a correction file can hold it.</summary>
internal sealed record RefusedRecord(int Line, string[] Cells, string Reason);

/// <summary>A CSV file or a sheet cut into cells, before anything is known of its columns.</summary>
internal sealed class CsvTable
{
    private const int LongestCell = 10_000;

    /// <summary>The rows as they came, so that another of them can be taken for the header.</summary>
    private List<(CsvRecord Record, QuoteFlaw Flaw, string Raw)> written = [];
    private int errorsOfFile;

    /// <summary>Whether rows shorter than the header may be notes below the table, and a row of units may follow the header.</summary>
    private bool isLoose;

    private CsvTable(string name, List<ImportError> errors) => (Name, Errors) = (name, errors);

    /// <summary>Name of the file, for its errors.</summary>
    public string Name { get; }
    public List<ImportError> Errors { get; }
    public string[] Header { get; private set; } = [];

    /// <summary>The header as somebody wrote it.</summary>
    public string[] WrittenHeader { get; private set; } = [];

    /// <summary>−1 when the header itself could not be cut into cells: nothing more can be said of the file.</summary>
    public int HeaderLine { get; private set; }
    public List<CsvRecord> Records { get; private init; } = [];

    /// <summary>Rows with an error of their own, apart from <see cref="Records"/>.</summary>
    public List<RefusedRecord> Refused { get; private init; } = [];

    /// <summary>A table of a spreadsheet's rows; they are not text, so quote marks and line breaks have no say in them.</summary>
    public static CsvTable Of(string name, List<ImportError> errors, IEnumerable<CsvRecord> rows)
    {
        var table = new CsvTable(name, errors);
        foreach (var row in rows) table.written.Add((row with { Cells = Array.ConvertAll(row.Cells, Trim) }, QuoteFlaw.None, ""));
        return table.Cut(0);
    }

    /// <summary>The first rows that hold anything, as they came.</summary>
    public IEnumerable<CsvRecord> Written => written.Where(r => !r.Record.IsBlank).Select(r => r.Record);

    /// <summary>The same table with another row for its header; rows above it are left out, and one below it that holds units alone is
    /// added to it.</summary>
    public CsvTable WithHeader(int line)
    {
        var table = new CsvTable(Name, [.. Errors.Take(errorsOfFile)]) { written = written, isLoose = true };
        return table.Cut(line);
    }

    /// <summary>The same table with other rows, as they were tidied.</summary>
    public CsvTable With(string[] header, List<CsvRecord> rows) => new(Name, Errors)
    {
        Header = Array.ConvertAll(header, name => name.ToLowerInvariant()),
        WrittenHeader = header,
        HeaderLine = HeaderLine,
        Records = rows,
        Refused = Refused
    };

    private CsvTable Cut(int fromLine)
    {
        errorsOfFile = Errors.Count;
        foreach (var (record, flaw, raw) in written)
        {
            if (record.Line < fromLine) continue;
            if (flaw == QuoteFlaw.None) Take(record);
            else RefuseQuotes(record, raw, flaw);
        }
        InOriginalOrder();
        return this;
    }

    /// <summary>The same rows under a list of errors of its own, so that they can be read more than once.</summary>
    public CsvTable Again() => new(Name, [.. Errors])
    {
        Header = Header,
        WrittenHeader = WrittenHeader,
        HeaderLine = HeaderLine,
        Records = Records,
        Refused = Refused,
        written = written,
        errorsOfFile = errorsOfFile,
        isLoose = isLoose
    };

    /// <summary>A file that comes with the program, in which nothing may be wrong.</summary>
    /// <exception cref="FormatException">It cannot be read or a row is broken; the message names it.</exception>
    public static CsvTable ReadShipped(string fileName, byte[] content)
    {
        var file = new FileText(fileName, content);
        if (file.Text is null) throw new FormatException($"{fileName} cannot be read: {file.Errors[0].What}");
        var table = Read(file);
        return table.Errors.Count == 0 ? table
            : throw new FormatException($"{fileName}, line {table.Errors[0].Line}: {table.Errors[0].What}");
    }

    /// <param name="file">The file's text.</param>
    /// <param name="separator">What stands between two cells.</param>
    public static CsvTable Read(FileText file, char separator = ',')
    {
        var table = new CsvTable(file.Name, file.Errors);
        var configuration = new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = separator.ToString(),
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
            var flaw = FlawOf(parser.RawRecord, separator);
            table.written.Add((record, flaw, flaw == QuoteFlaw.None ? "" : parser.RawRecord));
        }
        return table.Cut(0);
    }

    /// <summary>A correction file holds the bad rows first; where two rows speak of the same thing the later of the original still
    /// holds.</summary>
    private void InOriginalOrder()
    {
        var order = Array.IndexOf(Header, CorrectionFile.LineColumn);
        if (order < 0 || Array.IndexOf(Header, CorrectionFile.ReasonColumn) < 0) return;
        var sorted = Records.OrderBy(r => int.TryParse(r.Cells[order], NumberStyles.None, CultureInfo.InvariantCulture, out var line)
            ? line : int.MaxValue).ToList();
        Records.Clear();
        Records.AddRange(sorted);
    }

    public void Refuse(int line, string column, string value, string what, string howToCorrect) =>
        Errors.Add(new ImportError(Name, line, column, ImportError.Shown(value), what, howToCorrect));

    private void Take(CsvRecord record)
    {
        if (record.IsBlank) return;
        if (HeaderLine < 0) return;
        if (Header.Length == 0)
        {
            HeaderLine = record.Line;
            WrittenHeader = record.Cells;
            Header = Array.ConvertAll(record.Cells, name => name.ToLowerInvariant());
            return;
        }
        if (isLoose && Records.Count + Refused.Count == 0 && TakeUnits(record)) return;
        var tooLong = Array.FindIndex(record.Cells, cell => cell.Length > LongestCell);
        if (tooLong >= 0)
        {
            Refuse(record.Line, tooLong < Header.Length ? Header[tooLong] : "",
                record.Cells[tooLong], $"The cell holds {record.Cells[tooLong].Length} characters.",
                $"Shorten it to {LongestCell} characters, or look for a quote mark that was never closed.");
            Keep(record.Line, record.Cells);
            return;
        }
        var (cells, width) = (record.Cells, Header.Length);
        if (cells.Length > width && Array.TrueForAll(cells[width..], cell => cell.Length == 0)) cells = cells[..width];
        if (isLoose && cells.Length < width && cells.Count(cell => cell.Length > 0) == 1)
            cells = [.. cells, .. Enumerable.Repeat("", width - cells.Length)];
        if (cells.Length == width)
        {
            Records.Add(record with { Cells = cells });
            return;
        }
        Refuse(record.Line, "", "", $"The row has {cells.Length} cells, the header has {width}.", cells.Length > width
            ? "Put quote marks around a text that holds a comma."
            : "Add the missing commas: a blank cell still has its comma.");
        Keep(record.Line, record.Cells);
    }

    /// <summary>A row of units below the header: "sq ft" below "Lot".</summary>
    private bool TakeUnits(CsvRecord record)
    {
        var filled = record.Cells.Where(cell => cell.Length > 0).ToList();
        if (record.Cells.Length > Header.Length
            || !filled.TrueForAll(cell => MeasureUnit.InHeading(cell) is { Name.Length: 0, Unit: not null })) return false;
        WrittenHeader = [.. WrittenHeader.Select((name, i) => i < record.Cells.Length && record.Cells[i].Length > 0
            ? $"{name} ({record.Cells[i].Trim('(', ')')})" : name)];
        Header = Array.ConvertAll(WrittenHeader, name => name.ToLowerInvariant());
        return true;
    }

    private void Keep(int line, string[] cells, string? reason = null) =>
        Refused.Add(new RefusedRecord(line, cells, reason ?? $"{Errors[^1].What} {Errors[^1].HowToCorrect}"));

    private void RefuseQuotes(CsvRecord record, string raw, QuoteFlaw flaw)
    {
        if (Header.Length == 0) HeaderLine = -1;
        var (what, howToCorrect) = flaw switch
        {
            QuoteFlaw.NeverClosed => ("A quote mark opens here and is never closed.",
                "Close it, or double a quote mark that belongs to the text."),
            QuoteFlaw.TextAfterClosing => ("Text follows a closing quote mark.",
                "Put the whole cell inside the quote marks and double those that belong to the text."),
            _ => ("A quote mark stands in the middle of a cell.",
                "Put quote marks around the whole cell and double the one inside: \"a 5\"\" pot\"."),
        };
        Refuse(record.Line, "", raw.Trim(), what, howToCorrect);
        if (flaw != QuoteFlaw.NeverClosed)
        {
            Keep(record.Line, record.Cells);
            return;
        }
        // The open quote mark swallowed every row after it: each line becomes a row again, cut at its commas.
        var lines = raw.ReplaceLineEndings("\n").Split('\n');
        for (var i = 0; i < lines.Length; i++)
        {
            if (lines[i].Trim().Length > 0) Keep(record.Line + i, Array.ConvertAll(lines[i].Split(','), Trim), i == 0 ? null
                : "An earlier row has a quote mark that is never closed. Check that this row is whole.");
        }
    }

    private enum QuoteFlaw { None, NeverClosed, TextAfterClosing, InTheMiddle }

    /// <summary>Whether quote marks stand only where RFC 4180, rules 5 to 7, allows them: around a whole cell, and doubled
    /// inside.</summary>
    private static QuoteFlaw FlawOf(string raw, char separator)
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
                (_, '\n' or '\r') => (Place.Start, QuoteFlaw.None),
                (_, var sign) when sign == separator => (Place.Start, QuoteFlaw.None),
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
