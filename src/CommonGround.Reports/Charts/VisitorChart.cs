using System.Globalization;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;

namespace CommonGround.Reports.Charts;

/// <summary>A plant of the picture of visitors.</summary>
/// <param name="Window">When it flowers.</param>
/// <param name="Kinds">Recorded kinds by group; empty when nothing is recorded of it.</param>
public sealed record VisitedRow(string Name, BloomWindow Window, string Colour, IReadOnlyDictionary<string, int> Kinds);

/// <summary>
/// Who comes to which plant and when: a line a plant, its flowering across the season, and a dot for each group of visitors, larger for
/// more kinds. Below, where it is known, the kinds of bees with something in flower in each half-month: with one plant or more, and with
/// two or more.
/// </summary>
public static class VisitorChart
{
    private const double Top = 44, Line = 17, Tall = 54;

    /// <summary>Columns of dots: heading and the groups of the record in it.</summary>
    private static readonly (string Heading, string[] Groups)[] Columns =
    [
        ("bees", ["bees"]), ("butterflies, moths", ["butterflies", "moths"]), ("flies", ["hover flies", "other flies"]),
            ("beetles, bugs", ["beetles", "true bugs"]),
        ("wasps, ants", ["wasps", "ants"]), ("others", ["birds", "other insects"]),
    ];

    /// <summary>On a telephone: bees, and all the rest together.</summary>
    private static readonly (string Heading, string[] Groups)[] NarrowColumns = [Columns[0],
        ("others", [.. Columns.Skip(1).SelectMany(c => c.Groups)])];

    /// <param name="title">"Who comes to the plants of yard KI-05".</param>
    /// <param name="rows">Flowers only; drawn by first flowering.</param>
    /// <param name="season">Half-months shown.</param>
    /// <param name="width">px, 300 or more; under 480 bees and others only.</param>
    /// <param name="halves">Visitors of the whole set, 24 entries, for the bars below; null for none.</param>
    public static Chart Draw(string title, IReadOnlyList<VisitedRow> rows, Season season, double width,
        IReadOnlyList<HalfMonthVisitors>? halves = null)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(season);
        var sorted = rows.OrderBy(r => r.Window.Start).ThenBy(r => r.Window.End).ThenBy(r => r.Name, StringComparer.Ordinal).ToList();
        var narrow = width < 480;
        var columns = narrow ? NarrowColumns : Columns;
        var name = narrow ? 122 : Math.Min(170, width * 0.3);
        var dots = narrow ? 36 : Math.Min(46, width * 0.075);
        var axis = new YearAxis(name, width - (dots * columns.Length) - 8, season.First, season.Last);
        var marks = new List<Mark>();
        axis.Header(marks, 30, null, initials: true);
        Headings(marks, columns, axis.Right + 8, dots);
        var most = Math.Max(1, sorted.SelectMany(r => columns.Select(c => Of(r, c.Groups))).DefaultIfEmpty(1).Max());
        foreach (var (row, i) in sorted.Select((r, i) => (r, i)))
        {
            var y = Top + (i * Line);
            marks.Add(new TextMark("axis strong", 0, y + 12, Short(row.Name, name)));
            marks.Add(new LineMark("g-rule", axis.Left, y + 8, width, y + 8));
            for (var t = season.First; t <= season.Last; t++)
            {
                if (row.Window.Contains(t))
                    marks.Add(new RectMark(row.Colour.Length > 0 ? "fl-" + row.Colour : "fl-none", axis.X(t), y + 4, axis.Step, 8));
            }

            for (var c = 0; c < columns.Length; c++)
            {
                var kinds = Of(row, columns[c].Groups);
                if (kinds > 0)
                    marks.Add(new CircleMark("solid", axis.Right + 8 + (dots * (c + 0.5)), y + 8,
                        1.5 + (5.5 * Math.Sqrt((double)kinds / most))));
            }
        }

        var bottom = Top + (sorted.Count * Line) + 6;
        if (halves is not null) bottom = Bees(marks, axis, halves, season, bottom + 14);
        return new Chart(width, bottom, Alt(title, sorted) + (halves is null ? "" : Alt(halves, season)), marks);
    }

    /// <summary>The plants that most kinds come to, for a picture that has no room for all.</summary>
    /// <param name="count">How many at most.</param>
    public static IReadOnlyList<VisitedRow> Most(IEnumerable<VisitedRow> rows, int count) =>
        [.. rows.OrderByDescending(r => r.Kinds.Values.Sum()).ThenBy(r => r.Name, StringComparer.Ordinal).Take(count)];

    private static void Headings(List<Mark> marks, (string Heading, string[] Groups)[] columns, double left, double dots)
    {
        for (var c = 0; c < columns.Length; c++)
        {
            var x = left + (dots * (c + 0.5));
            // Two words stand on two lines.
            var words = columns[c].Heading.Split(", ");
            marks.Add(new TextMark("axis", x, words.Length == 1 ? 30 : 18, words.Length == 1 ? words[0] : words[0] + ",", Anchor.Middle));
            if (words.Length > 1) marks.Add(new TextMark("axis", x, 30, words[1], Anchor.Middle));
        }
    }

    /// <summary>Bars on a common ground: pale with one plant or more, dark with two or more. Returns the lower edge.</summary>
    private static double Bees(List<Mark> marks, YearAxis axis, IReadOnlyList<HalfMonthVisitors> halves, Season season, double top)
    {
        var most = Math.Max(1, Enumerable.Range(season.First, season.Last - season.First + 1).Max(t => halves[t].Bees));
        var ground = top + 14 + Tall;
        marks.Add(new TextMark("axis strong", 0, ground - 34, "Kinds of bees"));
        marks.Add(new TextMark("axis", 0, ground - 19, "pale: one plant,"));
        marks.Add(new TextMark("axis", 0, ground - 4, "dark: two or more"));
        for (var t = season.First; t <= season.Last; t++)
        {
            var (x, wide) = (axis.X(t) + (axis.Step * 0.12), axis.Step * 0.76);
            var (one, two) = (Tall * halves[t].Bees / most, Tall * halves[t].BeesTwice / most);
            if (one > 0) marks.Add(new RectMark("vis-one", x, ground - one, wide, one));
            if (two > 0) marks.Add(new RectMark("vis-two", x, ground - two, wide, two));
            // Three digits want 20 px: where there is less, every month's first half has its figure.
            if (axis.Step >= 20 || t % 2 == 0)
                marks.Add(new TextMark("axis", axis.Middle(t), ground - one - 4, halves[t].Bees.ToString(CultureInfo.InvariantCulture),
                    Anchor.Middle));
        }

        marks.Add(new LineMark("ground", axis.Left, ground, axis.Right, ground));
        return ground + 6;
    }

    private static int Of(VisitedRow row, string[] groups) => groups.Sum(g => row.Kinds.GetValueOrDefault(g));

    private static string Short(string name, double room) => name.Length * 6.2 <= room ? name
        : name[..Math.Max(1, (int)(room / 6.2) - 1)] + "…";

    private static string Alt(string title, List<VisitedRow> rows)
    {
        var most = rows.MaxBy(r => r.Kinds.GetValueOrDefault("bees"));
        var bees = most?.Kinds.GetValueOrDefault("bees") ?? 0;
        var blank = rows.Count(r => r.Kinds.Count == 0);
        return title
            + string.Create(
            CultureInfo.InvariantCulture, $": {rows.Count} {(rows.Count == 1 ? "plant" : "plants")} by flowering, with groups of recorded "
                + $"visitors.")
            + (bees > 0 ? string.Create(CultureInfo.InvariantCulture, $" Most kinds of bees, {bees}, on {most!.Name}.") : "") + (blank > 0
            ? string.Create(CultureInfo.InvariantCulture, $" Nothing is recorded of {blank}.") : "");
    }

    private static string Alt(IReadOnlyList<HalfMonthVisitors> halves, Season season)
    {
        var shown = Enumerable.Range(season.First, season.Last - season.First + 1).ToList();
        var (most, least) = (shown.MaxBy(t => halves[t].Bees), shown.MinBy(t => halves[t].Bees));
        return $" Most kinds of bees with a plant in flower: {halves[most].Bees}, {HalfMonthWords.Of(most)}, {halves[most].BeesTwice} of "
            + $"them with two or more; fewest: {halves[least].Bees}, {HalfMonthWords.Of(least)}.";
    }
}
