using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>What the plan comes to: the headline, one paragraph, and the three figures that carry it.</summary>
internal sealed class PlanAnswer(ConversionReport report, PlanWording words)
{
    private readonly ConversionPlan _plan = report.Plan;
    private readonly Season _season = report.Plan.Request.Season;

    public int SeasonHalves => _season.Last - _season.First + 1;

    public string Headline()
    {
        var area = $"{words.Area(_plan.Request.SquareMetres)} of {words.Ground()}";
        var covered = Covered(_plan.Yard.After);
        return covered.Count == 0 ? $"{area} could hold {Wording.Count(_plan.Mix.Taxa.Count)} {Kinds}, a beginning"
            : covered[0] / 2 == covered[^1] / 2
            ? $"{area} could be in flower {Wording.Unbroken(HalfMonthWords.Run(covered[0], covered[^1]))}"
            : covered[^1] - covered[0] + 1 == covered.Count ? $"{area} could be in flower {FromTo(covered)}"
            : $"{area} could be in flower {Months(covered.Count)} months of the year";
    }

    /// <summary>The answer in one sentence: what for what, and for how much.</summary>
    public string Lead()
    {
        var look = _plan.Request.Look switch { Look.Ordered => "an ordered", Look.EdgeFriendly => "a low-edged", _ => "a loose" };
        var hours = _plan.Work.Years.Select(y => y.Sum()).ToList();
        var cost = report.NoPrices ? "what it costs cannot be said, since the group has entered no prices"
            : $"it costs about {words.Money(_plan.Money.Establishment.Mid)} to start";
        var work = hours.Count == 0 ? ""
            : $", and it asks about {PlanWording.Hours(hours[0])} hours of you in the first year and {PlanWording.Hours(hours[^1])} in "
            + "each year from the fourth on";
        return $"Turn {words.Area(_plan.Request.SquareMetres)} of {words.Ground()} into {look} planting of "
            + $"{Wording.Count(_plan.Mix.Taxa.Count)} {Kinds}: {cost}{work}.";
    }

    /// <summary>Three figures that carry the plan.</summary>
    public IReadOnlyList<KeyFigure> Figures()
    {
        var hours = _plan.Work.Years.Select(y => y.Sum()).ToList();
        return
        [
            new($"{_season.Norm} or more native kinds in flower", $"{Months(_plan.Yard.CoveredBefore)} → "
                + $"{Months(_plan.Yard.CoveredAfter)}", $"of the {Months(SeasonHalves)} months from spring to autumn: today, and once "
                + "grown in; slow kinds take until the sixth year"),
            report.NoPrices
                ? new("To start", Wording.Undefined, "no prices entered yet")
                : new("To start",
                words.Money(_plan.Money.Establishment.Mid), $"likely "
                    + $"{words.Money(_plan.Money.Establishment.Low)}–{words.Money(_plan.Money.Establishment.High)}"
                    + (_plan.Money.PricesInvented ? "; invented prices" : "")),
            new("Your hours", hours.Count == 0 ? Wording.Undefined : $"{PlanWording.Hours(hours[0])} → {PlanWording.Hours(hours[^1])}",
                $"in the first year, and in a later one; mowing the same ground takes {PlanWording.Hours(_plan.Work.LawnHoursYear.Mid)}"),
        ];
    }

    /// <summary>Level, or which way is cheaper and by how much.</summary>
    public string MoneyHeading()
    {
        var years = _plan.Money.PlantingByYear.Count - 1;
        var more = _plan.Money.PlantingByYear[^1].Mid - _plan.Money.LawnByYear[^1].Mid;
        return more >= 0.5 ? $"About {words.Money(more)} more than keeping the {words.Ground()}, over {Wording.Count(years)} years"
            : more <= -0.5 ? $"About {words.Money(-more)} less than keeping the {words.Ground()}, over {Wording.Count(years)} years"
            : $"As dear as keeping the {words.Ground()}, over {Wording.Count(years)} years";
    }

    private string Kinds => _plan.Mix.Taxa.All(t => t.Taxon.Nativity == Nativity.Native) ? "native kinds" : "kinds";

    /// <summary>The three-inch rain, or the hardest there is.</summary>
    public StormRunoff? Storm() => _plan.Runoff.Storms.OrderBy(s => Math.Abs(s.RainMillimetres - 76.2)).FirstOrDefault();

    /// <summary>Half-months as months: 7 half-months are 3½ months.</summary>
    private static string Months(int halves) =>
        $"{(halves / 2 > 0 || halves % 2 == 0 ? $"{halves / 2}" : "")}{(halves % 2 == 1 ? "½" : "")}";

    private static string FromTo(List<int> covered) =>
        $"from {Wording.Unbroken(HalfMonthWords.FirstDay(covered[0]))} to {Wording.Unbroken(HalfMonthWords.LastDay(covered[^1]))}";

    private List<int> Covered(IReadOnlyList<int> inFlower) =>
        [.. Enumerable.Range(_season.First, SeasonHalves).Where(t => inFlower[t] >= _season.Norm)];
}
