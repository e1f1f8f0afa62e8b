using CommonGround.Ecology.Phenology;

namespace CommonGround.Reports.Charts;

/// <summary>Streets under each other over the season, their bars on one scale: where one stops and another goes on is seen in one
/// column.</summary>
public static class StreetsYearChart
{
    private const double BarHeight = 84, Row = 142, Top = 8;

    /// <param name="streets">Name and native taxa in flower, 24 entries; top to bottom.</param>
    /// <param name="season">The season and its norm.</param>
    /// <param name="now">Half-month to mark, or null.</param>
    /// <param name="width">px, 300 or more.</param>
    public static Chart Draw(IReadOnlyList<(string Name, IReadOnlyList<int> InFlower)> streets, Season season, int? now, double width)
    {
        ArgumentNullException.ThrowIfNull(streets);
        ArgumentNullException.ThrowIfNull(season);
        var axis = new YearAxis(0, width, season.First, season.Last);
        var bottom = Top + (streets.Count * Row);
        var highest = Math.Max(season.Norm, streets.Count == 0 ? 0 : streets.Max(s => axis.Halves.Max(t => s.InFlower[t])));
        var marks = new List<Mark>();
        if (now is { } n && axis.Shows(n))
        {
            marks.Add(new RectMark("g-now", axis.X(n), Top, axis.Step, bottom - Top - 6));
        }

        foreach (var (i, (name, inFlower)) in streets.Index())
        {
            var top = Top + (i * Row);
            Bars(marks, axis, season, inFlower, top + 30 + BarHeight, BarHeight / highest);
            // The name is written last: over a bar of April it still reads.
            marks.Add(new TextMark("lab strong", 0, top + 14, name));
            marks.Add(new TextMark("axis", axis.Right, top + 14, SeasonLineChart.Words(season, inFlower, season.First, season.Last)
                .Split(';')[0].Replace(" half-months", "", StringComparison.Ordinal), Anchor.End));
        }

        axis.Header(marks, bottom + 6, now, initials: width < 500);
        var words = streets.Select(s => $"{s.Name}: {string.Join(", ", axis.Halves.Select(t => s.InFlower[t]))}; "
            + SeasonLineChart.Words(season, s.InFlower, season.First, season.Last));
        return new Chart(width, bottom + 22, "Native kinds in flower by half-month from "
            + $"{HalfMonthWords.FirstDay(season.First)}. {string.Join(". ", words)}.", marks);
    }

    private static void Bars(List<Mark> marks, YearAxis axis, Season season, IReadOnlyList<int> inFlower, double ground, double unit)
    {
        var inset = Math.Min(6, axis.Step * 0.14);
        foreach (var t in axis.Halves)
        {
            var height = inFlower[t] * unit;
            var isCovered = inFlower[t] >= season.Norm;
            if (inFlower[t] > 0)
            {
                marks.Add(new RectMark(isCovered ? "g-bar" : "g-under", axis.X(t) + inset, ground - height,
                    axis.Step - (2 * inset), height));
            }

            marks.Add(new TextMark(isCovered ? "axis" : "gapt", axis.Middle(t), ground - height - 5, $"{inFlower[t]}", Anchor.Middle));
        }

        SeasonLineChart.Stops(marks, season, inFlower, axis.Middle, season.First, season.Last, ground + 11, axis.Step < 30 ? 3.6 : 4.6);
    }
}
