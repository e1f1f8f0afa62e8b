using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.Charts;

/// <summary>Runoff of each design rain before and after, with its range.</summary>
public static class RunoffChart
{
    /// <param name="runoff">Depths, mm.</param>
    /// <param name="squareMetres">The ground they fall on.</param>
    /// <param name="unit">Of the water.</param>
    /// <param name="inches">Rain is named in inches, else in mm.</param>
    /// <param name="width">px, 300 or more.</param>
    public static Chart Draw(RunoffComparison runoff, double squareMetres, ChartUnit unit, bool inches, double width)
    {
        const double Top = 20, Base = 206, Left = 46;
        var marks = new List<Mark>();
        double Water(double millimetres) => unit.Of(millimetres * squareMetres);
        var ticks = Scale.Ticks(Water(runoff.Storms.Select(s => Math.Max(s.BeforeMillimetres.High, s.AfterMillimetres.High))
            .DefaultIfEmpty().Max()), 5);
        double Y(double v) => Base - (ticks[^1] > 0 ? v / ticks[^1] * (Base - Top) : 0);
        marks.Add(new TextMark("axis", Left - 8, 10, unit.Name, Anchor.End));
        foreach (var tick in ticks)
        {
            marks.Add(new LineMark("g-rule", Left, Y(tick), width, Y(tick)));
            marks.Add(new TextMark("axis", Left - 8, Y(tick) + 4, Scale.Words(tick), Anchor.End));
        }

        var step = (width - Left) / Math.Max(1, runoff.Storms.Count);
        var bar = Math.Min(30, step * 0.3);
        for (var i = 0; i < runoff.Storms.Count; i++)
        {
            var storm = runoff.Storms[i];
            var middle = Left + ((i + 0.5) * step);
            Bar(marks, "before", middle - bar - 3, bar, storm.BeforeMillimetres, Water, Y, Base);
            Bar(marks, "after", middle + 3, bar, storm.AfterMillimetres, Water, Y, Base);
            marks.Add(new TextMark("lab", middle, Base + 20, Rain(storm, inches), Anchor.Middle));
            marks.Add(new TextMark("axis", middle,
                Base + 36, $"{Scale.Rough(Water(storm.BeforeMillimetres.Mid))} → {Scale.Rough(Water(storm.AfterMillimetres.Mid))}",
                    Anchor.Middle));
        }

        marks.Add(new LineMark("ground", Left, Base, width, Base));
        var words = runoff.Storms
            .Select(s => $"{Rain(s, inches)} of rain, before {Words(s.BeforeMillimetres, Water)}, after "
            + $"{Words(s.AfterMillimetres, Water)}");
        return new Chart(width, Base + 44, $"Runoff in {unit.Name}: {string.Join("; ", words)}.", marks);
    }

    /// <summary>The depth alone: how often it comes is not ours to say.</summary>
    public static string Rain(StormRunoff storm, bool inches) => inches ? $"{Scale.Words(storm.RainMillimetres / 25.4)} in"
        : $"{Scale.Words(Math.Round(storm.RainMillimetres))} mm";

    private static void Bar(List<Mark> marks, string style, double x, double width, Spread depth, Func<double, double> water,
        Func<double, double> y, double ground)
    {
        var top = y(water(depth.Mid));
        if (ground - top > 0.5)
        {
            marks.Add(new RectMark(style, x, top, width, ground - top));
            Hatching.Rows(marks, style, x, top, width, ground - top);
        }

        Whisker.Up(marks, x + (width / 2), y(water(depth.Low)), y(water(depth.High)));
    }

    private static string Words(Spread depth, Func<double, double> water) =>
        $"{Scale.Rough(water(depth.Mid))} ({Scale.Rough(water(depth.Low))}–{Scale.Rough(water(depth.High))})";
}
