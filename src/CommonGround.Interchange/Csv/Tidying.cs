using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Csv;

/// <summary>
/// Turns the rows of an untidy table into rows that strict reading takes: units into ours, days year first, words into ours, blanks
/// filled from above, rows that are no rows left out. What cannot be made sense of stays as written, and strict reading says what is wrong.
/// </summary>
internal sealed class Tidying
{
    /// <summary>Columns whose blank cells may mean the row above, the wider place first.</summary>
    private static readonly string[] Places = ["street", "block", "yard", "bed"];

    private static readonly string[] Sums = ["total", "totals", "sum", "subtotal", "grandtotal", "average", "avg", "mean", "count"];
    private readonly CsvTable table;
    private readonly CsvKind kind;
    private readonly ReadingChoices choices;
    private readonly Dictionary<string, int> columns;
    private readonly int spareName;
    private readonly Dictionary<string, string> above = new(StringComparer.Ordinal);
    private readonly Dictionary<(string Column, string What), (ImportError First, int Count)> changes = [];

    private Tidying(CsvTable table, CsvKind kind, ReadingChoices choices)
    {
        (this.table, this.kind, this.choices) = (table, kind, choices);
        columns = choices.Columns.Where(c => kind.Knows(c.Key)).ToDictionary(c => c.Key, c => c.Value, StringComparer.Ordinal);
        spareName = ColumnMatching.SpareName(table.WrittenHeader, columns);
    }

    /// <summary>The tidy table, where each of our columns stands in it, and what was read differently from what was written.</summary>
    /// <param name="table">The table as written.</param>
    /// <param name="kind">What its rows are.</param>
    /// <param name="choices">How it is to be read.</param>
    /// <param name="withAside">Keeps rows that are no rows, as a correction file does.</param>
    public static (CsvTable Table, IReadOnlyDictionary<string, int> Columns, IReadOnlyList<ImportError> Notices) Tidy(CsvTable table,
        CsvKind kind, ReadingChoices choices, bool withAside = false) => new Tidying(table, kind, choices).Run(withAside);

    private (CsvTable Table, IReadOnlyDictionary<string, int> Columns, IReadOnlyList<ImportError> Notices) Run(bool withAside)
    {
        var same = choices.Same.Where(s => s.Value.Length > 0 && kind.Knows(s.Key) && !columns.ContainsKey(s.Key)).ToList();
        var rows = new List<CsvRecord>();
        foreach (var record in table.Records)
        {
            if (Aside(record) is { } why)
            {
                Note(record.Line, "", string.Join(" ", record.Cells.Where(c => c.Length > 0)), why);
                if (withAside) rows.Add(record with { Cells = [.. record.Cells, .. same.Select(_ => "")] });
                continue;
            }
            rows.Add(record with { Cells = [.. Tidy(record), .. same.Select(s => s.Value)] });
        }
        foreach (var (column, at) in same.Select((s, i) => (s.Key, table.Header.Length + i))) columns[column] = at;
        var tidy = table.With([.. table.WrittenHeader, .. same.Select(s => s.Key)], rows);
        return (tidy, columns, [.. changes.Values.Select(c => c.Count == 1 ? c.First
            : c.First with { HowToCorrect = c.Count == 2 ? "One more cell likewise." : $"{c.Count - 1} more cells likewise." })]);
    }

    private string[] Tidy(CsvRecord record)
    {
        var cells = (string[])record.Cells.Clone();
        if (choices.BlankAsAbove) FillFromAbove(record.Line, cells);
        foreach (var (column, at) in columns)
        {
            var cell = cells[at];
            if (column == CsvKind.ScientificName) cells[at] = Name(record.Line, cells, at);
            else if (cell.Length > 0) cells[at] = Cell(record.Line, column, cell);
        }
        return cells;
    }

    private string Cell(int line, string column, string cell)
    {
        if (CsvKind.IsNumber(column)) return Number(line, column, cell);
        if (CsvKind.IsDay(column))
        {
            if (UntidyDay.Read(cell, choices.Order, choices.Year, column == "established_on") is not { } day)
                return UntidyWords.MeansBlank(cell) ? Changed(line, column, cell, "", "This was read as not known.") : cell;
            var written = CellFormats.Write(day.Day);
            return day.Guess.Length > 0 ? Changed(line, column, cell, written, $"This was read as {day.Guess}: {written}.") : written;
        }
        if (!CsvKind.IsWord(column)) return cell;
        if (UntidyWords.Read(column, cell) is { } word)
            return string.Equals(word, cell, StringComparison.OrdinalIgnoreCase) ? cell
                : Changed(line, column, cell, word, $"This was read as {word.Replace('_', ' ')}.");
        return UntidyWords.MeansBlank(cell) ? Changed(line, column, cell, "", "This was read as not known.") : cell;
    }

    private string Number(int line, string column, string cell)
    {
        var unit = MeasureUnit.Keyed(choices.Units.GetValueOrDefault(column));
        if (CellFormats.TryNumber(cell, out var plain))
        {
            if (unit is null || unit.ToOurs(plain) == plain) return cell;
            return Changed(line, column, cell, CsvText.Number(Round(unit.ToOurs(plain))), Converted(unit, column, unit.ToOurs(plain)));
        }
        if (UntidyNumber.Read(cell, column, unit) is { } read)
        {
            var written = CsvText.Number(Round(read.Value));
            return Changed(line, column, cell, written, read.Guess.Length > 0 ? $"This was read as {read.Guess}: {written}."
                : unit is not null ? Converted(unit, column, read.Value) : $"This was read as {written}.");
        }
        if (column == "growth_stage" && UntidyWords.Read(column, cell) is { } stage)
            return Changed(line, column, cell, stage, $"This was read as growth stage {stage}.");
        if (column == "lawn_m2" && cell.Equals("none", StringComparison.OrdinalIgnoreCase))
            return Changed(line, column, cell, "0", "This was read as no lawn.");
        return UntidyWords.MeansBlank(cell) ? Changed(line, column, cell, "", "This was read as not known.") : cell;
    }

    private static string Converted(MeasureUnit unit, string column, double value) =>
        $"Figures in {unit.Words} were converted: this one is {CsvText.Number(Math.Round(value, 2))} {Ours(column)}.";

    private static string Ours(string column) => MeasureUnit.For(column)[0].Words;

    /// <summary>A conversion gives no more than a square centimetre or a hundredth of a degree.</summary>
    private static double Round(double value) => Math.Round(value, 4);

    /// <summary>The name; where the row has none under it, the one in another column of names. A question mark is doubt.</summary>
    private string Name(int line, string[] cells, int at)
    {
        var cell = cells[at];
        if ((cell.Length == 0 || UntidyWords.MeansBlank(cell)) && spareName >= 0 && cells[spareName].Length > 0)
            cell = Changed(line, CsvKind.ScientificName, cells[spareName], cells[spareName], "This name was taken from another column.");
        if (!cell.EndsWith('?') && !cell.StartsWith('?')) return cell;
        var name = TaxonName.Parse(cell.Trim('?', ' '));
        if (name.Name.Length == 0) return cell;
        var doubtful = (name.Qualifier.Length > 0 ? name : name with { Qualifier = "cf." }).ToString();
        return Changed(line, CsvKind.ScientificName, cell, doubtful, "A question mark was read as doubt about the name (cf.).");
    }

    private void FillFromAbove(int line, string[] cells)
    {
        foreach (var (level, column) in Places.Index())
        {
            if (!columns.TryGetValue(column, out var at)) continue;
            if (cells[at].Length > 0)
            {
                // Another yard has beds of its own.
                if (above.GetValueOrDefault(column) != cells[at]) foreach (var below in Places.Skip(level + 1)) above.Remove(below);
                above[column] = cells[at];
            }
            else Fill(line, cells, column, at);
        }
        if (!columns.TryGetValue("observed_on", out var day)) return;
        if (cells[day].Length > 0) above["observed_on"] = cells[day];
        else Fill(line, cells, "observed_on", day);
    }

    private void Fill(int line, string[] cells, string column, int at)
    {
        if (above.GetValueOrDefault(column) is { } value && kind.Required.Contains(column, StringComparer.Ordinal))
            cells[at] = Changed(line, column, "", value, $"The blank cell was read as the one above: {value}.");
    }

    /// <summary>Why a row is none: a sum, a note below the table, the headings once more.</summary>
    private string? Aside(CsvRecord record)
    {
        var filled = record.Cells.Where(c => c.Length > 0).ToList();
        if (IsHeading(record)) return "The row repeats the headings and was left out.";
        var missing = kind.Required.Count(c => !columns.TryGetValue(c, out var at) || record.Cells[at].Length == 0);
        var plain = string.Concat(NameKey.Fold(new string([.. filled[0].Where(char.IsLetter)])));
        if ((missing > 0 || columns.Any(c => CsvKind.IsDay(c.Key) && record.Cells[c.Value] == filled[0]))
            && Sums.Contains(plain, StringComparer.Ordinal)) return "The row is a sum and was left out.";
        var needed = kind.Required.Count(columns.ContainsKey);
        // One cell alone is a note, unless the table wants no more.
        return filled.Count == 1 && needed > 1 && columns.Count > 2 ? "The row holds one cell alone and was left out." : null;
    }

    /// <summary>The headings once more, as on each page of a printed list or in the file that a correction file came from.</summary>
    private bool IsHeading(CsvRecord record) => record.Cells.AsSpan().SequenceEqual(table.WrittenHeader)
        || (!record.Cells.Any(c => c.AsSpan().IndexOfAnyInRange('0', '9') >= 0) && ColumnMatching.Recognised(record.Cells) >= ThreeColumns);

    private const int ThreeColumns = 8;

    private string Changed(int line, string column, string was, string now, string what)
    {
        Note(line, column, was, what);
        return now;
    }

    /// <summary>Told once a column and change, with how many more there are.</summary>
    private void Note(int line, string column, string was, string what)
    {
        var stem = what.Split(':')[0];
        var digit = stem.AsSpan().IndexOfAnyInRange('0', '9');
        var key = column.Length == 0 ? ($"{line}", what) : (column, digit < 0 ? stem : stem[..digit]);
        changes[key] = changes.TryGetValue(key, out var known) ? (known.First, known.Count + 1)
            : (new ImportError(table.Name, line, column, ImportError.Shown(was), what, ""), 1);
    }
}
