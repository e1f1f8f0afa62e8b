using System.Globalization;

namespace CommonGround.Reports.Charts;

/// <summary>Twelve months with some of them filled: a step of a calendar.</summary>
public static class MonthsChart
{
    /// <param name="from">1–12; where it is after <paramref name="to"/> the step goes over the turn of the year.</param>
    /// <param name="to">1–12, included.</param>
    /// <param name="width">px.</param>
    public static Chart Draw(int from, int to, double width = 120)
    {
        var step = width / 12;
        var marks = new List<Mark> { new LineMark("g-tick", 0, 10, width, 10) };
        for (var month = 0; month <= 12; month++)
        {
            marks.Add(new LineMark("g-tick", month * step, month % 3 == 0 ? 2 : 6, month * step, 10));
        }

        IReadOnlyList<(int From, int To)> runs = from <= to ? [(from, to)] : [(1, to), (from, 12)];
        marks.AddRange(runs.Select(r => new RectMark("solid", ((r.From - 1) * step) + 1, 3, ((r.To - r.From + 1) * step) - 2, 7)));
        return new Chart(width, 13, Words(from, to), marks);
    }

    /// <summary>"Apr–Jun", or one month.</summary>
    public static string Words(int from, int to) => from == to ? Month(from) : $"{Month(from)}–{Month(to)}";

    private static string Month(int month) => CultureInfo.InvariantCulture.DateTimeFormat.GetAbbreviatedMonthName(month);
}
