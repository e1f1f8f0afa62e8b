using System.Globalization;
using CommonGround.Ecology.Invasives;

namespace CommonGround.Reports.Charts;

/// <summary>What becomes of an infestation: nothing done, and one line a treatment plan; the band of doubt behind each where it is asked
/// for.</summary>
public static class OutlookChart
{
    /// <summary>One plan.</summary>
    /// <param name="Name">"nothing done", "cut each year".</param>
    public sealed record Plan(string Name, OutlookBand Band);

    /// <param name="plans">The first is the one without treatment.</param>
    /// <param name="firstYear">The calendar year of year 0.</param>
    /// <param name="unit">m² or ft².</param>
    /// <param name="scale">From m² to that unit.</param>
    /// <param name="doubt">Draw the bands too.</param>
    /// <param name="width">px, 300 or more.</param>
    public static Chart Draw(IReadOnlyList<Plan> plans, int firstYear, string unit, Func<double, double> scale, bool doubt, double width)
    {
        const double Top = 22, Base = 206, Left = 44;
        var right = width - (width < 500 ? 12 : 118);
        var years = plans[0].Band.Mid.Count - 1;
        var most = plans.Max(p => (doubt ? p.Band.High : p.Band.Mid).Max(y => scale(y.AreaSquareMetres)));
        var ticks = Scale.Ticks(Math.Max(most, 1), 3);
        double X(int year) => Left + ((double)year / years * (right - Left));
        double Y(double squareMetres) => Base - (scale(squareMetres) / ticks[^1] * (Base - Top));
        var marks = new List<Mark> { new TextMark("axis", 0, 10, unit) };
        foreach (var tick in ticks)
        {
            var y = Base - (tick / ticks[^1] * (Base - Top));
            marks.Add(new LineMark("g-rule", Left, y, right, y));
            marks.Add(new TextMark("axis", Left - 7, y + 4, Scale.Words(tick), Anchor.End));
        }

        for (var year = 0; year <= years; year += width < 500 ? 2 : 1)
        {
            marks.Add(new LineMark("g-tick", X(year), Base, X(year), Base + 5));
            marks.Add(new TextMark("axis", X(year), Base + 19, (firstYear + year).ToString(CultureInfo.InvariantCulture),
                year == years ? Anchor.End : Anchor.Middle));
        }

        if (doubt)
        {
            marks.AddRange(plans.Select(p => new PathMark("band", [.. p.Band.High.Select(y => (X(y.Year), Y(y.AreaSquareMetres))),
                .. p.Band.Low.Reverse().Select(y => (X(y.Year), Y(y.AreaSquareMetres)))], Closed: true)));
        }

        foreach (var (index, plan) in plans.Index())
        {
            marks.Add(new PathMark(index == 0 ? "before-line" : index == 1 ? "plan-once" : "plan-yearly",
                [.. plan.Band.Mid.Select(y => (X(y.Year), Y(y.AreaSquareMetres)))], Closed: false));
        }

        foreach (var (plan, at) in width < 500 ? [] : Places(plans, plan => Y(plan.Band.Mid[^1].AreaSquareMetres), 12, Base - 14))
        {
            marks.Add(new TextMark("lab strong small-lab", right + 8, at, plan.Name));
            marks.Add(new TextMark("axis", right + 8, at + 15, End(plan)));
        }

        marks.Add(new LineMark("ground", Left, Base, right, Base));
        return new Chart(width, Base + 26, string.Join("; ", plans.Select(p => $"{p.Name}: {End(p)} in {firstYear + years}")), marks);

        string End(Plan plan) => $"{Scale.Words(Math.Round(scale(plan.Band.Mid[^1].AreaSquareMetres), 1))} {unit}";
    }

    /// <summary>Where each line's words stand, two rows each: at the line's end, moved apart from the ground up and then from the top
    /// down.</summary>
    private static List<(Plan Plan, double At)> Places(IReadOnlyList<Plan> plans, Func<Plan, double> end, double top, double ground)
    {
        const double Rows = 34;
        var places = new List<(Plan Plan, double At)>();
        foreach (var plan in plans.OrderByDescending(end))
        {
            places.Add((plan, Math.Min(end(plan), places.Count == 0 ? ground : places[^1].At - Rows)));
        }

        for (var i = places.Count - 1; i >= 0; i--)
        {
            places[i] = (places[i].Plan, Math.Max(places[i].At, i == places.Count - 1 ? top : places[i + 1].At + Rows));
        }

        return places;
    }
}
