using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Finds which limits cannot hold together, and the nearest request that has a mix.</summary>
/// <remarks>
/// Conflict: a set of the household's limits and of the rules of a sound mix of which none can be left out, by repeated halving (Junker
/// 2004, QUICKXPLAIN). Nearest: the first of the household's limits in it, the least dear first, without which there is a mix. Toxic taxa
/// stay out.
/// </remarks>
internal static class ConversionConflict
{
    private const double Work = 0.4;

    public static NoMix Explain(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        var unsuited = Unsuited(request, surroundings);
        if (unsuited.Count > 0) return WithoutUnsuited(unsuited, request, surroundings, prices);
        var search = new ConflictSearch(request, surroundings, prices, Work);
        if (!search.Any)
        {
            return new([$"Nothing in the catalogue suits. {LimitWords.Ground(request)}",
                .. ConversionCandidates.Of(request, surroundings.Catalogue).InWords()], [], null);
        }

        var found = search.Smallest();
        List<string> conflict = [LimitWords.Ground(request), .. found.Select(l => LimitWords.Of(l, request))];
        bool Works(ConversionRequest other) => ConversionPlanner.IsPossible(MixSite.Of(other),
            ConversionCandidates.Of(other, surroundings.Catalogue), surroundings, prices);
        var firm = new[] { LimitKind.Guild, LimitKind.KeepToxicOut };
        var loose = found.Where(l => !firm.Contains(l.Kind)).OrderBy(l => l.Kind).ToList();
        // A lower bound alone may stand between the household and a mix although several rules do.
        foreach (var change in loose.Select(l => Relaxation.Of(l, request, Works)).OfType<(string Words, ConversionRequest Request)>())
        {
            return new(conflict, [change.Words], change.Request);
        }

        var (words, relaxed) = (new List<string>(), request);
        foreach (var limit in loose.Concat(LimitWords.Household(request).Where(l => !firm.Contains(l.Kind) && !loose.Contains(l))))
        {
            if (Relaxation.Without(limit, relaxed) is not { } change) continue;
            words.Add(change.Words);
            relaxed = change.Request;
            if (Works(relaxed)) return new(conflict, words, relaxed);
        }

        return new(conflict, [], null);
    }

    /// <summary>Must-haves and locked taxa that the ground, and no limit of the household's, bars.</summary>
    private static List<string> Unsuited(ConversionRequest request, ConversionSurroundings surroundings) =>
    [
        .. request.MustHave.Concat(request.LockedAmounts.Keys).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)
            .Where(n => surroundings.Catalogue.FirstOrDefault(t => string.Equals(t.ScientificName, n, StringComparison.Ordinal))
            is not { } taxon || Barring(request, taxon).Any()),
    ];

    private static IEnumerable<WhyNot> Barring(ConversionRequest request, CatalogueTaxon taxon) =>
        CandidateRules.Firm(request, taxon).Where(w => w is not (WhyNot.Toxic or WhyNot.TooTall or WhyNot.HeightUnknown
            or WhyNot.TooTallForLook or WhyNot.Never));

    private static NoMix WithoutUnsuited(List<string> unsuited, ConversionRequest request, ConversionSurroundings surroundings,
        PriceTable prices)
    {
        var conflict = new List<string> { LimitWords.Ground(request) };
        foreach (var name in unsuited)
        {
            var taxon = surroundings.Catalogue.FirstOrDefault(t => string.Equals(t.ScientificName, name, StringComparison.Ordinal));
            conflict.Add($"{name} must be in, but: {(taxon is null ? "the catalogue does not have it" : WhyNotWords.Of(Barring(request, taxon).First()))}.");
        }

        var without = request with
        {
            MustHave = [.. request.MustHave.Except(unsuited, StringComparer.Ordinal)],
            LockedAmounts = request.LockedAmounts.Where(l => !unsuited.Contains(l.Key, StringComparer.Ordinal))
                .ToDictionary(StringComparer.Ordinal),
        };
        IReadOnlyList<string> words = [.. unsuited.Select(n => $"Do without {n}.")];
        if (ConversionPlanner.Try(without, surroundings, prices, Effort.Quick) is not null) return new(conflict, words, without);
        var rest = ConversionPlanner.Solve(without, surroundings, prices, Effort.Quick).None!;
        return new([.. conflict, .. rest.Conflict.Except(conflict)], rest.Request is null ? [] : [.. words, .. rest.Relaxed], rest.Request);
    }
}

/// <summary>Halves a list of limits until only those are left that cannot hold together.</summary>
internal sealed class ConflictSearch(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices, double work)
{
    private readonly IReadOnlyList<Limit> household = LimitWords.Household(request);
    private readonly Dictionary<string, bool> asked = new(StringComparer.Ordinal);

    /// <summary>Whether anything suits when every limit of the household is off.</summary>
    public bool Any => ConversionCandidates.Of(Off(request, household), surroundings.Catalogue).Suitable.Count > 0;

    public IReadOnlyList<Limit> Smallest()
    {
        var guilds = Model(request).Linear.Rows.Where(r => r.Limit is { Kind: LimitKind.Guild }).Select(r => r.Limit!.Value).Distinct();
        // What is dear to people comes last, and so is named only when nothing else explains it.
        List<Limit> all = [.. household.OrderByDescending(l => l.Kind), .. guilds];
        return Holds(all) ? [] : [.. Search([], false, all).OrderBy(l => l.Kind == LimitKind.Guild).ThenByDescending(l => l.Kind)];
    }

    private static ConversionRequest Off(ConversionRequest request, IEnumerable<Limit> limits) =>
        limits.Aggregate(request, (r, l) => Relaxation.Without(l, r)?.Request
            ?? (l.Kind == LimitKind.KeepToxicOut ? r with { KeepToxicOut = false, KeepToxicToAnimalsOut = false } : r));

    private List<Limit> Search(List<Limit> kept, bool added, List<Limit> open)
    {
        if (added && !Holds(kept)) return [];
        if (open.Count == 1) return open;
        var half = open.Count / 2;
        var (first, second) = (open[..half], open[half..]);
        var ofSecond = Search([.. kept, .. first], first.Count > 0, second);
        var ofFirst = Search([.. kept, .. ofSecond], ofSecond.Count > 0, first);
        return [.. ofFirst, .. ofSecond];
    }

    /// <summary>True unless it is proven that these limits cannot hold together.</summary>
    private bool Holds(List<Limit> limits)
    {
        var key = string.Join('|', limits.Select(l => $"{l.Kind} {l.Name}").Order(StringComparer.Ordinal));
        if (asked.TryGetValue(key, out var known)) return known;
        var on = limits.ToHashSet();
        var model = Model(Off(request, household.Where(l => !on.Contains(l))));
        bool Counts(LinearRow row) => row.Limit is not { Kind: LimitKind.Guild } limit || on.Contains(limit);
        return asked[key] = LinearSolver.IsPossible(model.Linear, Counts, work) != false;
    }

    private MixModel Model(ConversionRequest of) => new(MixSite.Of(of), ConversionCandidates.Of(of, surroundings.Catalogue), surroundings,
        prices);
}
