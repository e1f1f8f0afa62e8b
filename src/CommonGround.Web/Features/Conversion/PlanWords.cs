using System.Globalization;
using CommonGround.Planning.Conversion;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Conversion;

/// <summary>What the plan's page says in words.</summary>
public static class PlanWords
{
    public static readonly IReadOnlyList<(PresentCover Value, string Words)> Covers =
        [(PresentCover.GoodTurf, "Dense turf"), (PresentCover.ThinTurf, "Thin or patchy turf"), (PresentCover.Weeds, "Mostly weeds"),
        (PresentCover.BareSoil, "Bare or builders’ soil"), (PresentCover.FlowerBed, "Flower or vegetable bed"),
            (PresentCover.Shrubs, "Shrubs")];

    public static readonly IReadOnlyList<(Look Value, string Words)> Looks =
        [(Look.Naturalistic, "Naturalistic: many kinds mingled"), (Look.Ordered, "Ordered: few kinds in groups"),
        (Look.EdgeFriendly, "Edge-friendly: low along walks")];

    public static readonly IReadOnlyList<(Method Value, string Words)> Methods =
        [(Method.Mixed, "Seed and plugs"), (Method.Seed, "Seed only: cheap and slow"), (Method.Plugs, "Plugs only: dear and quick")];

    public static readonly IReadOnlyList<(StartSeason Value, string Words)> Starts =
        [(StartSeason.DormantSowing, "Sow as winter comes"), (StartSeason.Spring, "Sow or plant in spring"),
        (StartSeason.EarlyAutumn, "Plant in early autumn")];

    public static string Headline(ConversionPlan plan, Units units) =>
        $"{units.AreaWords(plan.Request.SquareMetres)} of lawn, {plan.Mix.Quality.CoveredHalves} of {plan.Mix.Quality.SeasonHalves} "
            + $"half-months in flower, {Money(plan.Mix.Cost)} of seed and plants";

    public static string Lead(ConversionPlan plan)
    {
        var season = plan.Request.Season;
        int[] thin = [.. Enumerable.Range(season.First, season.Last - season.First + 1).Where(t => plan.Mix.InFlower[t] < season.Norm)];
        var gaps = thin.Length == 0
            ? "Every half-month of the season has at least three kinds in flower."
            : $"{Words.List([.. Runs(thin).Select(r => Reports.Charts.HalfMonthWords.Run(r.From, r.To))])} "
            + $"{(thin.Length == 1 ? "stays" : "stay")} thin: fewer than {season.Norm} kinds that suit this ground and these limits "
            + $"flower then.";
        return $"{Words.Spelled(plan.Mix.Taxa.Count)} kinds of plant. {gaps}";
    }

    /// <summary>What the plants of the mix feed, with where and when that was seen.</summary>
    public static string Feeds(ConversionMix mix) =>
        $"Feeds {mix.Visitors.Bees} of the {mix.Quality.BeesPossible} kinds of bees that any suitable plants feed, "
            + $"{mix.Visitors.BeesTwice} of them from two plants or more; {mix.Visitors.Visitors} kinds of visitors in all. "
            + $"{Ecology.Pollinators.VisitorRecords.Caveat}";

    public static readonly IReadOnlyList<(SoilTexture? Value, string Words)> Textures =
        [(null, "not known"), (SoilTexture.Sand, "Sand: gritty, falls apart"), (SoilTexture.Loam, "Loam: crumbles"),
        (SoilTexture.Clay, "Clay: sticky, rolls into a worm")];

    /// <summary>"spread aggressive seed, or slow; the plan reckons with the first".</summary>
    public static string Of(
        Ecology.Taxa.DisputedTrait disputed) => $"{disputed.Trait} {disputed.Used}, or {disputed.Other}; the plan reckons with the first";

    public static string BreakEven(MoneyComparison money) => money.BreakEvenYear is { } year
        ? $"Against keeping the lawn, the planting has cost less from year {year} on (between year "
        + $"{money.BreakEvenEarliest?.ToString(CultureInfo.InvariantCulture) ?? "1"} and "
        + $"{money.BreakEvenLatest?.ToString(CultureInfo.InvariantCulture) ?? "never within ten years"})."
        : money.BreakEvenEarliest is { } earliest
            ? $"With the middle figures the lawn stays cheaper for ten years. Only where work is cheap and the lawn dear does the "
            + $"planting cost less, from year {earliest} on."
            : "The lawn stays cheaper for ten years, even with the figures that favour the planting most.";

    public static string Money(double amount) => "$" + amount.ToString(amount >= 100 ? "#,0" : "0.00", CultureInfo.InvariantCulture);

    public static string Range(Spread spread) => $"{Money(spread.Low)}–{Money(spread.High)}";

    public static string Amount(PlannedTaxon taxon, bool customary) => taxon.As switch
    {
        PlantedAs.Plug => taxon.Plugs.ToString("#,0", CultureInfo.InvariantCulture),
        PlantedAs.Seed => Seed(taxon.BulkGrams, customary),
        _ => $"{Seed(taxon.BulkGrams, customary)}, {taxon.Plugs.ToString("#,0", CultureInfo.InvariantCulture)} plugs",
    };

    public static string Seed(double grams, bool customary) => Reports.Charts.SeedWords.Weight(grams, customary);

    public static string Form(PlannedTaxon taxon) => taxon.As switch
    {
        PlantedAs.Plug => "plugs",
        PlantedAs.Seed => "seed",
        _ => "seed and plugs"
    };

    public static string Volume(double litres, bool customary) => customary
        ? $"{Reports.Charts.ChartUnit.Gallons.Of(litres).ToString("#,0", CultureInfo.InvariantCulture)} gallons"
        : $"{litres.ToString("#,0", CultureInfo.InvariantCulture)} litres";

    public static string Depth(double millimetres, bool customary) => customary
        ? $"{(millimetres / 25.4).ToString("0.00", CultureInfo.InvariantCulture)} in"
        : $"{millimetres.ToString("0.0", CultureInfo.InvariantCulture)} mm";

    public static string Months(CalendarStep step)
    {
        var from = CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(step.FromMonth);
        return step.FromMonth == step.ToMonth ? from : $"{from}–{CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(step.ToMonth)}";
    }

    private static IEnumerable<(int From, int To)> Runs(int[] halves)
    {
        for (var i = 0; i < halves.Length;)
        {
            var from = i;
            while (i + 1 < halves.Length && halves[i + 1] == halves[i] + 1)
            {
                i++;
            }

            yield return (halves[from], halves[i++]);
        }
    }
}
