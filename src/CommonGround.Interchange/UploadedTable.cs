using CommonGround.Interchange.Csv;
using CommonGround.Interchange.GeoJson;
using CommonGround.Interchange.Names;
using CommonGround.Interchange.Spreadsheets;

namespace CommonGround.Interchange;

/// <summary>What somebody brought, before it is decided how to read it: a CSV file, one sheet of a workbook, or a GeoJSON file.</summary>
/// <remarks>Opening never throws for what a file holds. A table keeps its cells, not its bytes, and may be read more than once.</remarks>
public sealed class UploadedTable
{
    private readonly CsvTable? table;
    private readonly ImportFile? whole;

    private UploadedTable(CsvTable table) => (this.table, Name) = (table, table.Name);

    private UploadedTable(ImportFile whole) => (this.whole, Name) = (whole, whole.FileName);

    /// <summary>Name of the file, and of the sheet where the workbook has several.</summary>
    public string Name { get; }

    /// <summary>Whether there are columns to match. GeoJSON has none, and a file that cannot be cut into rows neither.</summary>
    public bool HasColumns => table is not null;

    /// <summary>The columns as somebody named them; blank where one has no name.</summary>
    public IReadOnlyList<string> Header => table?.WrittenHeader ?? [];

    /// <summary>Rows below the header, bad ones included; of GeoJSON the features read.</summary>
    public int RowCount => table is null ? whole!.RowCount : table.Records.Count + table.Refused.Count;

    /// <summary>Opens a file; a workbook gives a table for each sheet that holds anything.</summary>
    /// <param name="fileName">Shown in errors; a path is cut down to its last part.</param>
    /// <param name="content">The whole file.</param>
    public static IReadOnlyList<UploadedTable> Open(string fileName, byte[] content)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        ArgumentNullException.ThrowIfNull(content);
        if (Workbook.IsZip(content))
            return [.. Workbook.Read(FileText.LastPart(fileName), content).Select(sheet => sheet.HeaderLine > 0 ? new UploadedTable(sheet)
                : Refused(sheet.Name, sheet.Errors))];
        var file = new FileText(fileName, content);
        if (file.Text is null) return [Refused(file.Name, file.Errors)];
        if (file.LooksLikeJson) return [new UploadedTable(BlockShapeReader.Read(file))];
        return [CsvReading.Cut(file) is { } table ? new UploadedTable(table) : Refused(file.Name, file.Errors)];
    }

    /// <summary>The first rows, to show what a column holds.</summary>
    public IReadOnlyList<IReadOnlyList<string>> FirstRows(int count) => table is null ? []
        : [.. table.Records.Take(count).Select(r => r.Cells)];

    /// <summary>Columns that somebody still has to match or leave: those a correction file has of its own are not among them.</summary>
    public bool IsOwnColumn(int column) => table is not null && CorrectionFile.IsOwn(table.Header, table.Header[column]);

    /// <summary>The best guess at how the file wants to be read.</summary>
    public ReadingChoices Guess()
    {
        if (table is null) return new ReadingChoices(whole!.Kind, new Dictionary<string, int>(StringComparer.Ordinal), DateOrder.YearFirst);
        return Guess(CsvReading.KindOf(table)?.Kind ?? ColumnMatching.Kind(NamesToMatch()));
    }

    /// <summary>The best guess where somebody says which kind of rows it holds.</summary>
    public ReadingChoices Guess(ImportKind kind)
    {
        var columns = table is null ? new Dictionary<string, int>(StringComparer.Ordinal) : ColumnMatching.Columns(kind, NamesToMatch());
        return new ReadingChoices(kind, columns, DaysOf(columns).Only);
    }

    /// <summary>How the days in the matched date columns are written.</summary>
    public DateOrders DaysOf(IReadOnlyDictionary<string, int> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        if (table is null) return DateOrders.Of([]);
        var days = columns.Where(c => CsvKind.IsDay(c.Key)).Select(c => c.Value).ToList();
        return DateOrders.Of(table.Records.SelectMany(r => days.Select(i => r.Cells[i])));
    }

    /// <summary>Reads the rows as chosen. A column that is not chosen is not taken.</summary>
    public ImportFile Read(ReadingChoices choices)
    {
        ArgumentNullException.ThrowIfNull(choices);
        if (table is null) return whole!;
        var again = table.Again();
        if (CsvKind.Of(choices.Kind) is not { } kind)
        {
            again.Refuse(0, "", "", "It is not said what the rows of this file are.", "Choose their kind.");
            return new ImportFile { FileName = Name, Errors = again.Errors };
        }
        // The catalogue carries a source for each group of columns, and columns of its keeper: it is read by its own header alone.
        if (kind.Kind == ImportKind.Catalogue) return CsvReading.Read(again);
        foreach (var missing in kind.Required.Where(c => !choices.Columns.ContainsKey(c)))
            again.Refuse(table.HeaderLine, missing, "", $"No column is matched to {missing}.", "Choose the column that holds it.");
        if (kind.Required.Any(c => !choices.Columns.ContainsKey(c)))
            return new ImportFile { FileName = Name, Kind = kind.Kind, Errors = again.Errors };
        return NameChoices.Apply(CsvReading.ReadRows(again, kind, choices.Columns, choices.Order), choices.Names);
    }

    /// <summary>All rows as CSV, the bad ones first with a column "reason", to be corrected and imported again; null where the file has no
    /// rows to correct.</summary>
    public string? ToCorrect(ReadingChoices choices, IEnumerable<ImportError> errors)
    {
        ArgumentNullException.ThrowIfNull(choices);
        ArgumentNullException.ThrowIfNull(errors);
        if (table is null) return null;
        var columns = choices.Kind == ImportKind.Catalogue ? choices with { Columns = Guess(ImportKind.Unrecognised).Columns } : choices;
        return CorrectionFile.Write(table, columns, errors.Where(e => e.File == Name));
    }

    internal static UploadedTable Refused(string name, IReadOnlyList<ImportError> errors) =>
        new(new ImportFile { FileName = name, Errors = errors });

    /// <summary>Reads a table by the names its header has, as the command line does.</summary>
    internal ImportFile ReadByHeader() => table is null ? whole! : CsvReading.Read(table.Again());

    /// <summary>The header without the columns of a correction file.</summary>
    private string[] NamesToMatch() => [.. table!.WrittenHeader.Select((name, i) => IsOwnColumn(i) ? "" : name)];
}
