using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.Charts;

/// <summary>Money spent so far, year by year, on lawn and on planting; each line on its range.</summary>
public static class MoneyChart
{
    /// <param name="money">Sums so far, years 0 and on.</param>
    /// <param name="currency">Sign before the figure.</param>
    /// <param name="width">px, 500 or more.</param>
    public static Chart Draw(MoneyComparison money, string currency, double width)
    {
        const double Top = 14, Base = 214, Left = 74;
        var marks = new List<Mark>();
        var years = money.PlantingByYear.Count - 1;
        var right = width - 128;
        var ticks = Scale.Ticks(money.PlantingByYear.Concat(money.LawnByYear).Max(s => s.High), 5);
        double X(double year) => Left + (year / Math.Max(1, years) * (right - Left));
        double Y(double v) => Base - (v / ticks[^1] * (Base - Top));
        marks.Add(new PathMark("after-band", [.. money.PlantingByYear.Select((s, i) => (X(i), Y(s.High))),
            .. money.PlantingByYear.Select((s, i) => (X(i), Y(s.Low))).Reverse()], Closed: true));
        foreach (var tick in ticks)
        {
            marks.Add(new LineMark("g-rule", Left, Y(tick), right, Y(tick)));
            marks.Add(new TextMark("axis", Left - 8, Y(tick) + 4, Scale.Money(tick, currency), Anchor.End));
        }

        // The lawn's range is hatched: it is told from the other without colour, and one can see through it.
        for (var x = X(0) + 5; x < X(years); x += 9)
        {
            var (low, high) = At(money.LawnByYear, (x - Left) / (right - Left) * years);
            if (Y(low) - Y(high) > 1)
            {
                marks.Add(new LineMark("before-hatch", x, Y(low), x, Y(high)));
            }
        }

        marks.Add(new PathMark("before-line", [.. money.LawnByYear.Select((s, i) => (X(i), Y(s.Mid)))], Closed: false));
        marks.Add(new PathMark("after-line", [.. money.PlantingByYear.Select((s, i) => (X(i), Y(s.Mid)))], Closed: false));
        marks.Add(new LineMark("ground", Left, Base, right, Base));
        for (var year = 0; year <= years; year++)
        {
            marks.Add(new LineMark("g-tick", X(year), Base, X(year), Base + 6));
            if (year == 0 || year % 2 == 0)
            {
                marks.Add(new TextMark("axis", X(year), Base + 20, year == 0 ? "start" : $"year {year}", Anchor.Middle));
            }
        }

        if (money.BreakEvenYear is { } even && even <= years)
        {
            marks.Add(new CircleMark("level", X(even), Y(money.PlantingByYear[even].Mid), 6));
            var words = $"planting cheaper from year {even}";
            var at = Math.Max(Top + 12, Y(Math.Max(money.PlantingByYear[even].High, money.PlantingByYear[even].Mid)) - 20);
            var middle = Math.Clamp(X(even), Left + 104, right - 104);
            marks.Add(new LineMark("g-tick", X(even), Y(money.PlantingByYear[even].Mid) - 6, X(even), at + 5));
            marks.Add(new RectMark("sk-label", middle - 100, at - 14, 200, 20, 3));
            marks.Add(new TextMark("lab strong", middle, at, words, Anchor.Middle));
        }

        Ends(marks, money, currency, right, Y);
        return new Chart(width, Base + 28, Alt(money, currency, years), marks);
    }

    private static void Ends(List<Mark> marks, MoneyComparison money, string currency, double right, Func<double, double> y)
    {
        var (lawn, planting) = (money.LawnByYear[^1], money.PlantingByYear[^1]);
        double lawnY = y(lawn.Mid), plantingY = y(planting.Mid);
        // Names stand at their lines, 38 px apart where the lines end close together.
        var apart = Math.Max(0, (38 - Math.Abs(lawnY - plantingY)) / 2);
        var (lawnAt, plantingAt) = lawnY <= plantingY ? (lawnY - apart, plantingY + apart) : (lawnY + apart, plantingY - apart);
        foreach (var (name, sum, at) in new[] { ("lawn", lawn, lawnAt), ("planting", planting, plantingAt) })
        {
            marks.Add(new TextMark("lab", right + 10, at, name));
            marks.Add(new TextMark("axis", right + 10, at + 15, $"{Scale.Money(sum.Mid, currency)} in {money.LawnByYear.Count - 1} years"));
        }
    }

    private static (double Low, double High) At(IReadOnlyList<Spread> sums, double year)
    {
        var from = Math.Clamp((int)year, 0, sums.Count - 2);
        var part = year - from;
        return (sums[from].Low + ((sums[from + 1].Low - sums[from].Low) * part),
            sums[from].High + ((sums[from + 1].High - sums[from].High) * part));
    }

    private static string Alt(MoneyComparison money, string currency, int years)
    {
        string Words(
            Spread s) => $"{Scale.Money(s.Mid, currency)}, between {Scale.Money(s.Low, currency)} and {Scale.Money(s.High, currency)}";
        var even = money.BreakEvenYear is { } year ? $"the planting has cost less from year {year}"
            : $"the planting has not cost less within {years} years";
        return $"Money spent so far: planting {Words(money.PlantingByYear[0])} at the start and {Words(money.PlantingByYear[^1])} after "
            + $"{years} years; lawn {Words(money.LawnByYear[^1])} after {years} years; {even}.";
    }
}
