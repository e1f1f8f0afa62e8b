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

/// <summary>Chooses taxa and amounts for a piece of lawn: the best mix under every limit, with proof.</summary>
/// <remarks>
/// In this order: most half-months of the season with at least the norm in flower, then most pollinator support with a bonus for what the
/// street lacks, then least cost. Solved exactly as an integer program over thousandths of the ground; see <see cref="ConversionConvention"/>.
/// </remarks>
public static class ConversionPlanner
{
    /// <summary>The best mix, or the limits in conflict and the nearest request that has a mix. Same input, same answer, in any order of the catalogue.</summary>
    public static MixOutcome Solve(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(surroundings);
        ArgumentNullException.ThrowIfNull(prices);
        var problems = request.Check().Concat(prices.Check()).Concat(ConversionCheck.Of(surroundings)).ToList();
        if (problems.Count > 0)
        {
            return MixOutcome.NotFound(new([.. problems.Select(p => p.Message)], [], null));
        }

        return Try(request, surroundings, prices) is { } mix ? MixOutcome.Found(mix) : MixOutcome.NotFound(ConversionConflict.Explain(request, surroundings, prices));
    }

    /// <summary>The best mix of a request that passed its checks; null when there is none.</summary>
    internal static ConversionMix? Try(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        var candidates = ConversionCandidates.Of(request, surroundings.Catalogue, prices);
        var solved = candidates.Suitable.Count == 0 ? null : MixSolver.Best(() => Model(candidates, request, surroundings, prices));
        return solved is null ? null : MixAmounts.Of(solved, request, surroundings, prices, candidates);
    }

    /// <summary>The program of all limits over what suits.</summary>
    internal static MixModel Model(ConversionCandidates candidates, ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices) => new(
        request, surroundings, candidates.Suitable.Select(c => new PoolTaxon(c, [])), prices, MixLimits.Of(request).ToHashSet(), new HashSet<Limit>());
}
