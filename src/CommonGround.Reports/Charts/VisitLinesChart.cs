using System.Globalization;
using CommonGround.Ecology.Phenology;

namespace CommonGround.Reports.Charts;

/// <summary>What a visit found, as a mark.</summary>
public enum VisitMark
{
    /// <summary>Growing, its stage not noted.</summary>
    Seen,
    Leaves,
    Bud,
    Flower,
    Fruit,
    Ripe,
    Fading,

    /// <summary>Ended or dead.</summary>
    Gone,

    /// <summary>Looked for and not found.</summary>
    NotFound,
}

/// <summary>One visit.</summary>
/// <param name="Tentative">The name is tentative: the mark is dashed.</param>
public sealed record Visit(DateOnly On, VisitMark Mark, bool Tentative = false);

/// <summary>A year's line.</summary>
/// <param name="Right">Words at its end, such as "1.4 m²".</param>
/// <param name="Share">Length of the bar before them, 0–1.</param>
public sealed record VisitYear(int Year, IReadOnlyList<Visit> Visits, string Right = "", double Share = 0)
{
    /// <summary>First and last day in flower of several yards together, where single visits are not shown.</summary>
    public (DateOnly First, DateOnly Last)? InFlower { get; init; }
}

/// <summary>Visits of several years: one line a year, a mark a visit, the usual bloom shaded.</summary>
public static class VisitLinesChart
{
    private const double Top = 28, Row = 34;

    /// <param name="usual">Usual bloom; shaded.</param>
    /// <param name="own">The neighbourhood's own window; framed.</param>
    /// <param name="colour">Of the flowers; empty where not known.</param>
    /// <param name="width">px; below 720 the words at the ends are left out.</param>
    public static Chart Draw(string title, IReadOnlyList<VisitYear> years, BloomWindow? usual, BloomWindow? own, string colour,
        double width)
    {
        ArgumentNullException.ThrowIfNull(years);
        var narrow = width < 720;
        var (first, last) = narrow && years.All(y => y.Visits.All(v => HalfMonth.Of(v.On) is >= 4 and <= 21)
            && (y.InFlower is null || HalfMonth.Of(y.InFlower.Value.First) >= 4)) ? (4, 21) : (0, 23);
        var axis = new YearAxis(46, narrow ? width : width - 150, first, last);
        var bottom = Top + (Math.Max(1, years.Count) * Row);
        var marks = new List<Mark>();
        axis.Header(marks, 12, null, narrow);
        Shade(marks, axis, usual, "vl-usual", bottom);
        foreach (var half in axis.Halves.Where(h => h % 2 == 0).Append(last + 1))
        {
            marks.Add(new LineMark("g-rule", axis.X(half), Top, axis.X(half), bottom));
        }

        Shade(marks, axis, own, "vl-own", bottom);
        for (var i = 0; i < years.Count; i++)
        {
            var year = years[i];
            var y = Top + (i * Row) + (Row / 2);
            marks.Add(new TextMark("lab strong", 0, y + 5, year.Year.ToString(CultureInfo.InvariantCulture)));
            marks.Add(new LineMark("vl-line", axis.Left, y, axis.Right, y));
            if (year.InFlower is { } run)
            {
                var (from, to) = (X(axis, run.First), X(axis, run.Last));
                marks.Add(new RectMark(Flowers(colour), from - 5, y - 6, to - from + 10, 12, 6));
            }

            foreach (var visit in year.Visits.Where(v => axis.Shows(HalfMonth.Of(v.On))).OrderBy(v => v.On))
            {
                Draw(marks, visit, X(axis, visit.On), y, colour);
            }

            if (!narrow && year.Right.Length > 0)
            {
                marks.Add(new RectMark("g-cover", axis.Right + 14, y - 5, Math.Max(1, 66 * Math.Clamp(year.Share, 0, 1)), 10));
                marks.Add(new TextMark("axis", width, y + 4, year.Right, Anchor.End));
            }
        }

        return new Chart(width, bottom + 4, $"{title}: {Words(years, usual, own)}", marks);
    }

    /// <summary>All visits of several years on one line, year beside year.</summary>
    /// <param name="years">Every year to show, oldest first.</param>
    public static Chart OneLine(string title, IReadOnlyList<int> years, IReadOnlyList<Visit> visits, string colour, double width)
    {
        ArgumentNullException.ThrowIfNull(years);
        ArgumentNullException.ThrowIfNull(visits);
        const double Middle = 12;
        var step = width / Math.Max(1, years.Count);
        var marks = new List<Mark> { new LineMark("vl-line", 0, Middle, width, Middle) };
        for (var i = 0; i <= years.Count; i++)
        {
            marks.Add(new LineMark("g-tick", i * step, 2, i * step, 22));
        }

        foreach (var visit in visits.OrderBy(v => v.On))
        {
            var at = years.Index().Where(y => y.Item == visit.On.Year).Select(y => (int?)y.Index).FirstOrDefault();
            if (at is { } column)
            {
                Draw(marks, visit, (column * step) + (step * (visit.On.DayOfYear - 0.5) / 366), Middle, colour);
            }
        }

        return new Chart(width, 24, $"{title}: {Listed(visits)}", marks);
    }

    /// <summary>The years over such lines.</summary>
    public static Chart YearHeads(IReadOnlyList<int> years, double width)
    {
        ArgumentNullException.ThrowIfNull(years);
        var step = width / Math.Max(1, years.Count);
        return new Chart(width, 18, string.Join(", ", years),
            [.. years.Select((y, i) => new TextMark("axis strong", (i * step) + (step / 2), 13, y.ToString(CultureInfo.InvariantCulture),
                Anchor.Middle))]);
    }

    /// <summary>"in flower" and so on.</summary>
    public static string Word(VisitMark mark) => mark switch
    {
        VisitMark.Leaves => "leaves",
        VisitMark.Bud => "in bud",
        VisitMark.Flower => "in flower",
        VisitMark.Fruit => "fruit forming",
        VisitMark.Ripe => "ripe seed",
        VisitMark.Fading => "dying back",
        VisitMark.Gone => "gone",
        VisitMark.NotFound => "not found",
        _ => "growing",
    };

    /// <summary>One mark by itself, for the key.</summary>
    public static Chart Key(VisitMark mark, string colour)
    {
        var marks = new List<Mark>();
        Draw(marks, new Visit(default, mark), 11, 11, colour);
        return new Chart(22, 22, Word(mark), marks);
    }

    private static void Draw(List<Mark> marks, Visit visit, double x, double y, string colour)
    {
        var tail = visit.Tentative ? " tentative" : "";
        switch (visit.Mark)
        {
            case VisitMark.Leaves:
                marks.Add(new PathMark("vl-open" + tail, [(x, y - 8), (x + 4, y - 2), (x + 3, y + 4), (x, y + 8), (x - 3, y + 4),
                    (x - 4, y - 2)], true));
                break;
            case VisitMark.Bud:
                marks.Add(new CircleMark("vl-open" + tail, x, y, 6));
                break;
            case VisitMark.Flower:
                marks.Add(new CircleMark(Flowers(colour) + tail, x, y, 7));
                marks.Add(new CircleMark("vl-full", x, y, 2));
                break;
            case VisitMark.Fruit:
                marks.Add(new PathMark("vl-open" + tail, [(x, y - 7), (x + 7, y + 5), (x - 7, y + 5)], true));
                break;
            case VisitMark.Ripe:
                marks.Add(new PathMark("vl-full" + tail, [(x, y - 7), (x + 7, y + 5), (x - 7, y + 5)], true));
                break;
            case VisitMark.Fading:
                marks.Add(new PathMark("vl-open" + tail, [(x, y + 7), (x + 7, y - 5), (x - 7, y - 5)], true));
                break;
            case VisitMark.Gone or VisitMark.NotFound:
                var style = visit.Mark == VisitMark.Gone ? "vl-cross" : "vl-cross-open";
                marks.Add(new LineMark(style, x - 5, y - 5, x + 5, y + 5));
                marks.Add(new LineMark(style, x - 5, y + 5, x + 5, y - 5));
                break;
            default:
                marks.Add(new CircleMark("vl-full" + tail, x, y, 3.5));
                break;
        }
    }

    private static string Flowers(string colour) => colour.Length > 0 ? "fl-" + colour : "fl-none";

    private static double X(YearAxis axis, DateOnly on)
    {
        var half = HalfMonth.Of(on);
        var (from, to) = (HalfMonth.FirstDay(half, on.Year), HalfMonth.LastDay(half, on.Year));
        return axis.X(half) + (axis.Step * (on.DayNumber - from.DayNumber + 0.5) / (to.DayNumber - from.DayNumber + 1));
    }

    private static void Shade(List<Mark> marks, YearAxis axis, BloomWindow? window, string style, double bottom)
    {
        if (window is not { } w)
        {
            return;
        }

        IReadOnlyList<(int From, int To)> runs = w.Start <= w.End ? [(w.Start, w.End)] : [(w.Start, 23), (0, w.End)];
        foreach (var (from, to) in runs)
        {
            var (left, right) = (Math.Max(axis.X(from), axis.Left), Math.Min(axis.X(to + 1), axis.Right));
            if (right > left)
            {
                marks.Add(new RectMark(style, left, Top, right - left, bottom - Top));
            }
        }
    }

    private static string Words(IReadOnlyList<VisitYear> years, BloomWindow? usual, BloomWindow? own)
    {
        var lines = years.Select(
            y => $"{y.Year} {(y.InFlower is { } run ? $"in flower {Day(run.First)} to {Day(run.Last)}" : Listed(y.Visits))}{(y.Right.Length > 0 ? $", {y.Right}" : "")}").ToList();
        return string.Join("; ", lines) + (usual is { } u ? $"; usual bloom {HalfMonthWords.Run(u.Start, u.End)}" : "") + (own is { } o
            ? $"; here {HalfMonthWords.Run(o.Start, o.End)}" : "");
    }

    private static string Listed(IReadOnlyList<Visit> visits) => visits.Count == 0 ? "no visit"
        : string.Join(", ",
        visits.OrderBy(v => v.On).Select(v => $"{Day(v.On)}, {v.On.Year} {Word(v.Mark)}{(v.Tentative ? ", tentative" : "")}"));

    private static string Day(DateOnly on) => DayWords.ShortDayMonth(on);
}
