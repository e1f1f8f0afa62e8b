namespace CommonGround.Reports.Charts;

/// <summary>A few bars beside their names, each with its figure: what is now hatched, what is to come solid.</summary>
public static class BarsChart
{
    /// <summary>A bar.</summary>
    /// <param name="Name">Before it.</param>
    /// <param name="Value">0 or more; all bars on one scale.</param>
    /// <param name="Words">After it.</param>
    /// <param name="IsNow">What stands there now.</param>
    public sealed record Bar(string Name, double Value, string Words, bool IsNow);

    /// <param name="title">What is compared.</param>
    /// <param name="bars">Top to bottom, one or more.</param>
    /// <param name="width">px, 240 or more.</param>
    public static Chart Draw(string title, IReadOnlyList<Bar> bars, double width)
    {
        ArgumentNullException.ThrowIfNull(bars);
        const double Left = 122, Row = 30, High = 19;
        var room = width - Left - (7 * bars.Max(b => b.Words.Length)) - 12;
        var most = Math.Max(1e-9, bars.Max(b => b.Value));
        var marks = new List<Mark>();
        foreach (var (i, bar) in bars.Index())
        {
            var y = 4 + (i * Row);
            var length = Math.Max(1.5, bar.Value / most * Math.Max(30, room));
            marks.Add(new TextMark("lab", 0, y + 14, bar.Name));
            marks.Add(new RectMark(bar.IsNow ? "before" : "after", Left, y, length, High));
            Hatching.Rows(marks, bar.IsNow ? "before" : "after", Left, y, length, High);
            marks.Add(new TextMark("lab strong", Left + length + 8, y + 14, bar.Words));
        }

        marks.Add(new LineMark("ground", Left, 0, Left, 4 + (bars.Count * Row) - 7));
        return new Chart(width, 4 + (bars.Count * Row),
            $"{title}: {string.Join("; ", bars.Select(b => $"{b.Name} {b.Words}"))}.", marks);
    }
}
