using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.Charts;

/// <summary>Hours of a year's work as clock faces to count: the first three years, a later one, and mowing the same ground.</summary>
public static class ClockChart
{
    private const double Face = 16, Gap = 5;
    private const int Most = 40;

    /// <param name="work">Hours.</param>
    /// <param name="ground">What stands there now: "lawn".</param>
    /// <param name="width">px, 300 or more.</param>
    public static Chart Draw(WorkComparison work, string ground, double width)
    {
        ArgumentNullException.ThrowIfNull(work);
        var rows = work.Years.Select((y, i) => (Name: i < 3 ? $"year {i + 1}" : "each later year", Hours: y.Sum(), Style: "st-on"))
            .Append((Name: ground == "lawn" ? "mowing it now" : "mowing it as lawn", Hours: work.LawnByMonth.Sum(), Style: "before"))
            .ToList();
        // So many hours are one face that a year fits on the line.
        var unit = rows.Max(r => r.Hours) switch
        {
            <= Most => 1.0,
            <= 2 * Most => 2,
            <= 5 * Most => 5,
            var h => Math.Ceiling(h / Most / 10) * 10,
        };
        const double Left = 118;
        var right = width - 62;
        var inRow = Math.Max(1, (int)((right - Left) / (Face + Gap)));
        var marks = new List<Mark>();
        var y = 4.0;
        foreach (var (name, hours, style) in rows)
        {
            // As many faces as the figure beside them says.
            var faces = (hours >= 9.95 ? Math.Round(hours) : hours) / unit;
            marks.Add(new TextMark("lab", 0, y + 13, name));
            marks.Add(new TextMark("lab strong", width, y + 13, $"{Scale.Words(hours)} h", Anchor.End));
            var whole = (int)Math.Floor(faces + 0.05);
            for (var i = 0; i < whole; i++) Whole(marks, style, Left + (i % inRow * (Face + Gap)), y + (i / inRow * (Face + Gap)));
            var part = faces - whole;
            if (part > 0.05) Part(marks, style, part, Left + (whole % inRow * (Face + Gap)), y + (whole / inRow * (Face + Gap)));
            y += Math.Max(1, Math.Ceiling(Math.Max(0.1, faces) / inRow)) * (Face + Gap);
            y += 5;
        }

        marks.Add(new TextMark("axis", 0, y + 12, unit > 1 ? $"One face is {Scale.Words(unit)} hours." : "One face is one hour."));
        return new Chart(width, y + 17,
            $"Hours of your own work: {string.Join("; ", rows.Select(r => $"{r.Name} {Scale.Words(r.Hours)}"))}.", marks);
    }

    private static void Whole(List<Mark> marks, string style, double x, double y) =>
        marks.Add(new CircleMark(style, x + (Face / 2) + 1, y + (Face / 2) + 1, Face / 2));

    private static void Part(List<Mark> marks, string style, double part, double x, double y)
    {
        Whole(marks, "before", x, y);
        if (style == "before" && part < 0.05) return;
        var (cx, cy) = (x + (Face / 2) + 1, y + (Face / 2) + 1);
        List<(double, double)> pie = [(cx, cy)];
        var steps = Math.Max(2, (int)Math.Ceiling(part * 24));
        for (var i = 0; i <= steps; i++)
        {
            var a = 2 * Math.PI * part * i / steps;
            pie.Add((cx + (Face / 2 * Math.Sin(a)), cy - (Face / 2 * Math.Cos(a))));
        }

        marks.Add(new PathMark(style == "before" ? "g-idle" : "solid", pie, Closed: true));
    }
}
