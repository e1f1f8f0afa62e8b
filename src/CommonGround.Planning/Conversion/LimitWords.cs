using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Limits and their loosening as sentences.</summary>
internal static class LimitWords
{
    /// <summary>A limit as the household set it.</summary>
    public static string Of(Limit limit, ConversionRequest request) => limit.Kind switch
    {
        LimitKind.Budget => $"No more than {request.Budget:0.00} is to be spent on seed and plants.",
        LimitKind.LeastGrass => $"Grasses and sedges take at least {request.LeastGrassShare:P1} of the ground.",
        LimitKind.MostGrass => $"Grasses and sedges take at most {request.MostGrassShare:P1} of the ground.",
        LimitKind.MostShareOfOne => $"No taxon takes more than {request.MostShareOfOne:P1} of the ground.",
        LimitKind.FewestTaxa => $"There are at least {request.FewestTaxa} taxa.",
        LimitKind.MostTaxa => $"There are at most {request.MostTaxa} taxa.",
        LimitKind.Height => $"No plant is taller than {request.TallestMetres:0.##} m.",
        LimitKind.KeepToxicOut => "Taxa with a toxicity note are kept out.",
        LimitKind.Never => "Not wanted: " + string.Join(", ", request.Never.Order(StringComparer.Ordinal)) + ".",
        LimitKind.Look when request.Look == Look.Ordered =>
            $"An ordered look: at most {ConversionConvention.OrderedMostTaxa} taxa, each {Percent(ConversionConvention.OrderedLeastShareSteps)} or more, none taller than {ConversionConvention.OrderedTallestMetres:0.##} m, no shrubs.",
        LimitKind.Look => $"Low edges: at least {Percent(ConversionConvention.EdgeLowShareSteps)} of the ground at or below {ConversionConvention.EdgeLowMetres:0.##} m, no shrubs.",
        LimitKind.Method => request.Method == Method.Seed ? "Everything is sown." : "Everything is planted as plugs.",
        LimitKind.MustHave => $"{limit.Name} must be in.",
        LimitKind.Lock => $"{limit.Name} keeps {request.LockedShares[limit.Name]:P1} of the ground.",
        _ => throw new ArgumentOutOfRangeException(nameof(limit)),
    };

    /// <summary>What never changes: the ground, and that it is filled.</summary>
    public static string Ground(ConversionRequest request) => $"The ground has {Of(request.Light)} and {Of(request.Moisture)} soil.";

    public static string Of(Light light) => light switch { Light.FullSun => "full sun", Light.PartShade => "part shade", _ => "shade" };

    public static string Of(Moisture moisture) => moisture.ToString().ToLowerInvariant();

    private static string Percent(int steps) => $"{(double)steps / ConversionConvention.ShareSteps:P0}";
}
