namespace CommonGround.Reports.Charts;

/// <summary>The best mix at each cost; this plan filled.</summary>
public static class TradeOffChart
{
    /// <summary>A stop of the curve.</summary>
    /// <param name="Cost">Money.</param>
    /// <param name="Covered">Half-months covered.</param>
    /// <param name="Support">Kinds of bees fed.</param>
    /// <param name="Taxa">Kinds of plants.</param>
    public sealed record Stop(double Cost, int Covered, double Support, int Taxa);

    /// <param name="stops">Two or more, any order.</param>
    /// <param name="chosen">This plan.</param>
    /// <param name="currency">Sign before the figure.</param>
    /// <param name="width">px, 300 or more.</param>
    public static Chart Draw(IReadOnlyList<Stop> stops, Stop chosen, string currency, double width)
    {
        const double Top = 24, Base = 196, Left = 46;
        var marks = new List<Mark>();
        var sorted = stops.OrderBy(s => s.Cost).ToList();
        // Where every list covers as many half-months, what it offers visitors tells them apart.
        var byBloom = sorted.Append(chosen).Select(s => s.Covered).Distinct().Count() > 1;
        double Value(Stop s) => byBloom ? s.Covered : s.Support;
        var costs = Scale.Ticks(sorted.Append(chosen).Max(s => s.Cost), 4);
        var values = Scale.Ticks(sorted.Append(chosen).Max(Value), 4);
        var right = width - 16;
        double X(double v) => Left + (v / costs[^1] * (right - Left));
        double Y(double v) => Base - (v / values[^1] * (Base - Top));
        marks.Add(new TextMark("axis", 0, 11, byBloom ? "half-months in flower" : "kinds of bees fed"));
        foreach (var tick in values)
        {
            marks.Add(new LineMark("g-rule", Left, Y(tick), right, Y(tick)));
            marks.Add(new TextMark("axis", Left - 8, Y(tick) + 4, Scale.Words(tick), Anchor.End));
        }

        foreach (var tick in costs)
        {
            marks.Add(new LineMark("g-tick", X(tick), Base, X(tick), Base + 5));
            marks.Add(new TextMark("axis", X(tick), Base + 19, Scale.Money(tick, currency), tick == costs[^1] ? Anchor.End
                : Anchor.Middle));
        }

        marks.Add(new PathMark("before-line", [.. sorted.Select(s => (X(s.Cost), Y(Value(s))))], Closed: false));
        marks.AddRange(sorted.Select(s => new CircleMark("level", X(s.Cost), Y(Value(s)), 5)));
        marks.Add(new CircleMark("st-on", X(chosen.Cost), Y(Value(chosen)), 6.5));
        var left = X(chosen.Cost) > (Left + right) / 2;
        // The curve rises: above it to the left and below it to the right there is room.
        marks.Add(new TextMark("lab strong", X(chosen.Cost) + (left ? -10 : 12), Y(Value(chosen)) + (left ? -8 : 20), "this plan", left
            ? Anchor.End : Anchor.Start));
        marks.Add(new LineMark("ground", Left, Base, right, Base));
        string Gets(Stop s) => byBloom ? $"{s.Covered} half-months" : $"{Scale.Words(s.Support)} kinds of bees";
        var words = sorted.Select(s => $"{Scale.Money(s.Cost, currency)} {Gets(s)}, {s.Taxa} kinds");
        return new Chart(width, Base + 26,
            $"Best mix at each cost, by {(byBloom ? "half-months in flower" : "kinds of bees fed")}: {string.Join("; ", words)}. "
                + $"This plan: {Scale.Money(chosen.Cost, currency)}, {Gets(chosen)}.", marks);
    }
}
