using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>What the plan comes to: the headline, one paragraph, and the four figures that carry it.</summary>
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
            : $"{area} could be in flower in {covered.Count} of the season’s {SeasonHalves} half-months";
    }

    public string Lead() => string.Join(" ", new[] { Bloom(), Cost(), Runoff(), Work() }.Where(s => s.Length > 0));

    public IReadOnlyList<KeyFigure> Figures()
    {
        var storm = Storm();
        var hours = _plan.Work.Years.Select(y => y.Sum()).ToList();
        return
        [
            new($"In flower, {_season.Norm} species or more", $"{_plan.Yard.CoveredBefore} → {_plan.Yard.CoveredAfter}", $"of the "
                + $"season’s {SeasonHalves} half-months, whole yard"),
            report.NoPrices
                ? new("To start", Wording.Undefined, "no prices entered yet")
                : new("To start",
                words.Money(_plan.Money.Establishment.Mid), $"likely "
                    + $"{words.Money(_plan.Money.Establishment.Low)}–{words.Money(_plan.Money.Establishment.High)}{(_plan.Money.PricesInvented ? "; invented prices" : "")}"),
            storm is null
                ? new("Runoff", Wording.Undefined, "no rain was reckoned")
                : new($"Runoff, {words.Depth(storm.RainMillimetres)} of rain",
                Change(storm), $"{words.Litres(Water(storm.BeforeMillimetres.Mid))} → {words.Litres(Water(storm.AfterMillimetres.Mid))}"),
            new("Your hours", hours.Count == 0 ? Wording.Undefined
                : $"{PlanWording.Hours(hours[0])} → {PlanWording.Hours(hours[^1])}", $"first year, later; mowing it takes "
                + $"{PlanWording.Hours(_plan.Work.LawnHoursYear.Mid)}"),
        ];
    }

    /// <summary>Level, or which way is cheaper and by how much.</summary>
    public string MoneyHeading()
    {
        var years = _plan.Money.PlantingByYear.Count - 1;
        var more = _plan.Money.PlantingByYear[^1].Mid - _plan.Money.LawnByYear[^1].Mid;
        return _plan.Money.BreakEvenYear is { } even ? $"Money: the planting is cheaper from year {even}"
            : more > 0 ? $"Money: the lawn stays cheaper, by about {words.Money(more)} in {Wording.Count(years)} years"
            : "Money: about level";
    }

    private string Kinds => _plan.Mix.Taxa.All(t => t.Taxon.Nativity == Nativity.Native) ? "native species" : "species";

    private string Bloom()
    {
        var look = _plan.Request.Look switch { Look.Ordered => "ordered", Look.EdgeFriendly => "low-edged", _ => "loose" };
        var covered = Covered(_plan.Yard.After);
        var start = $"Turn {words.Area(_plan.Request.SquareMetres)} of {words.Ground()} into {(look == "ordered" ? "an" : "a")} {look} "
            + $"planting of {Wording.Count(_plan.Mix.Taxa.Count)} {Kinds}";
        var norm = Wording.Count(_season.Norm);
        var now = _plan.Yard.CoveredBefore == 0 ? "now it never has" : $"now it is {Wording.Count(_plan.Yard.CoveredBefore)}";
        return covered.Count == 0
            ? $"{start}. Alone it does not bring {norm} kinds into flower at once; it is a beginning."
            : $"{start}, and once it has grown in, in about its third year, the yard should have {norm} or more kinds in flower in "
            + $"{Wording.Count(covered.Count)} of the season’s {SeasonHalves} half-months; {now}.";
    }

    private string Cost()
    {
        if (report.NoPrices)
        {
            return "The group has entered no prices, so no cost is given.";
        }

        var money = _plan.Money;
        var years = Wording.Count(money.PlantingByYear.Count - 1);
        var more = money.PlantingByYear[^1].Mid - money.LawnByYear[^1].Mid;
        var start = $"It costs about {words.Money(money.Establishment.Mid)} to start";
        return money.BreakEvenYear is { } even
            ? $"{start} and has most likely cost less than keeping the {words.Ground()} from year {even}."
            : more > 0 ? $"{start}; keeping the {words.Ground()} is cheaper, by about {words.Money(more)} after {years} years."
            : $"{start} and comes out about level with keeping the {words.Ground()} after {years} years.";
    }

    private string Runoff()
    {
        if (Storm() is not { } storm)
        {
            return "";
        }

        var less = Water(storm.BeforeMillimetres.Mid - storm.AfterMillimetres.Mid);
        return Math.Abs(less) < 1
            ? $"In {words.Depth(storm.RainMillimetres)} of rain hardly any water runs off this ground, before or after."
            : less > 0 ? $"In {words.Depth(storm.RainMillimetres)} of rain about {words.Litres(less)} less runs off."
            : $"In {words.Depth(storm.RainMillimetres)} of rain about {words.Litres(-less)} more runs off.";
    }

    private string Work()
    {
        var hours = _plan.Work.Years.Select(y => y.Sum()).ToList();
        return hours.Count == 0 ? ""
            : $"It asks about {PlanWording.Hours(hours[0])} hours of you in the first year and {PlanWording.Hours(hours[^1])} a year "
            + $"later; mowing the same ground takes about {PlanWording.Hours(_plan.Work.LawnHoursYear.Mid)}.";
    }

    /// <summary>The three-inch rain, or the hardest there is.</summary>
    private StormRunoff? Storm() => _plan.Runoff.Storms.OrderBy(s => Math.Abs(s.RainMillimetres - 76.2)).FirstOrDefault();

    private double Water(double millimetres) => millimetres * _plan.Request.SquareMetres;

    private static string Change(StormRunoff storm)
    {
        var change = storm.BeforeMillimetres.Mid < 0.05 ? 0 : 100 * ((storm.AfterMillimetres.Mid / storm.BeforeMillimetres.Mid) - 1);
        return Math.Abs(change) < 0.5 ? "no change" : $"{(change < 0 ? "−" : "+")}{Math.Abs(change):0} %";
    }

    private static string FromTo(List<int> covered) =>
        $"from {Wording.Unbroken(HalfMonthWords.FirstDay(covered[0]))} to {Wording.Unbroken(HalfMonthWords.LastDay(covered[^1]))}";

    private List<int> Covered(IReadOnlyList<int> inFlower) =>
        [.. Enumerable.Range(_season.First, SeasonHalves).Where(t => inFlower[t] >= _season.Norm)];
}
