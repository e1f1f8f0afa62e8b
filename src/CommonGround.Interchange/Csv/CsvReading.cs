using CommonGround.Interchange.Catalogue;

namespace CommonGround.Interchange.Csv;

/// <summary>Tells a CSV file's kind by its header and reads its rows.</summary>
internal static class CsvReading
{
    /// <summary>Far more than any kind has; a header beyond them is somebody's text, not worth comparing name by name.</summary>
    private const int MostColumns = 200, LongestName = 100;

    private static readonly char[] Separators = [',', ';', '\t', '|'];

    /// <summary>The file cut into cells; what is wrong with it stands among its errors.</summary>
    public static CsvTable? Cut(FileText file)
    {
        if (IsOtherwiseSeparated(file)) return null;
        var table = CsvTable.Read(file);
        if (table.Header.Length == 0 && table.Errors.Count == 0)
            table.Refuse(0, "", "", "The file holds blank cells only.", "Save it again with at least its header line.");
        return table.HeaderLine > 0 ? table : null;
    }

    /// <summary>The same, whatever stands between the cells, below whichever row names the columns.</summary>
    public static CsvTable? CutLoosely(FileText file)
    {
        var separator = SeparatorOf(file.Text!);
        var table = CsvTable.Read(file, separator);
        if (table.Header.Length == 0 && table.Errors.Count == 0)
            table.Refuse(0, "", "", "The file holds blank cells only.", "Save it again with at least its header line.");
        return table.HeaderLine > 0 ? table.WithHeader(HeaderRow.Find(table)) : null;
    }

    /// <summary>What most often stands between the cells of the first lines; a comma where nothing does.</summary>
    private static char SeparatorOf(string text)
    {
        var lines = text.Split('\n', 31).Take(30).ToList();
        return Separators.MaxBy(mark => lines.Count(line => line.Contains(mark, StringComparison.Ordinal)));
    }

    public static ImportFile Read(FileText file) => Cut(file) is { } table ? Read(table)
        : new ImportFile { FileName = file.Name, Errors = file.Errors };

    /// <summary>The rows of a table whose header names our columns.</summary>
    public static ImportFile Read(CsvTable table)
    {
        var nothing = new ImportFile { FileName = table.Name, Errors = table.Errors };
        if (KindOf(table) is not { } kind)
        {
            RefuseKind(table);
            return nothing;
        }
        return ColumnsOf(table, kind) is { } columns ? ReadRows(table, kind, columns, DateOrder.YearFirst)
            : nothing with { Kind = kind.Kind };
    }

    /// <summary>The rows of a table, its columns found by number.</summary>
    public static ImportFile ReadRows(CsvTable table, CsvKind kind, IReadOnlyDictionary<string, int> columns, DateOrder order)
    {
        var cells = new RowCells(table, columns, order);
        var read = new ImportFile { FileName = table.Name, Kind = kind.Kind };
        var notices = new List<ImportError>();
        read = kind.Kind switch
        {
            ImportKind.Places => read with { Places = PlaceRows.Read(table, cells) },
            ImportKind.Beds => read with { Beds = PlaceRows.ReadBeds(table, cells) },
            ImportKind.Sightings => read with { Sightings = SightingRows.Read(table, cells, notices) },
            ImportKind.Infestations => read with { Infestations = SightingRows.ReadInfestations(table, cells) },
            ImportKind.Rain => read with { Rain = WeatherRows.ReadRain(table, cells) },
            ImportKind.Temperature => read with { Temperatures = WeatherRows.ReadTemperatures(table, cells) },
            ImportKind.Prices => read with { Prices = PriceRows.Read(table, cells) },
            ImportKind.Overrides => read with { Overrides = PlantOverrideRows.Read(table, cells) },
            _ => read with { Taxa = CatalogueRows.Read(table, cells) },
        };
        return read with { Errors = [.. table.Errors.OrderBy(e => e.Line)], Notices = notices };
    }

    private static bool IsOtherwiseSeparated(FileText file)
    {
        var header = file.Text!.AsSpan().TrimStart();
        var end = header.IndexOfAny('\r', '\n');
        if (end >= 0) header = header[..end];
        if (header.Contains(',')) return false;
        var (separator, word) = header.Contains(';') ? (';', "semicolons") : header.Contains('\t') ? ('\t', "tabs") : header.Contains('|')
            ? ('|', "vertical bars") : (' ', "");
        if (word.Length == 0) return false;
        file.Errors.Add(new ImportError(file.Name, 1, "", ImportError.Shown(header),
            $"The file is separated by {word}.", $"Save it again separated by commas, with a point for the decimal mark; \"{separator}\" "
                + $"may then stay inside texts."));
        return true;
    }

    /// <summary>The kind whose own column names the header has, or null.</summary>
    public static CsvKind? KindOf(CsvTable table)
    {
        var header = table.Header.Where(c => c.Length > 0 && !CorrectionFile.IsOwn(table.Header, c)).ToList();
        if (header.Count == 0) return null;
        if (header.Count <= MostColumns && header.TrueForAll(name => name.Length <= LongestName))
        {
            var best = CsvKind.All.MaxBy(kind => kind.Fit(header))!;
            if (header.Exists(best.Knows) && best.Fit(header) >= header.Count / 2) return best;
        }
        return null;
    }

    private static void RefuseKind(CsvTable table)
    {
        if (Array.TrueForAll(table.Header, name => name.Length == 0)) return;
        table.Refuse(table.HeaderLine, "", string.Join(',', table.Header), "The header matches no kind of file.",
            "Begin with the column names of places, beds, sightings, infestations, rain, temperature or prices as described in csv-columns.");
    }

    /// <summary>Column name → index, or null when the header leaves no sense in reading rows.</summary>
    private static Dictionary<string, int>? ColumnsOf(CsvTable table, CsvKind kind)
    {
        var errorsBefore = table.Errors.Count;
        var columns = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < table.Header.Length; i++)
        {
            var name = table.Header[i];
            if (CorrectionFile.IsOwn(table.Header, name)) continue;
            if (name.Length == 0)
            {
                var filled = table.Records.Find(r => r.Cells[i].Length > 0);
                if (filled is not null)
                    table.Refuse(filled.Line, "", filled.Cells[i], $"The value stands in column {i + 1}, which has no name.",
                        "Name the column in the header or clear it.");
                continue;
            }
            if (!columns.TryAdd(name, i)) table.Refuse(table.HeaderLine, name, name, "The column is there twice.", "Keep one of the two.");
            // The catalogue may carry further columns of its keeper; people's files may not, so that a slip in a name is not lost.
            if (!kind.Knows(name) && (kind.Kind != ImportKind.Catalogue || kind.Nearest(name) is not null)) RefuseColumn(table, kind, name);
        }
        foreach (var missing in kind.Required.Where(c => !columns.ContainsKey(c)))
            table.Refuse(table.HeaderLine, missing, "", $"The column {missing} is missing from this {WordFor(kind.Kind)} file.",
                "Add it to the header, and its values to every row.");
        return table.Errors.Count == errorsBefore || table.Errors.Skip(errorsBefore).All(e => e.Line != table.HeaderLine) ? columns : null;
    }

    private static void RefuseColumn(CsvTable table, CsvKind kind, string name) =>
        table.Refuse(table.HeaderLine, name, name, $"A {WordFor(kind.Kind)} file has no column of this name.",
            kind.Nearest(name) is { } near ? $"Did you mean {near}?"
                : $"Take the column out; known are {string.Join(", ", kind.Columns)}.");

    private static string WordFor(ImportKind kind) => kind.ToString().ToLowerInvariant();
}
