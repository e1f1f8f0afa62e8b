using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.Charts;

/// <summary>Hours of work by month: the first three years and a later one, and mowing the same ground.</summary>
public static class HoursChart
{
    private static readonly string[] s_months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

    /// <param name="work">Hours.</param>
    /// <param name="width">px, 300 or more.</param>
    public static Chart Draw(WorkComparison work, double width)
    {
        const double Top = 20, Row = 40, Left = 92;
        var marks = new List<Mark>();
        var right = width - 66;
        var step = (right - Left) / 12;
        var rows = work.Years.Select((y, i) => (Name: i < 3 ? $"year {i + 1}" : "later", Hours: y, Style: "after"))
            .Append((Name: "mowing lawn", Hours: work.LawnByMonth, Style: "before")).ToList();
        var most = Math.Max(0.1, rows.Max(r => r.Hours.Max()));
        for (var m = 0; m < 12; m++)
        {
            marks.Add(new TextMark("axis", Left + ((m + 0.5) * step), 10, step < 26 ? s_months[m][..1] : s_months[m], Anchor.Middle));
        }

        marks.Add(new TextMark("axis", width, 10, "hours", Anchor.End));
        for (var i = 0; i < rows.Count; i++)
        {
            var ground = Top + ((i + 1) * Row) - 4;
            marks.Add(new TextMark("lab", 0, ground - 4, rows[i].Name));
            for (var m = 0; m < 12; m++)
            {
                var tall = rows[i].Hours[m] / most * (Row - 10);
                if (tall > 0)
                {
                    marks.Add(new RectMark(rows[i].Style, Left + ((m + 0.2) * step), ground - tall, step * 0.6, tall));
                }
            }

            marks.Add(new LineMark("g-tick", Left, ground, right, ground));
            marks.Add(new TextMark("lab strong", width, ground - 4, Scale.Words(rows[i].Hours.Sum()), Anchor.End));
        }

        return new Chart(width,
            Top + (rows.Count * Row)
                + 4, $"Hours of work: {string.Join("; ", rows.Select(r => $"{r.Name} {Scale.Words(r.Hours.Sum())}, most in {s_months[r.Hours.Select((h, m) => (h, m)).MaxBy(p => p.h).m]}"))}.", marks);
    }
}
