using System.Globalization;

namespace CommonGround.Planning.Conversion;

/// <summary>What a household may change of one limit.</summary>
internal static class Relaxation
{
    /// <summary>The smallest change of a limit that makes a mix possible; null when no change of it alone does.</summary>
    public static (string Words, ConversionRequest Request)? Of(Limit limit, ConversionRequest request, Func<ConversionRequest, bool> works)
    {
        if (Without(limit, request) is not { } gone || !works(gone.Request)) return null;
        return limit.Kind switch
        {
            LimitKind.Height => Height(request, works) ?? gone,
            LimitKind.FewestTaxa => Number(request.FewestTaxa!.Value, 1, n => request with { FewestTaxa = n },
                n => $"Ask for at least {n} taxa instead of {request.FewestTaxa}.", works) ?? gone,
            LimitKind.MostTaxa => Number(request.MostTaxa!.Value, 60, n => request with { MostTaxa = n },
                n => $"Allow up to {n} taxa instead of {request.MostTaxa}.", works) ?? gone,
            _ => gone,
        };
    }

    /// <summary>The request without a limit, and the change in words; null for what no household can change.</summary>
    public static (string Words, ConversionRequest Request)? Without(Limit limit, ConversionRequest request) => limit.Kind switch
    {
        LimitKind.MostTaxa => ("Leave the most taxa to the size of the ground.", request with { MostTaxa = null }),
        LimitKind.FewestTaxa => ("Leave the fewest taxa to the size of the ground.", request with { FewestTaxa = null }),
        LimitKind.MostShareOfOne => ("Leave the most of one taxon to the taxon.", request with { MostShareOfOne = null }),
        LimitKind.LeastGrass => ("Leave the least share of grasses to the kind of ground.", request with { LeastGrassShare = null }),
        LimitKind.MostGrass => ("Leave the most share of grasses to the kind of ground.", request with { MostGrassShare = null }),
        LimitKind.Look => ($"Choose a naturalistic look instead of {(request.Look == Look.Ordered ? "an ordered one" : "low edges")}.",
            request with { Look = Look.Naturalistic }),
        LimitKind.Method => (request.Method == Method.Seed ? "Use plugs as well as seed." : "Use seed as well as plugs.",
            request with { Method = Method.Mixed }),
        LimitKind.Lock => ($"Unlock {limit.Name}.", request with
        {
            LockedAmounts = request.LockedAmounts.Where(l => !Same(l.Key, limit))
            .ToDictionary(StringComparer.Ordinal)
        }),
        LimitKind.MustHave => ($"Do without {limit.Name}.", request with { MustHave = [.. request.MustHave.Where(n => !Same(n, limit))] }),
        LimitKind.Never => ($"Take {string.Join(", ", request.Never.Order(StringComparer.Ordinal))} off the list of taxa not wanted.",
            request with { Never = [] }),
        LimitKind.Budget => ("Leave the budget open.", request with { Budget = null }),
        LimitKind.Height => ("Leave the height open, only if the local ordinance permits it: ask there first.",
            request with { TallestMetres = null }),
        _ => null,
    };

    private static bool Same(string name, Limit limit) => string.Equals(name, limit.Name, StringComparison.Ordinal);

    private static (string Words, ConversionRequest Request)? Height(ConversionRequest request, Func<ConversionRequest, bool> works)
    {
        var from = (int)Math.Floor((request.TallestMetres!.Value * 10) + 1e-9);
        var (low, high) = (from, 30);
        if (low >= high || !works(request with { TallestMetres = high / 10.0 })) return null;
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (works(request with { TallestMetres = middle / 10.0 })) high = middle;
            else low = middle;
        }

        var words = string.Create(
            CultureInfo.InvariantCulture, $"Allow plants up to {high / 10.0:0.##} m instead of {request.TallestMetres:0.##} m, only if "
                + $"the local ordinance permits it: ask there first.");
        return (words, request with { TallestMetres = high / 10.0 });
    }

    /// <summary>The number nearest to what was asked for that makes a mix possible.</summary>
    private static (string Words, ConversionRequest Request)? Number(int from, int to, Func<int, ConversionRequest> with,
        Func<int, string> words, Func<ConversionRequest, bool> works)
    {
        if (!works(with(to))) return null;
        while (Math.Abs(to - from) > 1)
        {
            var middle = (from + to) / 2;
            if (works(with(middle))) to = middle;
            else from = middle;
        }

        return (words(to), with(to));
    }
}
