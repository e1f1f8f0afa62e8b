namespace CommonGround.Planning.Conversion;

/// <summary>Either a mix, or why there is none: exactly one of the two is set.</summary>
public sealed record MixOutcome
{
    /// <summary>A mix that obeys every limit.</summary>
    public ConversionMix? Mix { get; private init; }

    /// <summary>Why there is none.</summary>
    public NoMix? None { get; private init; }

    public static MixOutcome Found(ConversionMix mix) => new() { Mix = mix };

    public static MixOutcome NotFound(NoMix none) => new() { None = none };
}

/// <summary>Chooses taxa and amounts for a piece of lawn: a sound native mix under every limit, with proof of how good it is.</summary>
/// <remarks>
/// In this order: most bloom up to the norm in every half-month, then most kinds of visitors with one plant and bees with two, then what a
/// careful hand would do. The rules of a sound mix hold throughout. An exact program of whole numbers; see docs/measures.md#mix.
/// </remarks>
public static class ConversionPlanner
{
    /// <summary>The best mix, or the limits in conflict and the nearest request that has a mix. Same input, same answer, in any order of
    /// the catalogue.</summary>
    /// <param name="request">What is asked for.</param>
    /// <param name="surroundings">Catalogue, visitors, and what grows round about.</param>
    /// <param name="prices">What seed and plants cost.</param>
    /// <param name="effort">How hard to look; <see cref="Effort.Full"/> when left out.</param>
    /// <param name="before">The mix of nearly the same request, to begin with; null for none. The answer may depend on it where little work
    /// is allowed.</param>
    /// <param name="cancel">Stops the work with <see cref="OperationCanceledException"/>.</param>
    public static MixOutcome Solve(
        ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices, Effort? effort = null,
            ConversionMix? before = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(surroundings);
        ArgumentNullException.ThrowIfNull(prices);
        var problems = request.Check().Concat(prices.Check()).Concat(ConversionCheck.Of(surroundings)).ToList();
        if (problems.Count > 0)
        {
            return MixOutcome.NotFound(new([.. problems.Select(p => p.Message)], [], null));
        }

        return Try(request, surroundings, prices, effort ?? Effort.Full, before, cancel) is { } mix
            ? MixOutcome.Found(mix)
            : MixOutcome.NotFound(MixMoneyAdvice.Of(request, surroundings, prices)
            ?? ConversionConflict.Explain(request, surroundings, prices));
    }

    /// <summary>A mix of amounts that were kept: nothing is chosen anew, only prices and figures are.</summary>
    /// <returns>Null when a taxon is no longer in the catalogue or no longer suits the ground.</returns>
    public static ConversionMix? AsKept(ConversionRequest request, IReadOnlyDictionary<string, PlantedAmount> amounts,
        ConversionSurroundings surroundings, PriceTable prices)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(amounts);
        ArgumentNullException.ThrowIfNull(surroundings);
        var all = ConversionCandidates.Of(request with { LockedAmounts = amounts }, surroundings.Catalogue);
        var chosen = all.Suitable.Where(c => amounts.ContainsKey(c.Taxon.ScientificName))
            .Select(c => new ChosenAmount(c, MixSite.Steps(amounts[c.Taxon.ScientificName].SeedsPerSquareMetre),
            amounts[c.Taxon.ScientificName].Plugs)).ToList();
        if (chosen.Count < amounts.Count || chosen.Exists(c => c.SeedSteps > 0 && c.Candidate.Taxon.SeedsPerGram is null)) return null;
        var candidates = ConversionCandidates.Of(request, surroundings.Catalogue);
        return MixAmounts.Of(chosen, MixSite.Of(request), surroundings, prices, candidates);
    }

    /// <summary>The best mix of a request that passed its checks; null when there is none, however thin.</summary>
    internal static ConversionMix? Try(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices, Effort effort,
        ConversionMix? before = null, CancellationToken cancel = default)
    {
        var candidates = ConversionCandidates.Of(request, surroundings.Catalogue);
        foreach (var (site, words) in Ladder(request))
        {
            var model = new MixModel(site, candidates, surroundings, prices);
            if (LinearSolver.Solve(model.Linear, effort, Start(model, before), cancel) is { } solved)
                return Mix(model, solved, candidates, words);
            // So little work may find nothing where there is something.
            if (effort == Effort.Again && LinearSolver.Solve(model.Linear, Effort.Quick, cancel: cancel) is { } quick)
                return Mix(model, quick, candidates, words);
            // Nobody sows thinly to save money: less ground is the answer to that.
            if (request.Budget is not null && IsPossible(model.Site with { Request = request with { Budget = null } }, candidates,
                surroundings, prices))
                return null;
        }

        return null;
    }

    /// <summary>The ground as the rules want it; where that cannot be, a thinner sowing, then plugs, or half the seed on larger
    /// ground.</summary>
    internal static IEnumerable<(MixSite Site, string Words)> Ladder(ConversionRequest request)
    {
        yield return (MixSite.Of(request), "");
        if (MixSite.Of(request).Rate == 0 || request.FewestSeedsPerSquareMetre is not null) yield break;
        yield return (MixSite.Of(request, 0.85),
            "Somewhat thin: too little suits this ground and these limits to sow as thickly as usual. 85 % of the rate is sown.");
        yield return (MixSite.Of(request, 0.7),
            "Thin: too little suits this ground and these limits to sow as thickly as usual. Seven tenths of the rate is sown; weed it "
                + "longer.");
        if (request.SquareMetres < 100 && request.Method == Method.Mixed)
        {
            yield return (MixSite.Of(request, 1, Method.Plugs), "All plugs: too little suits this ground and these limits to sow it.");
        }
        else
        {
            yield return (MixSite.Of(request, 0.5),
                "Very thin: too little suits this ground and these limits. Half the usual rate is sown; weed it longer, and sow again.");
            if (request.Method == Method.Mixed && MixSite.Of(request) is { Kind: SiteKind.Shade } shade)
            {
                yield return (shade with { Rate = 0, LeastRate = 0 },
                    "Plugs in patches only, nothing sown: too little comes up from seed in this shade. Let the patches meet.");
            }
        }
    }

    /// <summary>Whether a sound mix was found for the ground as it is, without looking for the best.</summary>
    internal static bool IsPossible(MixSite site, ConversionCandidates candidates, ConversionSurroundings surroundings,
        PriceTable prices) =>
        LinearSolver.IsPossible(new MixModel(site, candidates, surroundings, prices).Linear, _ => true, MixMoneyAdvice.Work) == true;

    /// <summary>What a mix says of a program's choices and amounts; taxa that it has not are none.</summary>
    private static Dictionary<int, long>? Start(MixModel model, ConversionMix? before)
    {
        if (before is null) return null;
        var planned = before.Taxa.ToDictionary(t => t.Taxon.ScientificName, t => t.Amount, StringComparer.Ordinal);
        var start = new Dictionary<int, long>();
        foreach (var t in model.Pool)
        {
            var amount = planned.GetValueOrDefault(t.Name);
            var seeds = MixSite.Steps(amount.SeedsPerSquareMetre);
            start[t.Chosen] = planned.ContainsKey(t.Name) ? 1 : 0;
            (start[t.Seeds], start[t.Plugs]) = (seeds, amount.Plugs);
            (start[t.Sown], start[t.Planted]) = (seeds > 0 ? 1 : 0, amount.Plugs > 0 ? 1 : 0);
        }

        return start;
    }

    /// <summary>What was saved last, where it covers as many half-months and feeds as many kinds of bees for less money.</summary>
    private static ConversionMix Mix(MixModel model, LinearSolution solved, ConversionCandidates candidates, string ladder)
    {
        var last = Mix(model, solved, solved.Values, candidates, ladder);
        if (ReferenceEquals(solved.Values, solved.BeforeLast)) return last;
        var before = Mix(model, solved, solved.BeforeLast, candidates, ladder);
        return last.Cost <= before.Cost && last.Quality.CoveredHalves >= before.Quality.CoveredHalves
            && last.Quality.Support >= before.Quality.Support ? last : before;
    }

    private static ConversionMix Mix(MixModel model, LinearSolution solved, IReadOnlyList<long> values, ConversionCandidates candidates,
        string ladder)
    {
        var chosen = model.Pool.Where(t => values[t.Chosen] == 1)
            .Select(t => new ChosenAmount(t.Candidate, values[t.Seeds], (int)values[t.Plugs])).ToList();
        var mix = MixAmounts.Of(chosen, model.Site, model.Surroundings, model.Prices, candidates);
        var (bloom, visitors) = (solved.Stages[0], solved.Stages[1]);
        var points = model.Linear.Aims[1].Terms.Sum(t => t.Factor * values[t.Variable]) / (double)MixAims.Recorded;
        var (best, bound) = (visitors.Value / (double)MixAims.Recorded, visitors.Bound == long.MaxValue ? double.PositiveInfinity
            : visitors.Bound / (double)MixAims.Recorded);
        bound = double.IsFinite(bound) ? Math.Max(bound, best)
            : model.Linear.Aims[1].Terms.Sum(t => t.Factor * model.Linear.Most(t.Variable)) / (double)MixAims.Recorded;
        string[] asked = [.. chosen.Where(c => c.Candidate.MustHave && c.Candidate.Barred.Count > 0)
            .Select(c => $"{c.Candidate.Taxon.DisplayName} is in because you asked for it; otherwise: "
            + $"{WhyNotWords.Of(c.Candidate.Barred[0])}.")];
        return mix with
        {
            Quality = mix.Quality with
            {
                Objective = points,
                Best = best,
                Bound = bound,
                Gap = bound <= 0 ? 0 : (bound - best) / bound,
                ProvenBest = bloom.Proven && visitors.Proven,
            },
            Advice = [.. new[] { ladder }.Where(w => w.Length > 0), .. model.Waived, .. asked],
        };
    }
}
