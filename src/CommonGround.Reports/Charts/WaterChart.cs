using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.Charts;

/// <summary>A figure's unit on a chart: what it is called and how many of the record's units make one.</summary>
public readonly record struct ChartUnit(string Name, double Size)
{
    public static ChartUnit Litres { get; } = new("litres", 1);

    public static ChartUnit CubicMetres { get; } = new("m³", 1000);

    /// <summary>US gallons of 3.785411784 litres.</summary>
    public static ChartUnit Gallons { get; } = new("gal", 3.785411784);

    public double Of(double value) => value / Size;
}

/// <summary>Watering of lawn and planting: the year with its range, then month by month.</summary>
public static class WaterChart
{
    private static readonly string[] s_months = ["J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"];

    /// <param name="water">Litres.</param>
    /// <param name="unit">To show.</param>
    /// <param name="width">px, 300 or more.</param>
    public static Chart Draw(WaterComparison water, ChartUnit unit, double width)
    {
        var marks = new List<Mark>();
        var left = 104.0;
        var most = unit.Of(Math.Max(water.LawnLitres.High, water.PlantingLitres.High));
        var ticks = Scale.Ticks(most, 4);
        // Figures stand at the ends of the ranges.
        double end = width - 8, right = end - 112;
        double X(double v) => left + (ticks[^1] > 0 ? v / ticks[^1] * (right - left) : 0);
        foreach (var tick in ticks)
        {
            marks.Add(new LineMark("g-rule", X(tick), 4, X(tick), 100));
            marks.Add(new TextMark("axis", X(tick), 116, Scale.Words(tick), Anchor.Middle));
        }

        Year(marks, "lawn", water.LawnLitres, "before", 6, unit, X);
        Year(marks, "planting", water.PlantingLitres, "after", 54, unit, X);
        marks.Add(new LineMark("ground", left, 4, left, 100));
        Months(marks, water, unit, left, end);
        return new Chart(width, 262, Alt(water, unit), marks);
    }

    private static void Year(List<Mark> marks, string name, Spread litres, string style, double y, ChartUnit unit, Func<double, double> x)
    {
        double low = unit.Of(litres.Low), mid = unit.Of(litres.Mid), high = unit.Of(litres.High);
        marks.Add(new TextMark("lab", 0, y + 15, name));
        if (mid > 0)
        {
            marks.Add(new RectMark(style, x(0), y, Math.Max(1, x(mid) - x(0)), 20));
            Hatching.Rows(marks, style, x(0), y, x(mid) - x(0), 20);
        }

        Whisker.Across(marks, x(low), x(high), y + 10);
        marks.Add(new TextMark("val", x(high) + 9, y + 15, $"{Scale.Rough(mid)} ({Scale.Rough(low)}–{Scale.Rough(high)}) {unit.Name}"));
    }

    private static void Months(List<Mark> marks, WaterComparison water, ChartUnit unit, double left, double right)
    {
        const double Base = 240, Top = 150;
        var ticks = Scale.Ticks(unit.Of(water.LawnByMonth.Concat(water.PlantingByMonth).Max()), 3);
        double Y(double v) => Base - (ticks[^1] > 0 ? v / ticks[^1] * (Base - Top) : 0);
        marks.Add(new TextMark("lab", 0, Top + 4, "by month,"));
        marks.Add(new TextMark("lab", 0, Top + 22, unit.Name));
        foreach (var tick in ticks)
        {
            marks.Add(new LineMark("g-rule", left, Y(tick), right, Y(tick)));
            marks.Add(new TextMark("axis", left - 6, Y(tick) + 4, Scale.Words(tick), Anchor.End));
        }

        var step = (right - left) / 12;
        for (var m = 0; m < 12; m++)
        {
            var x = left + (m * step);
            Bar(marks, "before", x + (step * 0.12), step * 0.38, unit.Of(water.LawnByMonth[m]), Y, Base);
            Bar(marks, "after", x + (step * 0.5), step * 0.38, unit.Of(water.PlantingByMonth[m]), Y, Base);
            marks.Add(new TextMark("axis", x + (step / 2), Base + 16, s_months[m], Anchor.Middle));
        }

        marks.Add(new LineMark("ground", left, Base, right, Base));
    }

    private static void Bar(List<Mark> marks, string style, double x, double width, double value, Func<double, double> y, double ground)
    {
        if (value > 0)
        {
            marks.Add(new RectMark(style, x, y(value), width, ground - y(value)));
        }
    }

    private static string Alt(WaterComparison water, ChartUnit unit)
    {
        string Words(
            Spread s) => $"{Scale.Rough(unit.Of(s.Mid))} {unit.Name}, between {Scale.Rough(unit.Of(s.Low))} and "
                + $"{Scale.Rough(unit.Of(s.High))}";
        return $"Watering in a year: lawn {Words(water.LawnLitres)}; planting, grown in, {Words(water.PlantingLitres)}. By month from "
            + $"January, lawn {string.Join(", ", water.LawnByMonth.Select(v => Scale.Rough(unit.Of(v))))}; planting "
            + $"{string.Join(", ", water.PlantingByMonth.Select(v => Scale.Rough(unit.Of(v))))}.";
    }
}

/// <summary>Doubt as a line with an end at the low and at the high case.</summary>
internal static class Whisker
{
    public static void Across(List<Mark> marks, double low, double high, double y)
    {
        marks.Add(new LineMark("range-under", low, y, high, y));
        marks.Add(new LineMark("range", low, y, high, y));
        marks.Add(new LineMark("range", low, y - 5, low, y + 5));
        marks.Add(new LineMark("range", high, y - 5, high, y + 5));
    }

    public static void Up(List<Mark> marks, double x, double low, double high)
    {
        marks.Add(new LineMark("range-under", x, low, x, high));
        marks.Add(new LineMark("range", x, low, x, high));
        marks.Add(new LineMark("range", x - 4, low, x + 4, low));
        marks.Add(new LineMark("range", x - 4, high, x + 4, high));
    }
}

/// <summary>Slanted lines in what was before, so that it is told from what is after without colour.</summary>
internal static class Hatching
{
    public static void Rows(List<Mark> marks, string style, double x, double y, double width, double height)
    {
        if (style != "before")
        {
            return;
        }

        for (var at = 8 - height; at < width; at += 8)
        {
            var from = Math.Max(0, at);
            var to = Math.Min(width, at + height);
            if (to > from)
            {
                marks.Add(new LineMark("before-hatch", x + from, y + height - (from - at), x + to, y + height - (to - at)));
            }
        }
    }
}
