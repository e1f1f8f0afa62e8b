using CommonGround.Ecology.Phenology;

namespace CommonGround.Reports.Charts;

public enum Anchor { Start, Middle, End }

/// <summary>One stroke of a chart. <paramref name="Style"/> says what it means ("g-bar" is a covered half-month), never a colour: screen
/// and paper each have their own ink for it.</summary>
public abstract record Mark(string Style);

public sealed record LineMark(string Style, double X1, double Y1, double X2, double Y2) : Mark(Style);

public sealed record RectMark(string Style, double X, double Y, double Width, double Height, double Radius = 0) : Mark(Style);

public sealed record CircleMark(string Style, double X, double Y, double Radius) : Mark(Style);

/// <param name="TailStyle">Style of <paramref name="Tail"/>.</param>
/// <param name="Tail">A second text that follows the first at a small distance, wherever that ends; for example a scientific name.</param>
public sealed record TextMark(string Style, double X, double Y, string Text, Anchor Anchor = Anchor.Start, string TailStyle = "",
    string Tail = "") : Mark(Style);

/// <summary>Straight segments through the points, x then y.</summary>
public sealed record PathMark(string Style, IReadOnlyList<(double X, double Y)> Points, bool Closed) : Mark(Style);

/// <summary>A drawing on a grid of <paramref name="Width"/> × <paramref name="Height"/> px (96 to the inch). The page draws it as SVG, the
/// report with the same marks in PDF, so they cannot disagree.</summary>
/// <param name="AltText">What the chart says, in words, for those who hear it.</param>
public sealed record Chart(double Width, double Height, string AltText, IReadOnlyList<Mark> Marks);

/// <summary>The year along x: every chart shares its order, its season and its "now" column.</summary>
internal sealed class YearAxis(double left, double right, int first, int last)
{
    private static readonly string[] Months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

    public double Step { get; } = (right - left) / (last - first + 1);

    public double Left => left;

    public double Right => right;

    /// <summary>Left edge of a half-month.</summary>
    public double X(int half) => left + ((half - first) * Step);

    public double Middle(int half) => X(half) + (Step / 2);

    public bool Shows(int half) => half >= first && half <= last;

    public IEnumerable<int> Halves => Enumerable.Range(first, last - first + 1);

    /// <summary>Month names over their pair, with ticks under them.</summary>
    public void Header(List<Mark> marks, double y, int? now, bool initials)
    {
        foreach (var month in Halves.Select(h => h / 2).Distinct())
        {
            var middle = (X(Math.Max(month * 2, first)) + X(Math.Min((month * 2) + 1, last)) + Step) / 2;
            var style = now / 2 == month ? "axis strong" : "axis";
            marks.Add(new TextMark(style, middle, y, initials ? Months[month][..1] : Months[month], Anchor.Middle));
        }

        foreach (var half in Halves.Append(last + 1))
        {
            marks.Add(new LineMark("g-tick", X(half), y + 7, X(half), y + (half % 2 == 0 ? 14 : 11)));
        }
    }

    public void Ground(List<Mark> marks, Season season, int? now, double top, double bottom)
    {
        var from = Math.Max(season.First, first);
        var to = Math.Min(season.Last, last);
        marks.Add(new RectMark("g-season", X(from), top, X(to + 1) - X(from), bottom - top));
        if (now is { } n && Shows(n))
        {
            marks.Add(new RectMark("g-now", X(n), top, Step, bottom - top));
        }
    }
}

/// <summary>Half-months in words.</summary>
public static class HalfMonthWords
{
    private static readonly string[] Months = ["January", "February", "March", "April", "May", "June", "July", "August", "September",
        "October", "November", "December"];

    /// <summary>"August 16–31"; February ends on 28 without a year.</summary>
    public static string Of(int half) => $"{Months[half / 2]} {Start(half)}–{EndDay(half)}";

    /// <summary>"Aug 16–31".</summary>
    public static string Short(int half) => $"{Months[half / 2][..3]} {Start(half)}–{EndDay(half)}";

    /// <summary>"July 1–September 15", or one half-month's own words.</summary>
    public static string Run(int from, int to) => from / 2 == to / 2 && from <= to
        ? $"{Months[from / 2]} {Start(from)}–{EndDay(to)}"
        : $"{Months[from / 2]} {Start(from)}–{Months[to / 2]} {EndDay(to)}";

    public static string RunShort(int from, int to) => from / 2 == to / 2 && from <= to
        ? $"{Months[from / 2][..3]} {Start(from)}–{EndDay(to)}"
        : $"{Months[from / 2][..3]} {Start(from)}–{Months[to / 2][..3]} {EndDay(to)}";

    /// <summary>"September 1": the day a half-month begins.</summary>
    public static string FirstDay(int half) => $"{Months[half / 2]} {Start(half)}";

    public static string LastDay(int half) => $"{Months[half / 2]} {EndDay(half)}";

    /// <summary>"August".</summary>
    public static string Month(int half) => Months[half / 2];

    private static int Start(int half) => half % 2 == 0 ? 1 : 16;

    private static int EndDay(int half) => half % 2 == 0 ? 15 : DateTime.DaysInMonth(2026, (half / 2) + 1);
}
