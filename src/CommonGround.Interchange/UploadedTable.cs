using CommonGround.Interchange.Csv;
using CommonGround.Interchange.GeoJson;
using CommonGround.Interchange.Names;
using CommonGround.Interchange.Spreadsheets;

namespace CommonGround.Interchange;

/// <summary>What somebody brought, before it is decided how to read it: a CSV file, one sheet of a workbook, or a GeoJSON file.</summary>
/// <remarks>Opening never throws for what a file holds. A table keeps its cells, not its bytes, and may be read more than once.</remarks>
public sealed class UploadedTable
{
    private const int MostRowsLookedAt = 5_000;
    private readonly CsvTable? table;

    /// <summary>The table as the command line reads it: its first row is the header.</summary>
    private readonly CsvTable? strict;
    private readonly ImportFile? whole;

    private UploadedTable(CsvTable table, CsvTable strict) => (this.table, this.strict, Name) = (table, strict, table.Name);

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
            return [.. Workbook.Read(FileText.LastPart(fileName), content).Select(sheet => sheet.HeaderLine > 0
                ? new UploadedTable(sheet.WithHeader(HeaderRow.Find(sheet)), sheet) : Refused(sheet.Name, sheet.Errors))];
        var file = new FileText(fileName, content);
        if (file.Text is null) return [Refused(file.Name, file.Errors)];
        if (file.LooksLikeJson) return [new UploadedTable(BlockShapeReader.Read(file))];
        return [CsvReading.CutLoosely(file) is { } table ? new UploadedTable(table, table) : Refused(file.Name, file.Errors)];
    }

    /// <summary>The line of the row that names the columns; 0 where there are none.</summary>
    public int HeaderLine => table?.HeaderLine ?? 0;

    /// <summary>The first rows as they came, titles and header among them, each with its line.</summary>
    public IReadOnlyList<(int Line, IReadOnlyList<string> Cells)> TopRows(int count) => table is null ? []
        : [.. table.Written.Take(count).Select(r => (r.Line, (IReadOnlyList<string>)r.Cells))];

    /// <summary>The same table with another of its rows for the header.</summary>
    public UploadedTable WithHeader(int line) => table is null || table.Written.All(r => r.Line != line) ? this
        : new UploadedTable(table.WithHeader(line), strict!);

    /// <summary>The unit that a column's heading says.</summary>
    public MeasureUnit? UnitOf(string ours, int column) => table is null ? null
        : MeasureUnit.InHeading(table.WrittenHeader[column]).Unit is { } unit && unit.Quantity == MeasureUnit.Of(ours) ? unit : null;

    /// <summary>The figures that a column's cells hold without a unit of their own.</summary>
    public IReadOnlyList<double> Figures(int column) => table is null ? [] : [.. table.Records.Take(MostRowsLookedAt)
        .Select(r => UntidyNumber.Read(r.Cells[column], "", null)).OfType<(double Value, string Guess)>().Select(f => f.Value)];

    /// <summary>A day of the matched columns that is written without its year; empty where there is none.</summary>
    public string DayWithoutYear(IReadOnlyDictionary<string, int> columns, DateOrder order)
    {
        ArgumentNullException.ThrowIfNull(columns);
        var days = columns.Where(c => CsvKind.IsDay(c.Key)).Select(c => c.Value).ToList();
        return table?.Records.Take(MostRowsLookedAt).SelectMany(r => days.Select(i => r.Cells[i]))
            .FirstOrDefault(cell => UntidyDay.LacksYear(cell, order)) ?? "";
    }

    /// <summary>The only year that the rows above the header and the file's name speak of; null where there is none or several.</summary>
    public int? YearSpokenOf()
    {
        if (table is null) return null;
        var texts = table.Written.TakeWhile(r => r.Line < table.HeaderLine).SelectMany(r => r.Cells).Append(Name);
        var years = texts.SelectMany(text => text.Split([.. " .,-_/()"], StringSplitOptions.RemoveEmptyEntries))
            .Where(word => word.Length == 4 && word.StartsWith("20", StringComparison.Ordinal) && word.All(char.IsAsciiDigit))
            .Distinct().ToList();
        return years.Count == 1 ? int.Parse(years[0], System.Globalization.CultureInfo.InvariantCulture) : null;
    }

    /// <summary>Whether rows leave a place or day blank below one that names it.</summary>
    public bool LeavesBlanks(ImportKind kind, IReadOnlyDictionary<string, int> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        if (table is null || CsvKind.Of(kind) is not { } its) return false;
        var held = its.Required.Where(c => c != CsvKind.ScientificName && !CsvKind.IsNumber(c) && columns.ContainsKey(c))
            .Select(c => columns[c]).ToList();
        return held.Exists(at => table.Records.SkipWhile(r => r.Cells[at].Length == 0)
            .Any(r => r.Cells[at].Length == 0 && r.Cells.Count(c => c.Length > 0) > 1));
    }

    /// <summary>The first rows, to show what a column holds.</summary>
    public IReadOnlyList<IReadOnlyList<string>> FirstRows(int count) => table is null ? []
        : [.. table.Records.Take(count).Select(r => r.Cells)];

    /// <summary>Columns that somebody still has to match or leave: those a correction file has of its own are not among them.</summary>
    public bool IsOwnColumn(int column) => table is not null && IsOwn(table.Header[column]);

    private bool IsOwn(string name) => CorrectionFile.IsOwn(table!.Header, name);

    /// <summary>The best guess at how the file wants to be read.</summary>
    public ReadingChoices Guess()
    {
        if (table is null) return new ReadingChoices(whole!.Kind, new Dictionary<string, int>(StringComparer.Ordinal), DateOrder.YearFirst);
        var own = CsvReading.KindOf(table);
        // Our own names, each of them: nothing to guess.
        return Guess(own is not null && table.Header.All(c => c.Length == 0 || IsOwn(c) || own.Knows(c)) ? own.Kind
            : ColumnMatching.Kind(NamesToMatch()));
    }

    /// <summary>The best guess where somebody says which kind of rows it holds.</summary>
    public ReadingChoices Guess(ImportKind kind)
    {
        var columns = table is null ? new Dictionary<string, int>(StringComparer.Ordinal) : ColumnMatching.Columns(kind, NamesToMatch());
        return new ReadingChoices(kind, columns, DaysOf(columns).Only)
        {
            // In a file of our own a blank cell is a slip.
            BlankAsAbove = LeavesBlanks(kind, columns) && !IsOwnFormat(kind)
        };
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
        bool Lacks(string column) => !choices.Columns.ContainsKey(column) && choices.Same.GetValueOrDefault(column, "").Length == 0
            && !(column == "yard" && choices.MakeCodes);
        foreach (var missing in kind.Required.Where(Lacks))
            again.Refuse(table.HeaderLine, missing, "", $"No column is matched to {missing}.", "Choose the column that holds it.");
        if (kind.Required.Any(Lacks)) return new ImportFile { FileName = Name, Kind = kind.Kind, Errors = again.Errors };
        var (tidy, columns, notices) = Tidying.Tidy(again, kind, choices);
        var read = NameChoices.Apply(CsvReading.ReadRows(tidy, kind, columns, choices.Order), choices.Names);
        return read with { Notices = [.. notices, .. read.Notices] };
    }

    /// <summary>All rows as CSV, the bad ones first with a column "reason", to be corrected and imported again; null where the file has no
    /// rows to correct.</summary>
    public string? ToCorrect(ReadingChoices choices, IEnumerable<ImportError> errors)
    {
        ArgumentNullException.ThrowIfNull(choices);
        ArgumentNullException.ThrowIfNull(errors);
        if (table is null) return null;
        var columns = choices.Kind == ImportKind.Catalogue ? choices with { Columns = Guess(ImportKind.Unrecognised).Columns } : choices;
        if (CsvKind.Of(choices.Kind) is not { Kind: not ImportKind.Catalogue } kind)
            return CorrectionFile.Write(table, columns, errors.Where(e => e.File == Name));
        // What was understood is written as it was understood, so that the corrected file asks nothing again.
        var (tidy, matched, _) = Tidying.Tidy(table.Again(), kind, choices, withAside: true);
        return CorrectionFile.Write(tidy, choices with { Columns = matched }, errors.Where(e => e.File == Name));
    }

    internal static UploadedTable Refused(string name, IReadOnlyList<ImportError> errors) =>
        new(new ImportFile { FileName = name, Errors = errors });

    /// <summary>Reads a table by the names its header has, as the command line does.</summary>
    internal ImportFile ReadByHeader() => table is null ? whole! : CsvReading.Read(strict!.Again());

    private bool IsOwnFormat(ImportKind kind) => CsvKind.Of(kind) is { } its
        && table!.Header.All(c => c.Length == 0 || IsOwn(c) || its.Knows(c));

    /// <summary>The header without the columns of a correction file.</summary>
    private string[] NamesToMatch() => [.. table!.WrittenHeader.Select((name, i) => IsOwnColumn(i) ? "" : name)];
}
