using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Finds which limits cannot hold together, and the nearest request that has a mix.</summary>
/// <remarks>
/// Conflict: a deletion filter over the limits; of what is left, dropping any one would let the rest hold. Nearest: the limit of the conflict
/// that gives way by the smallest share of itself, a height limit twenty times as dear; where no single one is enough, the program with all of
/// them loose and the least sum of those shares. Toxic taxa stay out. Our own convention.
/// </remarks>
internal static class ConversionConflict
{
    public static NoMix Explain(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        var pool = Pool(request, surroundings, prices);
        var unsuited = request.MustHave.Concat(request.LockedShares.Keys).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)
            .Where(n => !pool.Any(p => string.Equals(p.Candidate.Taxon.ScientificName, n, StringComparison.Ordinal))).ToList();
        if (unsuited.Count > 0)
        {
            return WithoutUnsuited(unsuited, request, surroundings, prices);
        }

        var limits = MixLimits.Of(request);
        MixModel Of(IEnumerable<Limit> hard, IEnumerable<Limit> soft) => new(request, surroundings, pool, prices, hard.ToHashSet(), soft.ToHashSet());
        if (pool.Count == 0 || !MixSolver.IsPossible(Of([], [])))
        {
            return new([$"Nothing in the catalogue suits. {LimitWords.Ground(request)}", .. ConversionCandidates.Of(request, surroundings.Catalogue, prices).InWords()], [], null);
        }

        var kept = limits.ToList();
        foreach (var limit in limits)
        {
            if (!MixSolver.IsPossible(Of(kept.Where(k => k != limit), []))) kept.Remove(limit);
        }

        List<string> conflict = [LimitWords.Ground(request), .. kept.Select(l => LimitWords.Of(l, request))];
        // One limit of the conflict alone, whichever gives way least; only where none is enough, several at once.
        (MixModel Mix, (IReadOnlyList<int> Shares, long Money, long Penalty)? Least) Loosen(IReadOnlySet<Limit> soft)
        {
            var mix = Of(limits.Where(l => !soft.Contains(l)), soft);
            return (mix, MixSolver.LeastPenalty(mix));
        }

        var singles = kept.Where(l => l.Kind != LimitKind.KeepToxicOut).Select(l => Loosen(new HashSet<Limit> { l })).Where(s => s.Least is not null).OrderBy(s => s.Least!.Value.Penalty).ToList();
        var several = new LimitKind[][] { [LimitKind.KeepToxicOut], [LimitKind.KeepToxicOut, LimitKind.Method] }.Select(firm => Loosen(limits.Where(l => !firm.Contains(l.Kind)).ToHashSet()));
        foreach (var (mix, least) in singles.Concat(several))
        {
            if (least is var (shares, money, _) && Relaxation.Of(mix, shares, money, request) is var (words, relaxed) && ConversionPlanner.Try(relaxed, surroundings, prices) is not null)
            {
                return new(conflict, words, relaxed);
            }
        }

        return new(conflict, [], null);
    }

    /// <summary>Everything that suits the ground, with the limits of the household that bar it.</summary>
    private static IReadOnlyList<PoolTaxon> Pool(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        var candidates = ConversionCandidates.Of(request, surroundings.Catalogue, prices);
        var pool = candidates.Suitable.Select(c => new PoolTaxon(c, [])).ToList();
        foreach (var (taxon, reasons) in candidates.LeftOut)
        {
            var barred = reasons.Select(BarredBy).ToList();
            var method = reasons.Any(r => BarredBy(r) == LimitKind.Method) ? Method.Mixed : request.Method;
            if (barred.All(b => b is not null) && !ConversionCandidates.Reasons(request with { Method = method }, taxon).Any(r => BarredBy(r) == LimitKind.Method))
            {
                pool.Add(new(ConversionCandidates.Offer(request, taxon, ConversionCandidates.FormOf(method, taxon, prices, request), prices), [.. barred.Distinct().Select(b => new Limit(b!.Value))]));
            }
        }

        return [.. pool.OrderBy(p => p.Candidate.Taxon.ScientificName, StringComparer.Ordinal)];
    }

    private static LimitKind? BarredBy(WhyNot why) => why switch
    {
        WhyNot.Toxic => LimitKind.KeepToxicOut,
        WhyNot.TooTall or WhyNot.HeightUnknown => LimitKind.Height,
        WhyNot.TooTallForLook or WhyNot.ShrubNotForLook => LimitKind.Look,
        WhyNot.NoSeedCount or WhyNot.NoSpacing or WhyNot.ShrubIsNoSeed => LimitKind.Method,
        WhyNot.Never => LimitKind.Never,
        _ => null,
    };

    private static NoMix WithoutUnsuited(List<string> unsuited, ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        var conflict = new List<string> { LimitWords.Ground(request) };
        foreach (var name in unsuited)
        {
            var taxon = surroundings.Catalogue.FirstOrDefault(t => string.Equals(t.ScientificName, name, StringComparison.Ordinal));
            var why = taxon is null ? "the catalogue does not have it" : ConversionCandidates.Words(ConversionCandidates.Reasons(request, taxon).First(r => BarredBy(r) is null or LimitKind.Method));
            conflict.Add($"{name} must be in, but: {why}.");
        }

        var without = request with
        {
            MustHave = [.. request.MustHave.Except(unsuited, StringComparer.Ordinal)],
            LockedShares = request.LockedShares.Where(l => !unsuited.Contains(l.Key, StringComparer.Ordinal)).ToDictionary(StringComparer.Ordinal),
        };
        IReadOnlyList<string> words = [.. unsuited.Select(n => $"Do without {n}.")];
        if (ConversionPlanner.Try(without, surroundings, prices) is not null)
        {
            return new(conflict, words, without);
        }

        var rest = Explain(without, surroundings, prices);
        return new([.. conflict, .. rest.Conflict.Except(conflict)], rest.Request is null ? [] : [.. words, .. rest.Relaxed], rest.Request);
    }
}
