namespace CommonGround.Interchange.Csv;

/// <summary>Reads the cells of one row by column name, noting every cell that cannot be what its column needs.</summary>
internal sealed class RowCells(CsvTable table, IReadOnlyDictionary<string, int> columns, DateOrder order = DateOrder.YearFirst)
{
    private const int LongestCode = 100, LongestText = 4_000;
    private static readonly DateOnly FirstDay = new(1800, 1, 1), LastDay = new(2200, 12, 31);
    private CsvRecord record = new(0, []);
    private int errorsBefore;

    public int Line => record.Line;

    /// <summary>Whether nothing was wrong with the row so far.</summary>
    public bool Fine => table.Errors.Count == errorsBefore;

    public void Open(CsvRecord next)
    {
        record = next;
        errorsBefore = table.Errors.Count;
    }

    /// <summary>Whether the file has the column.</summary>
    public bool Knows(string column) => columns.ContainsKey(column);

    public bool Has(string column) => Raw(column).Length > 0;

    public string Raw(string column) => columns.TryGetValue(column, out var index) ? record.Cells[index] : "";

    public void Refuse(string column, string what, string howToCorrect) => table.Refuse(Line, column, Raw(column), what, howToCorrect);

    /// <summary>A name or code that must be there: one line of text.</summary>
    public string Code(string column)
    {
        if (!Has(column)) Refuse(column, "The cell is blank.", "Fill it in; every row needs it.");
        return OptionalCode(column);
    }

    public string OptionalCode(string column)
    {
        var value = CsvText.Unguard(Raw(column));
        if (value.Length > LongestCode) Refuse(column, $"The text has {value.Length} characters.", $"Shorten it to {LongestCode}.");
        else if (value.AsSpan().IndexOfAnyInRange('\0', '\u001f') >= 0)
            Refuse(column, "The text holds a line break or control character.", "Write it on one line.");
        return value;
    }

    public string Text(string column)
    {
        var value = CsvText.Unguard(Raw(column));
        if (value.Length > LongestText) Refuse(column, $"The text has {value.Length} characters.", $"Shorten it to {LongestText}.");
        return value;
    }

    public double Number(string column, double low, double high, string range)
    {
        if (OptionalNumber(column, low, high, range) is { } value) return value;
        if (!Has(column)) Refuse(column, "The cell is blank.", $"Write a number {range}.");
        return low;
    }

    /// <param name="column">Column to read.</param>
    /// <param name="low">Lowest value allowed.</param>
    /// <param name="high">Highest value allowed.</param>
    /// <param name="range">The range in words, after "a number".</param>
    public double? OptionalNumber(string column, double low, double high, string range)
    {
        var cell = Raw(column);
        if (cell.Length == 0) return null;
        if (!CellFormats.TryNumber(cell, out var value))
        {
            var (what, howToCorrect) = CellFormats.NumberAdvice(cell);
            Refuse(column, what, howToCorrect);
            return null;
        }
        if (value >= low && value <= high) return value == 0 ? 0 : value;
        Refuse(column, "The number is out of range.", $"Write a number {range}.");
        return null;
    }

    public int? OptionalWhole(string column, int low, int high, string range)
    {
        if (OptionalNumber(column, low, high, range) is not { } value) return null;
        if (value == Math.Floor(value)) return (int)value;
        Refuse(column, "The number is not whole.", $"Write a whole number {range}.");
        return null;
    }

    public DateOnly Day(string column)
    {
        if (OptionalDay(column) is { } day) return day;
        if (!Has(column)) Refuse(column, "The cell is blank.", "Write the day as year-month-day, for example 2026-08-14.");
        return default;
    }

    public DateOnly? OptionalDay(string column)
    {
        var cell = Raw(column);
        if (cell.Length == 0) return null;
        if (!CellFormats.TryDay(cell, order, out var day))
        {
            var (what, howToCorrect) = CellFormats.DayAdvice(cell);
            Refuse(column, what, howToCorrect);
            return null;
        }
        if (day >= FirstDay && day <= LastDay) return day;
        Refuse(column, "The year cannot be right.", "Write a year from 1800 to 2200.");
        return null;
    }

    /// <summary>One of a list of words, or null for a blank cell.</summary>
    public T? OptionalWord<T>(string column, CsvWords<T> words)
        where T : struct, Enum
    {
        var cell = Raw(column);
        if (cell.Length == 0) return null;
        if (words.TryRead(cell, out var value)) return value;
        Refuse(column, "The word is not one of those this column knows.", $"Write {words.Listed}.");
        return null;
    }

    public bool YesOrNo(string column)
    {
        switch (Raw(column).ToUpperInvariant())
        {
            case "YES": return true;
            case "NO" or "": return false;
            default:
                Refuse(column, "The answer is neither yes nor no.", "Write yes or no; blank counts as no.");
                return false;
        }
    }
}
