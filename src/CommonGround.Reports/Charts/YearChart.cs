using CommonGround.Ecology.Phenology;

namespace CommonGround.Reports.Charts;

/// <summary>A year with a named band on each line: in flower, usually treated.</summary>
public static class YearChart
{
    public static Chart Draw(string title, IReadOnlyList<(string Name, BloomWindow Window, string Style, string Words)> rows,
        Season season, int? now, double width)
    {
        var narrow = width < 720;
        var axis = narrow ? new YearAxis(92, width, 0, 23) : new YearAxis(212, width, 0, 23);
        const double Top = 28, Row = 34;
        var bottom = Top + (Math.Max(1, rows.Count) * Row);
        var marks = new List<Mark>();
        axis.Ground(marks, season, now, Top, bottom);
        axis.Header(marks, 12, now, narrow);
        foreach (var half in axis.Halves.Where(h => h % 2 == 0).Append(24))
        {
            marks.Add(new LineMark("g-rule", axis.X(half), Top, axis.X(half), bottom));
        }

        for (var i = 0; i < rows.Count; i++)
        {
            var (name, window, style, words) = rows[i];
            var middle = Top + (i * Row) + (Row / 2);
            marks.Add(new TextMark(narrow ? "lab small-lab" : "lab", 0, middle + 5, name));
            IReadOnlyList<(int From, int To)> runs = window.Start <= window.End ? [(window.Start, window.End)]
                : [(window.Start, 23), (0, window.End)];
            foreach (var (from, to) in runs)
            {
                marks.Add(new RectMark(style, axis.X(from) + 1, middle - 9, axis.X(to + 1) - axis.X(from) - 2, 18, 9));
            }

            if (!narrow)
            {
                var last = runs[0];
                marks.Add(new TextMark("axis strong", axis.X(last.To + 1) + 8, middle + 4, words));
            }
        }

        if (rows.Count == 0)
        {
            marks.Add(new TextMark("axis", axis.Left + 8, Top + 21, "no dated stage is known"));
        }

        return new Chart(width,
            bottom + 4, $"{title}: {(rows.Count == 0 ? "no dated stage is known" : string.Join("; ", rows.Select(r => $"{r.Name} {r.Words}")))}", marks);
    }
}
