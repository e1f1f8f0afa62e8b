using System.Globalization;
using CommonGround.Ecology.Phenology;

namespace CommonGround.Reports.Charts;

/// <summary>A plant of the picture of visitors.</summary>
/// <param name="Window">When it flowers.</param>
/// <param name="Kinds">Recorded kinds by group; empty when nothing is recorded of it.</param>
public sealed record VisitedRow(string Name, BloomWindow Window, string Colour, IReadOnlyDictionary<string, int> Kinds);

/// <summary>Who comes to which plant and when: a line a plant, its flowering across the season, and a dot for each group of visitors, larger for more kinds.</summary>
public static class VisitorChart
{
    private const double Top = 44, Line = 17;

    /// <summary>Columns of dots: heading and the groups of the record in it.</summary>
    private static readonly (string Heading, string[] Groups)[] Columns =
    [
        ("bees", ["bees"]), ("butterflies, moths", ["butterflies", "moths"]), ("flies", ["hover flies", "other flies"]), ("beetles, bugs", ["beetles", "true bugs"]),
        ("wasps, ants", ["wasps", "ants"]), ("others", ["birds", "other insects"]),
    ];

    /// <param name="title">"Who comes to the plants of yard KI-05".</param>
    /// <param name="rows">Flowers only; drawn by first flowering.</param>
    /// <param name="season">Half-months shown.</param>
    /// <param name="width">px, 420 or more.</param>
    public static Chart Draw(string title, IReadOnlyList<VisitedRow> rows, Season season, double width)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(season);
        var sorted = rows.OrderBy(r => r.Window.Start).ThenBy(r => r.Window.End).ThenBy(r => r.Name, StringComparer.Ordinal).ToList();
        var name = Math.Min(170, width * 0.3);
        var dots = Math.Min(46, width * 0.075);
        var axis = new YearAxis(name, width - (dots * Columns.Length) - 8, season.First, season.Last);
        var marks = new List<Mark>();
        axis.Header(marks, 30, null, initials: true);
        var most = Math.Max(1, sorted.SelectMany(r => Columns.Select(c => Of(r, c.Groups))).DefaultIfEmpty(1).Max());
        for (var c = 0; c < Columns.Length; c++)
        {
            var x = axis.Right + 8 + (dots * (c + 0.5));
            // Two words stand on two lines.
            var words = Columns[c].Heading.Split(", ");
            marks.Add(new TextMark("axis", x, words.Length == 1 ? 30 : 18, words.Length == 1 ? words[0] : words[0] + ",", Anchor.Middle));
            if (words.Length > 1) marks.Add(new TextMark("axis", x, 30, words[1], Anchor.Middle));
        }

        foreach (var (row, i) in sorted.Select((r, i) => (r, i)))
        {
            var y = Top + (i * Line);
            marks.Add(new TextMark("axis strong", 0, y + 12, Short(row.Name, name)));
            marks.Add(new LineMark("g-rule", axis.Left, y + 8, width, y + 8));
            for (var t = season.First; t <= season.Last; t++)
            {
                if (row.Window.Contains(t)) marks.Add(new RectMark(row.Colour.Length > 0 ? "fl-" + row.Colour : "fl-none", axis.X(t), y + 4, axis.Step, 8));
            }

            for (var c = 0; c < Columns.Length; c++)
            {
                var kinds = Of(row, Columns[c].Groups);
                if (kinds > 0) marks.Add(new CircleMark("solid", axis.Right + 8 + (dots * (c + 0.5)), y + 8, 1.5 + (5.5 * Math.Sqrt((double)kinds / most))));
            }
        }

        return new Chart(width, Top + (sorted.Count * Line) + 6, Alt(title, sorted), marks);
    }

    private static int Of(VisitedRow row, string[] groups) => groups.Sum(g => row.Kinds.GetValueOrDefault(g));

    private static string Short(string name, double room) => name.Length * 6.2 <= room ? name : name[..Math.Max(1, (int)(room / 6.2) - 1)] + "…";

    private static string Alt(string title, List<VisitedRow> rows)
    {
        var most = rows.MaxBy(r => r.Kinds.GetValueOrDefault("bees"));
        var bees = most?.Kinds.GetValueOrDefault("bees") ?? 0;
        var blank = rows.Count(r => r.Kinds.Count == 0);
        return title + string.Create(CultureInfo.InvariantCulture, $": {rows.Count} plants by flowering, with groups of recorded visitors.")
            + (bees > 0 ? string.Create(CultureInfo.InvariantCulture, $" Most kinds of bees, {bees}, on {most!.Name}.") : "") + (blank > 0 ? string.Create(CultureInfo.InvariantCulture, $" Nothing is recorded of {blank}.") : "");
    }
}
