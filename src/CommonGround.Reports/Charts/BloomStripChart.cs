using CommonGround.Ecology.Phenology;

namespace CommonGround.Reports.Charts;

/// <summary>One taxon's line on the strip.</summary>
/// <param name="Name">Common name.</param>
/// <param name="Latin">Scientific name.</param>
/// <param name="Window">When it flowers; null for grasses, sedges and where no source tells.</param>
/// <param name="Words">What to write instead of a line when there is no window.</param>
/// <param name="Colour">white, yellow, orange, red, pink, purple, blue or green; empty when not known.</param>
/// <param name="AreaSquareMetres">Cover, m².</param>
/// <param name="Tentative">Every record of it here is tentative.</param>
public sealed record BloomLine(string Name, string Latin, BloomWindow? Window, string Words, string Colour, double AreaSquareMetres,
    bool Tentative);

/// <summary>How a strip is set: on a screen as it stands, on paper closer and in the reader's units.</summary>
/// <param name="Row">Height of a taxon's row, px.</param>
/// <param name="NameShare">Share of the width left for names.</param>
/// <param name="AreaUnit">Heading of the areas at the right.</param>
/// <param name="SquareMetresPerUnit">What one of that unit is.</param>
public sealed record BloomStripLook(double Row = 20, double NameShare = 0.27, string AreaUnit = "m²", double SquareMetresPerUnit = 1);

/// <summary>The bloom strip: each taxon's time in flower, and below it the native taxa in flower standing on the season line.</summary>
public static class BloomStripChart
{
    /// <param name="title">"Bloom strip of yard LA-07".</param>
    /// <param name="lines">One entry per taxon, any order.</param>
    /// <param name="inFlower">Native taxa in flower, 24 entries.</param>
    /// <param name="inFlowerCertain">The same without tentative records, 24 entries.</param>
    /// <param name="season">The season and its norm.</param>
    /// <param name="now">Half-month to mark, or null.</param>
    /// <param name="width">px; under 720 the strip keeps names and March to November only.</param>
    /// <param name="look">How it is set; null for the page's own.</param>
    public static Chart Draw(string title, IReadOnlyList<BloomLine> lines, IReadOnlyList<int> inFlower, IReadOnlyList<int> inFlowerCertain,
        Season season, int? now, double width, BloomStripLook? look = null)
    {
        look ??= new BloomStripLook();
        var narrow = width < 720;
        var row = narrow ? 22.0 : look.Row;
        var axis = narrow ? new YearAxis(124, width - 30, 4, 21) : new YearAxis(Math.Min(308, width * look.NameShare), width - 60, 0, 23);
        var sorted = Sorted(lines);
        var top = 28.0;
        var listBottom = top + (sorted.Count * row) + 6;
        var highest = Math.Max(season.Norm + 1, inFlower.Max());
        var barTop = listBottom + 22;
        var unit = Math.Min(narrow ? 7.0 : 8.0, 76.0 / highest);
        var baseline = barTop + (highest * unit) + 8;
        var marks = new List<Mark>();

        axis.Ground(marks, season, now, top, baseline);
        axis.Header(marks, 12, now, narrow);
        foreach (var half in axis.Halves.Where(h => h % 2 == 0).Append(narrow ? 22 : 24))
        {
            marks.Add(new LineMark("g-rule", axis.X(half), top, axis.X(half), listBottom));
        }

        for (var i = 0; i < sorted.Count; i++)
        {
            Line(marks, sorted[i], axis, top + (i * row), row, narrow, width, look);
        }

        if (!narrow)
        {
            marks.Add(new TextMark("axis", width, 12, look.AreaUnit, Anchor.End));
            marks.Add(new TextMark("lab", 0, baseline - (highest * unit / 2), "Native species in flower"));
            marks.Add(new TextMark("axis", axis.X(season.First) - 8, baseline + 4, "Season line", Anchor.End));
        }

        SeasonBars(marks, axis, inFlower, inFlowerCertain, season, baseline, unit, narrow);
        return new Chart(width, baseline + 30, Alt(title, inFlower, season), marks);
    }

    /// <summary>By first, then last half-month in flower; those without a window after them, by name.</summary>
    public static IReadOnlyList<BloomLine> Sorted(IEnumerable<BloomLine> lines) =>
        [.. lines.OrderBy(l => l.Window?.Start ?? 99).ThenBy(l => l.Window?.End ?? 99).ThenBy(l => l.Latin, StringComparer.Ordinal)];

    private static void Line(List<Mark> marks, BloomLine line, YearAxis axis, double y, double row, bool narrow, double width,
        BloomStripLook look)
    {
        var middle = y + (row / 2);
        var name = line.Tentative ? line.Name + "?" : line.Name;
        // About 6.6 px a letter: a Latin name that would run into the chart is left out.
        var hasRoom = !narrow && (name.Length * 6.6) + (line.Latin.Length * 6) + 14 <= axis.Left;
        marks.Add(new TextMark(narrow ? "lab small-lab" : "lab", 0, middle + 4.5, narrow ? Cut(name, 20) : name, Anchor.Start, "lat",
            hasRoom ? line.Latin : ""));
        marks.Add(new TextMark("val", width, middle + 4.5, Figure(line.AreaSquareMetres / look.SquareMetresPerUnit), Anchor.End));
        if (line.Window is not { } window)
        {
            marks.Add(new TextMark("axis", axis.X(narrow ? 7 : 6) + 4, middle + 4, line.Words));
            return;
        }

        var thickness = line.AreaSquareMetres < 1 ? 4.0 : line.AreaSquareMetres <= 3 ? 8.0 : 12.0;
        var style = (line.Colour.Length > 0 ? "fl-" + line.Colour : "fl-none") + (line.Tentative ? " tentative" : "");
        foreach (var (from, to) in Runs(window).Where(r => axis.Shows(r.From) || axis.Shows(r.To)))
        {
            var x1 = Math.Max(axis.X(from), axis.Left) + 1;
            var x2 = Math.Min(axis.X(to + 1), axis.Right) - 1;
            marks.Add(new RectMark(style, x1, middle - (thickness / 2), x2 - x1, thickness, thickness / 2));
        }
    }

    private static void SeasonBars(List<Mark> marks, YearAxis axis, IReadOnlyList<int> all, IReadOnlyList<int> certain, Season season,
        double baseline, double unit, bool narrow)
    {
        var norm = baseline - (season.Norm * unit);
        if (!narrow)
        {
            marks.Add(new LineMark("g-norm", axis.X(season.First) - 96, norm, axis.X(season.Last + 1), norm));
            marks.Add(new TextMark("axis", axis.X(season.First) - 102, norm + 4, $"norm: {season.Norm} species", Anchor.End));
        }
        else
        {
            marks.Add(new LineMark("g-norm", axis.Left - 4, norm, axis.X(season.Last + 1), norm));
            marks.Add(new TextMark("axis", axis.Left - 8, norm + 4, $"norm {season.Norm}", Anchor.End));
        }

        for (var t = season.First; t <= season.Last; t++)
        {
            var x = axis.X(t) + (axis.Step * 0.12);
            var wide = axis.Step * 0.76;
            var style = all[t] >= season.Norm ? "g-bar" : "g-under";
            if (certain[t] > 0)
            {
                marks.Add(new RectMark(style, x, baseline - (certain[t] * unit), wide, certain[t] * unit));
            }

            if (all[t] > certain[t])
            {
                marks.Add(new RectMark("g-ghost", x, baseline - (all[t] * unit), wide, (all[t] - certain[t]) * unit));
            }

            // "22+1" beside "23+1" would run together: then the sum, and the dashed box says that some of it is tentative.
            var both = $"{certain[t]}+{all[t] - certain[t]}";
            var label = all[t] > certain[t] && !narrow && both.Length * 6.2 <= axis.Step ? both : $"{all[t]}";
            marks.Add(new TextMark("axis", axis.Middle(t), baseline - (Math.Max(all[t], 0) * unit) - 6, label, Anchor.Middle));
        }

        SeasonLineChart.Stops(marks, season, all, axis.Middle, season.First, season.Last, baseline, narrow ? 2.6 : 4);
        SeasonLineChart.GapBrackets(marks, season, all, axis.X, baseline + 9);
    }

    private static IEnumerable<(int From, int To)> Runs(BloomWindow window) => window.Start <= window.End
        ? [(window.Start, window.End)]
        : [(window.Start, HalfMonth.Count - 1), (0, window.End)];

    private static string Alt(string title, IReadOnlyList<int> inFlower, Season season)
    {
        var most = Enumerable.Range(season.First, season.Last - season.First + 1).MaxBy(t => inFlower[t]);
        return $"{title}: {SeasonLineChart.Words(season, inFlower, season.First, season.Last)}; most in flower {HalfMonthWords.Of(most)}, "
            + $"{inFlower[most]} species.";
    }

    private static string Figure(double area) => area >= 100 ? area.ToString("0") : area.ToString("0.0");

    private static string Cut(string text, int length) => text.Length <= length ? text : text[..(length - 1)].TrimEnd() + "…";
}
