using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Kind of ground by light and moisture; each has its own shares of grasses and legumes.</summary>
public enum SiteKind { SunDry, SunMedium, SunMoist, SunWet, PartShade, Shade }

/// <summary>Everything the rules ask of a piece of ground, worked out once from the request.</summary>
/// <remarks>Sizes, rates and numbers: docs/measures.md#mix. Seed rates are kept in hundredths of a live seed per square foot.</remarks>
internal sealed record MixSite
{
    public const double RateSteps = 100;
    private const double SquareFeet = 1 / SeedRate.SquareMetresPerSquareFoot;
    private const double SteepPercent = 33;

    /// <summary>Below m²: fewest and most taxa.</summary>
    private static readonly (double Below, int Fewest, int Most)[] Sizes =
        [(4, 5, 7), (10, 6, 9), (30, 9, 12), (100, 14, 20), (300, 18, 26), (1000, 24, 34), (double.MaxValue, 30, 45)];

    /// <summary>Square metres from which each class of size begins, smallest first.</summary>
    public static IEnumerable<int> ClassesFrom => Sizes.SkipLast(1).Select(s => (int)s.Below).Prepend(1);

    public required ConversionRequest Request { get; init; }
    public required double SquareMetres { get; init; }
    public required SiteKind Kind { get; init; }

    /// <summary>Seed, plugs, or sown ground with a planted band in front.</summary>
    public required Method Method { get; init; }

    /// <summary>Most hundredths of a seed per square foot, 0 for plugs alone; <see cref="LeastRate"/> the fewest.</summary>
    public required int Rate { get; init; }
    public required int LeastRate { get; init; }

    /// <summary>Plugs for the whole ground, or at most in band and patches.</summary>
    public required int Plugs { get; init; }

    /// <summary>Apart in triangles, m.</summary>
    public required double Spacing { get; init; }
    public required int FewestTaxa { get; init; }
    public required int MostTaxa { get; init; }

    /// <summary>1, or less where too little suits to sow as thickly as usual.</summary>
    public required double Thin { get; init; }
    public bool Sun => Request.Light == Light.FullSun;
    public bool DrySun => Sun && (Request.Moisture is Moisture.Dry or Moisture.Medium);
    public bool Wettish => Request.Moisture is Moisture.Moist or Moisture.Wet;
    public bool Steep => Request.SlopePercent >= SteepPercent;
    public double Tallest => Request.TallestMetres ?? 99;
    public double GroundSquareFeet => SquareMetres * SquareFeet;

    /// <summary>Grams of live seed of a taxon for one step of rate.</summary>
    public double GramsPerStep(double seedsPerGram) => GroundSquareFeet / RateSteps / seedsPerGram;

    public static double SeedsPerSquareMetre(long steps) => steps / RateSteps * SquareFeet;

    public static long Steps(double seedsPerSquareMetre) => (long)Math.Round(seedsPerSquareMetre * RateSteps / SquareFeet);

    /// <summary>The rules' figures for a request; a thinner sowing and another method are steps of the ladder when nothing else can be
    /// done.</summary>
    public static MixSite Of(ConversionRequest request, double thin = 1, Method? instead = null)
    {
        var area = request.SquareMetres;
        var method = instead ?? (request.Method == Method.Mixed && area < 30 ? Method.Plugs : request.Method);
        var kind = KindOf(request);
        // An ordered planting has as many taxa as a bed.
        var (_, fewest, most) = Sizes.First(s => (request.Look == Look.Ordered ? Math.Min(area, 29) : area) < s.Below);
        var steep = request.SlopePercent >= SteepPercent;
        var full = (kind switch { SiteKind.SunWet => 44, SiteKind.Shade => 40, SiteKind.PartShade => 45, _ => 48 }) * RateSteps * (steep
            ? 1.5 : 1) * thin;
        var least = (kind switch
        {
            SiteKind.Shade => 0.25,
            SiteKind.SunWet => 0.7,
            SiteKind.SunMoist => 0.75,
            SiteKind.PartShade => 0.6,
            _ => 0.8
        }) * full;
        full = request.MostSeedsPerSquareMetre is { } asked ? Math.Min(full, Steps(asked)) : full;
        least = request.FewestSeedsPerSquareMetre is { } fewestSeeds ? Math.Max(Steps(fewestSeeds), Math.Min(least, full))
            : Math.Min(least, full);
        var spacing = area < 15 ? 0.30 : 0.38;
        return new()
        {
            Request = request,
            SquareMetres = area,
            Kind = kind,
            Method = method,
            Rate = method == Method.Plugs ? 0 : (int)Math.Round(Math.Max(full, least)),
            LeastRate = method == Method.Plugs ? 0 : (int)Math.Round(least),
            Plugs = PlugsOf(area, method, kind, request.Moisture is Moisture.Moist or Moisture.Wet, spacing),
            Spacing = spacing,
            FewestTaxa = fewest,
            MostTaxa = most,
            Thin = thin,
        };
    }

    private static SiteKind KindOf(ConversionRequest request) => (request.Light, request.Moisture) switch
    {
        (Light.FullSun, Moisture.Dry) => SiteKind.SunDry,
        (Light.FullSun, Moisture.Medium) => SiteKind.SunMedium,
        (Light.FullSun or Light.PartShade, Moisture.Moist) => SiteKind.SunMoist,
        (Light.FullSun or Light.PartShade, Moisture.Wet) => SiteKind.SunWet,
        (Light.PartShade, _) => SiteKind.PartShade,
        _ => SiteKind.Shade,
    };

    private static int PlugsOf(double area, Method method, SiteKind kind, bool wettish, double spacing)
    {
        if (method == Method.Seed) return 0;
        if (method == Method.Plugs) return Math.Max(1, (int)Math.Round(PlugSpacing.Triangular(area, spacing)));
        if (kind == SiteKind.Shade) return Math.Max(30, (int)Math.Round(Math.Min(area, 400) * 2.2));
        return Math.Min(480, Math.Max(30, (int)Math.Round(wettish ? Math.Min(area, 400) * 0.6 : 7 * Math.Sqrt(area))));
    }
}
