namespace CommonGround.Planning.Conversion;

/// <summary>What more money would buy: plans from the cheapest sound one to the best.</summary>
public static class TradeOffCurve
{
    /// <summary>Plans by rising cost, none of them worse than another in cost, half-months and kinds of bees at once.</summary>
    /// <param name="request">Its budget is left aside: the curve shows what lies on either side of it.</param>
    /// <param name="surroundings">Catalogue, visitors, and what grows round about.</param>
    /// <param name="prices">What seed and plants cost.</param>
    /// <param name="points">How many budgets are tried, 2 or more; fewer plans come back where some are alike.</param>
    /// <param name="cancel">Stops the work with <see cref="OperationCanceledException"/>.</param>
    /// <returns>Empty when no mix obeys the other limits. Same input, same answer.</returns>
    public static IReadOnlyList<TradeOff> Of(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices,
        int points = 5, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(surroundings);
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 2);
        var free = request with { Budget = null };
        if (free.Check().Count > 0 || prices.Check().Count > 0 || ConversionCheck.Of(surroundings).Any()
            || ConversionPlanner.Try(free, surroundings, prices, Effort.Quick, cancel: cancel) is not { } best
            || MixMoneyAdvice.LeastMoney(free, surroundings, prices) is not { } least)
        {
            return [];
        }

        var found = new List<ConversionMix> { best };
        for (var i = 0; i < points - 1; i++)
        {
            var budget = least + 0.01 + ((best.Cost - least) * i / (points - 1));
            if (budget < best.Cost && ConversionPlanner.Try(free with { Budget = budget }, surroundings, prices, Effort.Quick,
                cancel: cancel) is { } mix)
                found.Add(mix);
        }

        var all = found.Select(m => new TradeOff(m.Cost, m.Quality.CoveredHalves, m.Quality.Support, m.Taxa.Count, m))
            .DistinctBy(t => (Math.Round(t.Cost, 2), t.CoveredHalves, t.Support)).OrderBy(t => t.Cost).ThenByDescending(t => t.Support)
            .ToList();
        return [.. all.Where(t => !all.Exists(o => o != t && o.Cost <= t.Cost && o.CoveredHalves >= t.CoveredHalves
            && o.Support >= t.Support))];
    }
}
