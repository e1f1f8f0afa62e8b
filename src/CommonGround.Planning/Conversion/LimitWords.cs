using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Limits as sentences, and which of them a household has set.</summary>
internal static class LimitWords
{
    /// <summary>Every limit a request sets, but for the rules of a sound mix.</summary>
    public static IReadOnlyList<Limit> Household(ConversionRequest request)
    {
        var limits = new List<Limit>();
        void When(bool holds, LimitKind kind)
        {
            if (holds) limits.Add(new(kind));
        }

        When(request.MostTaxa is not null, LimitKind.MostTaxa);
        When(request.FewestTaxa is not null, LimitKind.FewestTaxa);
        When(request.MostShareOfOne is not null, LimitKind.MostShareOfOne);
        When(request.LeastGrassShare is not null, LimitKind.LeastGrass);
        When(request.MostGrassShare is not null, LimitKind.MostGrass);
        When(request.Look != Look.Naturalistic, LimitKind.Look);
        When(request.Method != Method.Mixed, LimitKind.Method);
        limits.AddRange(request.LockedAmounts.Keys.Order(StringComparer.Ordinal).Select(n => new Limit(LimitKind.Lock, n)));
        limits.AddRange(request.MustHave.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)
            .Where(n => !request.LockedAmounts.ContainsKey(n))
            .Select(n => new Limit(LimitKind.MustHave, n)));
        When(request.Never.Count > 0, LimitKind.Never);
        When(request.Budget is not null, LimitKind.Budget);
        When(request.KeptOut.Count > 0, LimitKind.KeepToxicOut);
        When(request.TallestMetres is not null, LimitKind.Height);
        return limits;
    }

    /// <summary>A limit as the household set it, or a rule of a sound mix.</summary>
    public static string Of(Limit limit, ConversionRequest request) => limit.Kind switch
    {
        LimitKind.Budget => $"No more than {request.Budget:0.00} is to be spent on seed and plants.",
        LimitKind.LeastGrass => $"Grasses and sedges take at least {request.LeastGrassShare:P1} of seeds and plugs.",
        LimitKind.MostGrass => $"Grasses and sedges take at most {request.MostGrassShare:P1} of seeds and plugs.",
        LimitKind.MostShareOfOne => $"No taxon takes more than {request.MostShareOfOne:P1} of seeds or plugs.",
        LimitKind.FewestTaxa => $"There are at least {request.FewestTaxa} taxa.",
        LimitKind.MostTaxa => $"There are at most {request.MostTaxa} taxa.",
        LimitKind.Height => $"No plant is taller than {request.TallestMetres:0.##} m.",
        LimitKind.KeepToxicOut => request.KeepToxicToAnimalsOut ? "Plants known to harm people, pets or stock are kept out."
            : "Plants known to harm people are kept out.",
        LimitKind.Never => "Not wanted: " + string.Join(", ", request.Never.Order(StringComparer.Ordinal)) + ".",
        LimitKind.Look when request.Look
            == Look.Ordered => $"An ordered look: as few kinds as in a bed, none taller than "
            + $"{ConversionConvention.OrderedTallestMetres:0.##} m.",
        LimitKind.Look => $"Low edges: at least {ConversionConvention.EdgeLowShare:P0} of seeds and plugs at or below "
            + $"{ConversionConvention.EdgeLowMetres:0.##} m.",
        LimitKind.Method => request.Method == Method.Seed ? "Everything is sown." : "Everything is planted as plugs.",
        LimitKind.MustHave => $"{limit.Name} must be in.",
        LimitKind.Lock => $"{limit.Name} keeps its seed and plugs as they were shown.",
        LimitKind.Guild => $"A sound mix: {limit.Name}.",
        _ => throw new ArgumentOutOfRangeException(nameof(limit)),
    };

    /// <summary>What never changes: the ground, and that it is filled.</summary>
    public static string Ground(ConversionRequest request) => $"The ground has {Of(request.Light)} and {Of(request.Moisture)} soil.";

    public static string Of(Light light) => light switch { Light.FullSun => "full sun", Light.PartShade => "part shade", _ => "shade" };

    public static string Of(Moisture moisture) => moisture.ToString().ToLowerInvariant();
}
