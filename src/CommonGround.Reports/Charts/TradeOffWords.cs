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

    private static string Count(int n, string word) => n == 1 ? $"1 {word}" : $"{n} {word}s";
}
