namespace CommonGround.Planning.Conversion;

/// <summary>What more money would buy: plans from the cheapest that obeys every other limit to the best.</summary>
public static class TradeOffCurve
{
    private const int Rounds = 3;

    /// <summary>Plans by rising cost, none of them worse than another in cost, half-months and support at once.</summary>
    /// <param name="request">Its budget is left aside: the curve shows what lies on either side of it.</param>
    /// <param name="points">How many are wanted, 5 or more; fewer come back only when there are no more different ones to be found.</param>
    /// <returns>Empty when no mix obeys the other limits. Same input, same answer.</returns>
    /// <remarks>Epsilon constraint: the planner's own stages under budgets between the cheapest and the best, closer together where money is short, twice as many each round until enough are found.</remarks>
    public static IReadOnlyList<TradeOff> Of(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices, int points = 6)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(surroundings);
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 5);
        var free = request with { Budget = null };
        if (free.Check().Count > 0 || prices.Check().Count > 0 || ConversionCheck.Of(surroundings).Any() || ConversionPlanner.Try(free, surroundings, prices) is not { } best)
        {
            return [];
        }

        var candidates = ConversionCandidates.Of(free, surroundings.Catalogue, prices);
        var least = MixSolver.LeastMoney(ConversionPlanner.Model(candidates, free, surroundings, prices))!.Value / MixModel.MoneyScale;
        // A step more than the least, lest rounding forbid the cheapest mix.
        var from = least + (1 / MixModel.MoneyScale);
        var found = new Dictionary<double, ConversionMix> { [1] = best };
        for (var (round, parts) = (0, points - 1); round < Rounds; round++, parts *= 2)
        {
            for (var i = 0; i < parts; i++)
            {
                var at = (double)i / parts;
                if (!found.ContainsKey(at) && ConversionPlanner.Try(free with { Budget = from + ((best.Cost - from) * Early(at)) }, surroundings, prices) is { } mix) found.Add(at, mix);
            }

            if (Undominated(found).Count >= points) break;
        }

        return Undominated(found);
    }

    /// <summary>0–1 onto 0–1, each step two and a half times the last at five steps: the first money buys most.</summary>
    private static double Early(double at) => (Math.Pow(100, at) - 1) / 99;

    private static List<TradeOff> Undominated(Dictionary<double, ConversionMix> found)
    {
        var all = found.OrderBy(f => f.Key).Select(f => new TradeOff(f.Value.Cost, f.Value.Quality.CoveredHalves, f.Value.Quality.Support, f.Value.Taxa.Count, f.Value))
            .DistinctBy(t => (Math.Round(t.Cost, 2), t.CoveredHalves, Math.Round(t.Support, 6))).OrderBy(t => t.Cost).ThenByDescending(t => t.Support).ToList();
        return [.. all.Where(t => !all.Exists(o => o != t && o.Cost <= t.Cost && o.CoveredHalves >= t.CoveredHalves && o.Support >= t.Support))];
    }
}
