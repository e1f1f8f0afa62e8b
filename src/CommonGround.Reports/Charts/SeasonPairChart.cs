using CommonGround.Ecology.Phenology;

namespace CommonGround.Reports.Charts;

/// <summary>Season lines under each other on one scale of months: a yard above its street.</summary>
public static class SeasonPairChart
{
    /// <param name="title">What is compared.</param>
    /// <param name="lines">Name and native taxa in flower, 24 entries; top to bottom.</param>
    /// <param name="season">The season and its norm.</param>
    /// <param name="now">Half-month to mark, or null.</param>
    /// <param name="width">px, 500 or more.</param>
    public static Chart Draw(string title, IReadOnlyList<(string Name, IReadOnlyList<int> InFlower)> lines, Season season, int? now,
        double width)
    {
        const double Row = 44, Top = 30;
        var axis = new YearAxis(width * 0.25, width - 90, season.First, season.Last);
        var bottom = Top + (lines.Count * Row);
        var marks = new List<Mark>();
        axis.Ground(marks, season, now, Top - 2, bottom);
        axis.Header(marks, 12, now, initials: false);
        for (var i = 0; i < lines.Count; i++)
        {
            var y = Top + (i * Row) + 27;
            marks.Add(new TextMark("lab", 0, y + 4.5, lines[i].Name));
            SeasonLineChart.Stops(marks, season, lines[i].InFlower, axis.Middle, season.First, season.Last, y, 6);
            foreach (var t in axis.Halves)
            {
                marks.Add(new TextMark("axis", axis.Middle(t), y - 11, $"{lines[i].InFlower[t]}", Anchor.Middle));
            }

            var covered = axis.Halves.Count(t => lines[i].InFlower[t] >= season.Norm);
            marks.Add(new TextMark("lab", width, y + 4.5, $"{covered} of {season.Last - season.First + 1}", Anchor.End));
        }

        var words = lines.Select(l => $"{l.Name}: {SeasonLineChart.Words(season, l.InFlower, season.First, season.Last)}");
        return new Chart(width, bottom + 2, $"{title}. {string.Join(". ", words)}.", marks);
    }
}
