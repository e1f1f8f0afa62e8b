using System.Globalization;
using System.Text.RegularExpressions;

namespace CommonGround.Interchange.Csv;

/// <summary>Numbers and days as files write them, and advice for the usual slips.</summary>
internal static class CellFormats
{
    public const string DayFormat = "yyyy-MM-dd";
    private const int SpreadsheetDayLow = 20_000, SpreadsheetDayHigh = 80_000;
    private static readonly DateOnly SpreadsheetEpoch = new(1899, 12, 30);

    // Advice is sought for short cells only, so no pattern can hold the reader up; the limit is there for the day somebody forgets.
    private const int LongestAdvised = 40;
    private const RegexOptions Plainly = RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture;
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(1);
    private static readonly Regex Thousands = new(@"^-?[0-9]{1,3}([, ][0-9]{3})+(\.[0-9]+)?$", Plainly, Limit);
    private static readonly Regex DecimalComma = new("^-?[0-9]+,[0-9]+$", Plainly, Limit);
    private static readonly Regex Unit = new(@"^\$?(?<number>-?[0-9]+(\.[0-9]+)?)\s*[^0-9.,\s].{0,20}$", Plainly, Limit);
    private static readonly Regex SlashDay = new("^(?<first>[0-9]{1,2})[/.-](?<second>[0-9]{1,2})[/.-](?<year>[0-9]{4}|[0-9]{2})$",
        Plainly, Limit);
    private static readonly Regex IsoLike = new("^(?<year>[0-9]{4})[-/.]?(?<month>[0-9]{1,2})[-/.]?(?<day>[0-9]{1,2})(?<rest>[T ].*)?$",
        Plainly, Limit);

    public static bool TryNumber(string cell, out double value) =>
        double.TryParse(cell, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent,
            CultureInfo.InvariantCulture, out value)
        && double.IsFinite(value);

    /// <summary>Why a cell is no number, and what to write instead.</summary>
    public static (string What, string HowToCorrect) NumberAdvice(string cell)
    {
        if (cell.Length > LongestAdvised) return ("This is not a number.", "Write a plain number such as 12.5.");
        if (double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out var huge) && double.IsInfinity(huge)
            && char.IsAsciiDigit(cell[^1]))
            return ("The number is too large to hold.", "Check the exponent.");
        if (Thousands.IsMatch(cell))
            return ("The number has separators between thousands.", $"Write it without: "
                + $"{cell.Replace(",", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal)}.");
        if (DecimalComma.IsMatch(cell))
            return ("The number has a comma for its decimal point.", $"Write a point: {cell.Replace(',', '.')}.");
        if (cell.StartsWith('\u2212')) return ("The minus is a typographic dash.", $"Write a plain hyphen: -{cell[1..]}.");
        if (Unit.Match(cell) is { Success: true } unit)
            return ("The number carries a unit or a sign.", $"Write the number alone: {unit.Groups["number"].Value}.");
        return ("This is not a number.", "Write a plain number such as 12.5.");
    }

    public static bool TryDay(string cell, out DateOnly day) => DateOnly.TryParseExact(cell, DayFormat, CultureInfo.InvariantCulture,
        DateTimeStyles.None, out day);

    /// <summary>A day written year first or, with slashes, points or hyphens, in the order given; two digits of a year are of this
    /// century.</summary>
    public static bool TryDay(string cell, DateOrder order, out DateOnly day)
    {
        if (TryDay(cell, out day)) return true;
        if (order == DateOrder.YearFirst || cell.Length > LongestAdvised || SlashDay.Match(cell) is not { Success: true } parts)
            return false;
        var (first, second, year) = Parts(parts);
        if ((order == DateOrder.MonthFirst ? Existing(year, first, second) : Existing(year, second, first)) is not { } found) return false;
        day = found;
        return true;
    }

    /// <summary>Whether a cell is written like 8/14/2026, whichever of the two comes first.</summary>
    public static bool IsSlashDay(string cell) => cell.Length <= LongestAdvised && SlashDay.IsMatch(cell);

    public static string Write(DateOnly day) => day.ToString(DayFormat, CultureInfo.InvariantCulture);

    /// <summary>Shortest text that reads back as the same double.</summary>
    public static string Write(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>Why a cell is no day, and what to write instead.</summary>
    public static (string What, string HowToCorrect) DayAdvice(string cell)
    {
        const string Plain = "Write year-month-day, for example 2026-08-14.";
        if (cell.Length > LongestAdvised) return ("This is not a day.", Plain);
        if (int.TryParse(cell, NumberStyles.None, CultureInfo.InvariantCulture, out var serial) && serial is > SpreadsheetDayLow
            and < SpreadsheetDayHigh)
            return ("This looks like a spreadsheet's day number.", $"Format the column as year-month-day; this one would be "
                + $"{Write(SpreadsheetEpoch.AddDays(serial))}.");
        if (SlashDay.Match(cell) is { Success: true } slashed)
            return ("The day is not written year-month-day.", $"Write {SlashAdvice(slashed)}.");
        if (IsoLike.Match(cell) is { Success: true } iso) return IsoAdvice(iso);
        return ("This is not a day.", Plain);
    }

    private static string SlashAdvice(Match parts)
    {
        var (first, second, year) = Parts(parts);
        var (monthFirst, dayFirst) = (Existing(year, first, second), Existing(year, second, first));
        return (monthFirst, dayFirst) switch
        {
            ({ } a, { } b) when a != b => $"{Write(a)} if the month comes first, {Write(b)} if the day does",
            ({ } a, _) => Write(a),
            (_, { } b) => Write(b),
            _ => "year-month-day, for example 2026-08-14",
        };
    }

    private static (int First, int Second, int Year) Parts(Match slashed)
    {
        var year = Number(slashed, "year");
        return (Number(slashed, "first"), Number(slashed, "second"), year < 100 ? year + 2000 : year);
    }

    private static (string What, string HowToCorrect) IsoAdvice(Match parts)
    {
        var exists = Existing(Number(parts, "year"), Number(parts, "month"), Number(parts, "day"));
        if (exists is not { } day) return ("There is no such day.", "Check the month (01 to 12) and the day.");
        return parts.Groups["rest"].Length > 0
            ? ("The cell holds more than a day.", $"Write the day alone: {Write(day)}.")
            : ("The day is not written with two digits for month and day, and hyphens.", $"Write {Write(day)}.");
    }

    private static DateOnly? Existing(int year, int month, int day) =>
        year is >= 1 and <= 9999 && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month)
            ? new DateOnly(year, month, day) : null;

    private static int Number(Match match, string group) => int.Parse(match.Groups[group].ValueSpan, CultureInfo.InvariantCulture);
}
