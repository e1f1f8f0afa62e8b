namespace CommonGround.Planning.Conversion;

/// <summary>Reads from the loosened program which limits gave way, and writes the request that says so.</summary>
internal static class Relaxation
{
    /// <summary>The changed request, and each change in words.</summary>
    public static (IReadOnlyList<string> Words, ConversionRequest Request) Of(MixModel mix, IReadOnlyList<int> shares, long money, ConversionRequest request)
    {
        var words = new List<string>();
        var chosen = mix.Pool.Zip(shares).Where(p => p.Second > 0).Select(p => (p.First, Share: (double)p.Second / ConversionConvention.ShareSteps)).ToList();
        var names = chosen.Select(c => c.First.Candidate.Taxon.ScientificName).ToHashSet(StringComparer.Ordinal);
        var result = Look(Lists(Method(request, chosen, words), chosen, names, words), chosen, words);
        return (words, Figures(result, chosen, money, words));
    }

    private static ConversionRequest Figures(ConversionRequest request, List<(PoolTaxon First, double Share)> chosen, long money, List<string> words)
    {
        var grass = Math.Round(chosen.Where(c => c.First.Candidate.IsGrass).Sum(c => c.Share), 3);
        var most = chosen.Where(c => !request.LockedShares.ContainsKey(c.First.Candidate.Taxon.ScientificName)).Max(c => (double?)c.Share) ?? 0;
        most = Math.Max(most, request.LockedShares.Count == 0 ? 0 : request.LockedShares.Values.Max());
        var tallest = chosen.Max(c => c.First.Candidate.Taxon.HeightMaxMetres ?? 0);
        // Whole money, rounded up: nobody is helped by a budget of 341.27.
        var cost = Math.Ceiling((money / MixModel.MoneyScale) - 1e-9);
        if (cost > request.Budget)
        {
            words.Add($"Raise the budget from {request.Budget:0.##} to {cost:0}.");
            request = request with { Budget = cost };
        }

        if (grass < request.LeastGrassShare - 1e-9)
        {
            words.Add($"Ask for at least {grass:P1} grasses and sedges instead of {request.LeastGrassShare:P1}.");
            request = request with { LeastGrassShare = grass };
        }

        if (grass > request.MostGrassShare + 1e-9)
        {
            words.Add($"Allow up to {grass:P1} grasses and sedges instead of {request.MostGrassShare:P1}.");
            request = request with { MostGrassShare = grass };
        }

        if (most > request.MostShareOfOne + 1e-9)
        {
            words.Add($"Let one taxon take up to {most:P1} of the ground instead of {request.MostShareOfOne:P1}.");
            request = request with { MostShareOfOne = most };
        }

        if (chosen.Count < request.FewestTaxa)
        {
            words.Add($"Ask for at least {chosen.Count} taxa instead of {request.FewestTaxa}.");
            request = request with { FewestTaxa = chosen.Count };
        }

        if (chosen.Count > request.MostTaxa)
        {
            words.Add($"Allow up to {chosen.Count} taxa instead of {request.MostTaxa}.");
            request = request with { MostTaxa = chosen.Count };
        }

        if (tallest > request.TallestMetres)
        {
            words.Add($"Allow plants up to {tallest:0.##} m instead of {request.TallestMetres:0.##} m, only if the local ordinance permits it: ask there first.");
            request = request with { TallestMetres = tallest };
        }

        return request;
    }

    private static ConversionRequest Lists(ConversionRequest request, List<(PoolTaxon First, double Share)> chosen, HashSet<string> names, List<string> words)
    {
        var dropped = request.MustHave.Where(n => !names.Contains(n)).ToList();
        words.AddRange(dropped.Select(n => $"Do without {n}."));
        var unlocked = request.LockedShares
            .Where(l => Math.Abs(chosen.Where(c => string.Equals(c.First.Candidate.Taxon.ScientificName, l.Key, StringComparison.Ordinal)).Sum(c => c.Share) - l.Value) > 1e-6)
            .Select(l => l.Key).Order(StringComparer.Ordinal).ToList();
        words.AddRange(unlocked.Select(n => $"Unlock the share of {n}."));
        var wanted = request.Never.Where(names.Contains).ToList();
        words.AddRange(wanted.Select(n => $"Take {n} off the list of taxa not wanted."));
        return request with
        {
            MustHave = [.. request.MustHave.Except(dropped, StringComparer.Ordinal)],
            LockedShares = request.LockedShares.Where(l => !unlocked.Contains(l.Key, StringComparer.Ordinal)).ToDictionary(StringComparer.Ordinal),
            Never = [.. request.Never.Except(wanted, StringComparer.Ordinal)],
        };
    }

    private static ConversionRequest Method(ConversionRequest request, List<(PoolTaxon First, double Share)> chosen, List<string> words)
    {
        if (!chosen.Exists(c => c.First.Barred.Contains(new(LimitKind.Method))))
        {
            return request;
        }

        words.Add(request.Method == Conversion.Method.Seed ? "Use plugs as well as seed." : "Use seed as well as plugs.");
        return request with { Method = Conversion.Method.Mixed };
    }

    private static ConversionRequest Look(ConversionRequest request, List<(PoolTaxon First, double Share)> chosen, List<string> words)
    {
        var fits = request.Look switch
        {
            Conversion.Look.Ordered => chosen.Count <= ConversionConvention.OrderedMostTaxa
                && chosen.All(c => Steps.Exact(c.Share) >= ConversionConvention.OrderedLeastShareSteps || request.LockedShares.ContainsKey(c.First.Candidate.Taxon.ScientificName)),
            Conversion.Look.EdgeFriendly =>
                Steps.Exact(chosen.Where(c => c.First.Candidate.Taxon.HeightMaxMetres <= ConversionConvention.EdgeLowMetres).Sum(c => c.Share)) >= ConversionConvention.EdgeLowShareSteps,
            _ => true,
        };
        if (fits && !chosen.Exists(c => c.First.Barred.Contains(new(LimitKind.Look))))
        {
            return request;
        }

        words.Add($"Choose a naturalistic look instead of {(request.Look == Conversion.Look.Ordered ? "an ordered one" : "low edges")}.");
        return request with { Look = Conversion.Look.Naturalistic };
    }
}
