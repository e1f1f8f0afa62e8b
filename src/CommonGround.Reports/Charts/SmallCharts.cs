using CommonGround.Ecology.Phenology;

namespace CommonGround.Reports.Charts;

/// <summary>The charts that fit in a table cell.</summary>
public static class SmallCharts
{
    /// <summary>When one taxon flowers, on the season's line with now marked.</summary>
    public static Chart Window(BloomWindow window, string colour, Season season, int? now, bool tentative = false, double width = 106)
    {
        var axis = new YearAxis(0, width, season.First, season.Last);
        var marks = new List<Mark> { new LineMark("g-rule", 0, 7, width, 7) };
        if (now is { } n && axis.Shows(n))
        {
            marks.Add(new RectMark("g-now", axis.X(n), 0, axis.Step, 14));
        }

        var style = (colour.Length > 0 ? "fl-" + colour : "fl-none") + (tentative ? " tentative" : "");
        for (var t = season.First; t <= season.Last; t++)
        {
            if (!window.Contains(t) || (t > season.First && window.Contains(t - 1)))
            {
                continue;
            }

            var end = t;
            while (end < season.Last && window.Contains(end + 1))
            {
                end++;
            }

            marks.Add(new RectMark(style, axis.X(t), 4, axis.X(end + 1) - axis.X(t), 6, 3));
        }

        return new Chart(width, 14, $"in flower {HalfMonthWords.Run(window.Start, window.End)}", marks);
    }

    /// <summary>A value on its range: a hairline for the whole scale, a band for what doubt allows, a tick for the value.</summary>
    public static Chart Range(double value, double low, double high, double scale, string unit, double width = 124)
    {
        double X(double v) => 1 + (Math.Clamp(v / scale, 0, 1) * (width - 2));
        return new Chart(width, 16, $"{value:0.##}{unit}, between {low:0.##} and {high:0.##}",
        [
            new LineMark("g-rule", 0, 8, width, 8),
            new RectMark("band", X(low), 3, Math.Max(X(high) - X(low), 1), 10),
            new LineMark("tickv", X(value), 1, X(value), 15),
        ]);
    }

    /// <summary>Cover as a bar, all rows of a table on one scale.</summary>
    public static Chart Cover(double squareMetres, double scale, double width = 64) => new(width, 12, $"{squareMetres:0.0} m²",
        [new RectMark("g-cover", 0, 2, Math.Max(1, width * Math.Min(1, squareMetres / scale)), 8)]);

    /// <summary>Blocks covered in each half-month of the season, out of all that are shown.</summary>
    public static Chart CoveredBlocks(string title, IReadOnlyList<int> covered, int blocks, Season season, int now, double width)
    {
        var narrow = width < 500;
        var axis = narrow ? new YearAxis(0, width, 4, 21) : new YearAxis(0, width, 0, 23);
        const double Top = 30, Baseline = 184;
        var marks = new List<Mark>();
        axis.Header(marks, 12, now, narrow);
        axis.Ground(marks, season, now, 28, Baseline);
        var unit = (Baseline - Top - 8) / Math.Max(1, blocks);
        for (var t = season.First; t <= season.Last; t++)
        {
            double x = axis.X(t) + (axis.Step * 0.08), wide = axis.Step * 0.84, y = Baseline - (covered[t] * unit);
            marks.Add(new RectMark("g-frame", x, Top + 8, wide, Baseline - Top - 8));
            marks.Add(new RectMark("g-bar", x, y, wide, covered[t] * unit));
            var inside = covered[t] * unit > 22;
            marks.Add(new TextMark(inside ? "on-bar" : "gapt", axis.Middle(t), inside ? y + 15 : y - 6, $"{covered[t]}", Anchor.Middle));
        }

        if (!narrow)
        {
            marks.Add(new TextMark("axis", axis.X(season.First) - 8, Top + 12, $"{blocks} blocks", Anchor.End));
            marks.Add(new TextMark("axis", axis.X(season.First) - 8, Baseline - 4, "none", Anchor.End));
        }

        marks.Add(new LineMark("g-base", 0, Baseline, width, Baseline));
        var words = string.Join("; ", Enumerable.Range(season.First, season.Last - season.First + 1)
            .Select(t => $"{HalfMonthWords.Short(t)} {covered[t]}"));
        return new Chart(width, Baseline + 4, $"{title}, of {blocks}: {words}", marks);
    }

    /// <summary>Twenty-four low bars with month names: the ground of the season slider.</summary>
    public static Chart YearBars(string title, IReadOnlyList<int> covered, int blocks, Season season, int chosen, double width)
    {
        var axis = new YearAxis(0, width, 0, 23);
        const double Baseline = 46;
        var marks = new List<Mark> { new RectMark("g-now", axis.X(chosen), 0, axis.Step, Baseline) };
        var unit = (Baseline - 6) / Math.Max(1, blocks);
        foreach (var t in axis.Halves.Where(t => covered[t] > 0))
        {
            marks.Add(new RectMark(t == chosen ? "g-bar" : "g-idle", axis.X(t) + 3, Baseline - (covered[t] * unit), axis.Step - 6,
                covered[t] * unit));
        }

        marks.Add(new LineMark("g-tick", 0, Baseline, width, Baseline));
        marks.Add(new LineMark("g-base", axis.X(season.First), Baseline, axis.X(season.Last + 1), Baseline));
        for (var month = 0; month < 12; month++)
        {
            marks.Add(new TextMark("axis", axis.X(month * 2) + axis.Step, Baseline + 18,
                new DateOnly(2026, month + 1, 1).ToString("MMM", System.Globalization.CultureInfo.InvariantCulture)[..(width < 500 ? 1
                    : 3)], Anchor.Middle));
        }

        return new Chart(width, Baseline + 22, title + ": " + string.Join("; ",
            axis.Halves.Where(season.Holds).Select(t => $"{HalfMonthWords.Short(t)} {covered[t]}")), marks);
    }
}
