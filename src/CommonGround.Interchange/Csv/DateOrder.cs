namespace CommonGround.Interchange.Csv;

/// <summary>How the days of a file are written. Year-month-day is understood in each.</summary>
public enum DateOrder
{
    /// <summary>2026-08-14 only.</summary>
    YearFirst,

    /// <summary>8/14/2026.</summary>
    MonthFirst,

    /// <summary>14/8/2026 or 14.8.2026.</summary>
    DayFirst,
}

/// <summary>What the cells of a file's date columns allow.</summary>
/// <param name="Example">A cell that is not written year first; empty when there is none.</param>
/// <param name="MonthFirst">Whether such cells may be days with the month first. Cells that are days in one order only decide; a single one
/// among others that has the day first may be a slip, because people here write the month first, and decides nothing.</param>
/// <param name="DayFirst">Whether such cells may be days with the day first.</param>
public sealed record DateOrders(string Example, bool MonthFirst, bool DayFirst)
{
    /// <summary>Whether only the writer can say which comes first.</summary>
    public bool MustBeAsked => Example.Length > 0 && MonthFirst && DayFirst;

    /// <summary>The only order that fits, or year first when none does or both do.</summary>
    public DateOrder Only => (Example.Length > 0, MonthFirst, DayFirst) switch
    {
        (true, true, false) => DateOrder.MonthFirst,
        (true, false, true) => DateOrder.DayFirst,
        _ => DateOrder.YearFirst,
    };

    /// <summary>The day a cell means in an order; null when it means none.</summary>
    public static DateOnly? Read(string cell, DateOrder order)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return CellFormats.TryDay(cell, order, out var day) ? day : null;
    }

    internal static DateOrders Of(IEnumerable<string> cells)
    {
        var (example, all, onlyMonthFirst, onlyDayFirst) = ("", 0, 0, 0);
        foreach (var written in cells)
        {
            var cell = UntidyDay.WithSlashes(written);
            if (!CellFormats.IsSlashDay(cell)) continue;
            if (example.Length == 0) example = written;
            all++;
            switch (CellFormats.TryDay(cell, DateOrder.MonthFirst, out _), CellFormats.TryDay(cell, DateOrder.DayFirst, out _))
            {
                case (true, false): onlyMonthFirst++; break;
                case (false, true): onlyDayFirst++; break;
            }
        }

        return new DateOrders(example, onlyMonthFirst > 0 || (onlyDayFirst < 2 && onlyDayFirst < Math.Max(1, all)),
            onlyDayFirst > 0 || onlyMonthFirst == 0);
    }
}
