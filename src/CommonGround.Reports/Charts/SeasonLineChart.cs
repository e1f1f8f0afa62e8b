using CommonGround.Ecology.Phenology;

namespace CommonGround.Reports.Charts;

/// <summary>One stop a half-month: filled where the norm is met, open where it is a gap. With bars on it, it is the tables' small
/// chart.</summary>
public static class SeasonLineChart
{
    /// <summary>Stops only, for example the five of the late season.</summary>
    public static Chart Line(string title, IReadOnlyList<int> inFlower, Season season, int from, int to, double step = 14,
        double radius = 4)
    {
        var marks = new List<Mark>();
        Stops(marks, season, inFlower, t => ((t - from) * step) + (step / 2), from, to, 8, radius);
        return new Chart((to - from + 1) * step, 16, $"{title}: {Words(season, inFlower, from, to)}", marks);
    }

    /// <summary>Bars of native species in flower standing on the season line; all rows of a table share
    /// <paramref name="highest"/>.</summary>
    public static Chart Bars(string title, IReadOnlyList<int> inFlower, Season season, int highest, double step = 10, double height = 34)
    {
        var marks = new List<Mark>();
        var baseline = height - 5;
        var unit = (baseline - 3) / Math.Max(highest, season.Norm);
        double Middle(int t) => ((t - season.First) * step) + (step / 2);
        for (var t = season.First; t <= season.Last; t++)
        {
            if (inFlower[t] > 0)
            {
                marks.Add(new RectMark(inFlower[t] >= season.Norm ? "g-bar" : "g-under", Middle(t) - (step * 0.3),
                    baseline - (inFlower[t] * unit), step * 0.6, inFlower[t] * unit));
            }
        }

        Stops(marks, season, inFlower, Middle, season.First, season.Last, baseline, 2.6);
        return new Chart((season.Last - season.First + 1) * step, height, $"{title}: {Words(season, inFlower, season.First, season.Last)}",
            marks);
    }

    /// <summary>The panel's chart: bars with figures, the norm, months and the gaps named.</summary>
    public static Chart Panel(string title, IReadOnlyList<int> inFlower, Season season, int? now, double width = 292)
    {
        var marks = new List<Mark>();
        var axis = new YearAxis(0, width - 50, season.First, season.Last);
        var highest = Math.Max(season.Norm + 1, inFlower.Max());
        const double Baseline = 96;
        var unit = 72.0 / highest;
        if (now is { } n && axis.Shows(n))
        {
            marks.Add(new RectMark("g-now", axis.X(n), 6, axis.Step, Baseline - 6));
        }

        foreach (var t in axis.Halves)
        {
            if (inFlower[t] > 0)
            {
                marks.Add(new RectMark(inFlower[t] >= season.Norm ? "g-bar" : "g-under", axis.X(t) + 2, Baseline - (inFlower[t] * unit),
                    axis.Step - 4, inFlower[t] * unit));
            }

            marks.Add(new TextMark("axis", axis.Middle(t), Baseline - (inFlower[t] * unit) - (inFlower[t] == 0 ? 7 : 4), $"{inFlower[t]}",
                Anchor.Middle));
        }

        var norm = Baseline - (season.Norm * unit);
        marks.Add(new LineMark("g-norm", 0, norm, axis.Right, norm));
        marks.Add(new TextMark("axis", axis.Right + 6, norm + 4, $"norm {season.Norm}"));
        Stops(marks, season, inFlower, axis.Middle, season.First, season.Last, Baseline, 3.6);
        foreach (var month in axis.Halves.Select(h => h / 2).Distinct())
        {
            marks.Add(new TextMark("axis", axis.X(month * 2) + axis.Step, Baseline + 20,
                new DateOnly(2026, month + 1, 1).ToString("MMM", System.Globalization.CultureInfo.InvariantCulture), Anchor.Middle));
        }

        GapBrackets(marks, season, inFlower, axis.X, Baseline + 28);
        return new Chart(width,
            Baseline + 52, $"{title}: {string.Join(", ", axis.Halves.Select(t => inFlower[t]))} by half-month from "
                + $"{HalfMonthWords.FirstDay(season.First)}; {Words(season, inFlower, season.First, season.Last)}", marks);
    }

    /// <summary>"9 of 14 half-months covered; gap April 1–May 31".</summary>
    public static string Words(Season season, IReadOnlyList<int> inFlower, int from, int to)
    {
        var covered = Enumerable.Range(from, to - from + 1).Count(t => inFlower[t] >= season.Norm);
        var gaps = string.Concat(Gaps(season, inFlower, from, to).Select(g => $"; gap {HalfMonthWords.Run(g.From, g.To)}"));
        return $"{covered} of {to - from + 1} half-months covered{gaps}";
    }

    internal static void Stops(List<Mark> marks, Season season, IReadOnlyList<int> inFlower, Func<int, double> x, int from, int to,
        double y, double radius)
    {
        for (var t = from; t < to; t++)
        {
            var whole = inFlower[t] >= season.Norm && inFlower[t + 1] >= season.Norm;
            marks.Add(new LineMark(whole ? "g-base" : "g-base-gap", x(t), y, x(t + 1), y));
        }

        for (var t = from; t <= to; t++)
        {
            marks.Add(new CircleMark(inFlower[t] >= season.Norm ? "st-on" : "st-off", x(t), y, radius));
        }
    }

    internal static void GapBrackets(List<Mark> marks, Season season, IReadOnlyList<int> inFlower, Func<int, double> x, double y)
    {
        var written = double.NegativeInfinity;
        foreach (var (from, to) in Gaps(season, inFlower, season.First, season.Last))
        {
            double left = x(from) + 2, right = x(to + 1) - 2;
            marks.Add(new PathMark("g-gap", [(left, y - 5), (left, y), (right, y), (right, y - 5)], Closed: false));
            var text = "gap " + HalfMonthWords.RunShort(from, to);
            var half = text.Length * 3.1;
            var middle = Math.Min(Math.Max((left + right) / 2, x(season.First) + half), x(season.Last + 1) - half + 24);
            // Two short gaps close together would write over each other: the bracket alone then marks the second.
            if (middle - half > written)
            {
                marks.Add(new TextMark("gapt", middle, y + 14, text, Anchor.Middle));
                written = middle + half + 6;
            }
        }
    }

    private static IEnumerable<(int From, int To)> Gaps(Season season, IReadOnlyList<int> inFlower, int from, int to)
    {
        for (var t = from; t <= to; t++)
        {
            if (inFlower[t] >= season.Norm)
            {
                continue;
            }

            var start = t;
            while (t < to && inFlower[t + 1] < season.Norm)
            {
                t++;
            }

            yield return (start, t);
        }
    }
}
