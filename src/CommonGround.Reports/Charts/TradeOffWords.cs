using CommonGround.Planning.Conversion;

namespace CommonGround.Reports.Charts;

/// <summary>What each plan of the curve gets for its money, in words for page and report.</summary>
public static class TradeOffWords
{
    /// <summary>"13 of 14 half-months, 18 kinds of plants, feeds 33 kinds of bees".</summary>
    public static string Gets(TradeOff stop)
    {
        ArgumentNullException.ThrowIfNull(stop);
        return $"{stop.CoveredHalves} of {stop.Mix.Quality.SeasonHalves} half-months, {stop.Taxa} kinds of plants, feeds "
            + $"{stop.Support:0} kinds of bees";
    }

    /// <summary>What the dearer of two plans buys; none is worse in everything, so there is always something.</summary>
    public static string More(TradeOff cheaper, TradeOff dearer, string currency)
    {
        ArgumentNullException.ThrowIfNull(cheaper);
        ArgumentNullException.ThrowIfNull(dearer);
        var (halves, bees, kinds) = (dearer.CoveredHalves - cheaper.CoveredHalves, (int)(dearer.Support - cheaper.Support),
            dearer.Taxa - cheaper.Taxa);
        string[] all = [halves == 0 ? "the same bloom" : halves > 0 ? $"{Count(halves, "half-month")} more in flower"
            : $"{Count(-halves, "half-month")} less in flower",
            bees == 0 ? "as many kinds of bees fed" : $"{Count(Math.Abs(bees), "kind")} of bees {(bees > 0 ? "more" : "fewer")}",
            kinds == 0 ? "as many kinds of plants" : $"{Count(Math.Abs(kinds), "kind")} of plants {(kinds > 0 ? "more" : "fewer")}"];
        return $"{Scale.Money(dearer.Cost - cheaper.Cost, currency)} more: {string.Join(", ", all)}.";
    }

    /// <summary>What a plan buys that costs more than one of the curve with as good a bloom and as many bees; empty where there is no
    /// cheaper one as good.</summary>
    public static string Chosen(ConversionMix mix, IEnumerable<TradeOff> stops, string currency)
    {
        ArgumentNullException.ThrowIfNull(mix);
        ArgumentNullException.ThrowIfNull(stops);
        if (stops.Where(s => s.Cost < mix.Cost - 0.5 && s.CoveredHalves >= mix.Quality.CoveredHalves && s.Support >= mix.Quality.Support)
            .MaxBy(s => s.Cost) is not { } stop)
        {
            return "";
        }

        int Plugs(ConversionMix m) => m.Taxa.Sum(t => t.Plugs);
        double Seeds(ConversionMix m) => m.Taxa.Sum(t => t.SeedsPerSquareMetre);
        int Lasting(ConversionMix m) => m.Taxa.Count(t => t.Traits.Longevity == Ecology.Taxa.Longevity.LongLived);
        string[] buys = [.. new[]
        {
            Plugs(mix) > Plugs(stop.Mix) ? $"{Plugs(mix)} plugs instead of {Plugs(stop.Mix)}, which flower sooner and hold the front" : "",
            Lasting(mix) > Lasting(stop.Mix) ? $"{Lasting(mix)} long-lived kinds instead of {Lasting(stop.Mix)}" : "",
            Seeds(mix) > 1.05 * Seeds(stop.Mix) ? "more seed on the same ground" : "",
        }.Where(b => b.Length > 0)];
        return $"This plan costs {Scale.Money(mix.Cost - stop.Cost, currency)} more than the one for {Scale.Money(stop.Cost, currency)}, "
            + "which covers as many half-months and feeds as many bees or more. What it buys: "
            + $"{(buys.Length == 0 ? "amounts of each kind nearer to what a careful hand would take" : string.Join("; ", buys))}. "
            + "Whoever is short of money loses little by the cheaper one.";
    }

    private static string Count(int n, string word) => n == 1 ? $"1 {word}" : $"{n} {word}s";
}
