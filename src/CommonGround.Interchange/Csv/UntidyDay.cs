using System.Globalization;
using System.Text.RegularExpressions;

namespace CommonGround.Interchange.Csv;

/// <summary>Days as people type them: "9/3/24", "Sept 3", "3 Sep 2024", "Tue 8/4", a spreadsheet's day number.</summary>
internal static partial class UntidyDay
{
    private const int LongestRead = 40, FirstSerial = 20_000, LastSerial = 80_000, MiddleOfMonth = 15;
    private static readonly DateOnly Epoch = new(1899, 12, 30);

    private static readonly string[] Months = ["january", "february", "march", "april", "may", "june", "july", "august", "september",
        "october", "november", "december"];

    /// <summary>The day, and what was guessed of it; null where the cell means none.</summary>
    /// <param name="cell">As written.</param>
    /// <param name="order">Whether month or day comes first with slashes.</param>
    /// <param name="year">Of days written without one; null where nobody said.</param>
    /// <param name="roughly">Whether a year alone is enough, as for the day a bed was first planted.</param>
    public static (DateOnly Day, string Guess)? Read(string cell, DateOrder order, int? year, bool roughly)
    {
        if (cell.Length > LongestRead) return null;
        if (CellFormats.TryDay(cell, order, out var day)) return (day, "");
        var text = Clean(cell);
        if (CellFormats.TryDay(text, order, out day)) return (day, "");
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            return number is > FirstSerial and < LastSerial ? (Epoch.AddDays(number), "a spreadsheet's day number")
                : roughly && number is >= 1900 and <= 2100 ? (new DateOnly(number, 1, 1), "the first day of a year") : null;
        if (YearFirst().Match(text) is { Success: true } iso && Made(Part(iso, "y"), Part(iso, "m"), Part(iso, "d")) is { } known)
            return (known, "");
        if (Short().IsMatch(text) && year is { } its && CellFormats.TryDay($"{text}/{its}", order, out day)) return (day, "");
        if ((MonthFirst().Match(text) is { Success: true } m ? m : DayFirst().Match(text)) is not { Success: true } named) return null;
        if (MonthOf(named.Groups["m"].Value) is not { } month) return null;
        var said = named.Groups["y"].Length > 0 ? Whole(Part(named, "y")) : year;
        if (named.Groups["d"].Length == 0)
            return named.Groups["y"].Length > 0 && Made(said!.Value, month, MiddleOfMonth) is { } middle
                ? (middle, "the middle of a month") : null;
        return said is { } of && Made(of, month, Part(named, "d")) is { } found ? (found, "") : null;
    }

    /// <summary>Whether a cell is a day but for its year: "Sept 3", "9/3".</summary>
    public static bool LacksYear(string cell, DateOrder order) => cell.Length is > 0 and <= LongestRead
        && Read(cell, order, null, false) is null
        && (Read(cell, DateOrder.MonthFirst, 2024, false) ?? Read(cell, DateOrder.DayFirst, 2024, false)) is not null
        && !CellFormats.IsSlashDay(Clean(cell));

    /// <summary>A cell whose two numbers could be month and day in either order: 9/3 stands for 9/3/2024 here.</summary>
    public static string WithSlashes(string cell) => cell.Length <= LongestRead && Clean(cell) is var text && Short().IsMatch(text)
        ? text + "/2024" : cell.Length <= LongestRead ? Clean(cell) : cell;

    /// <summary>Without the weekday in front and the time of day behind.</summary>
    private static string Clean(string cell) => Around().Replace(cell.Trim().TrimEnd('?', '.'), "").Trim(' ', ',');

    private static int? MonthOf(string word)
    {
        var folded = word.ToLowerInvariant();
        var at = folded == "sept" ? 8 : folded.Length >= 3 ? Array.FindIndex(Months, m => m.StartsWith(folded, StringComparison.Ordinal))
            : -1;
        return at >= 0 ? at + 1 : null;
    }

    private static int Whole(int year) => year < 100 ? year + 2000 : year;

    private static int Part(Match match, string group) => int.Parse(match.Groups[group].ValueSpan, CultureInfo.InvariantCulture);

    private static DateOnly? Made(int year, int month, int day) => year is >= 1 and <= 9999 && month is >= 1 and <= 12 && day >= 1
        && day <= DateTime.DaysInMonth(year, month) ? new DateOnly(year, month, day) : null;

    private const RegexOptions Options = RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture;

    [GeneratedRegex(@"^(mon|tues?|wed(nes)?|thu(rs?)?|fri|sat(ur)?|sun)(day)?\.?,?\s+"
        + @"|[T ][0-9]{1,2}:[0-9]{2}(:[0-9]{2})?\s*([ap]m)?$", Options, 60_000)]
    private static partial Regex Around();

    [GeneratedRegex("^(?<y>[0-9]{4})[-/.]?(?<m>[0-9]{1,2})[-/.]?(?<d>[0-9]{1,2})$", Options, 60_000)]
    private static partial Regex YearFirst();

    [GeneratedRegex("^[0-9]{1,2}/[0-9]{1,2}$", Options, 60_000)]
    private static partial Regex Short();

    [GeneratedRegex(@"^(?<m>[a-z]{3,9})\.?[ -]*((?<d>[0-9]{1,2})(st|nd|rd|th)?)?(,? *[ '’-] *(?<y>[0-9]{4}|[0-9]{2}))?$", Options,
        60_000)]
    private static partial Regex MonthFirst();

    [GeneratedRegex(@"^(?<d>[0-9]{1,2})(st|nd|rd|th)?\.?[ -]*(of )?(?<m>[a-z]{3,9})\.?([ ,'’-]+(?<y>[0-9]{4}|[0-9]{2}))?$",
        Options, 60_000)]
    private static partial Regex DayFirst();
}
