using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;

namespace CommonGround.Web.Features.Community;

/// <summary>
/// What everybody sees who is neither of a yard's household nor an organiser: only yards that are counted in public, everything in them at
/// the middle of their block, and figures rounded to what they are worth. No figure made from it depends on where in its block a yard lies.
/// </summary>
/// <remarks>
/// The rule of rounding: counts whole; square metres, pressure, support and reachable bloom to two significant digits; shares to a percent;
/// Shannon's index to two decimals; mean C, floristic quality, Hill numbers and Chao 2 to one decimal.
/// </remarks>
public static class PublicView
{
    /// <summary>A middle worked out from yards is rounded to this many decimals of a degree, about 100 m.</summary>
    public const int MiddleDecimals = 3;

    /// <param name="matrix">Everything.</param>
    /// <param name="blocks">The same blocks, where the public may think them.</param>
    public static CommunityMatrix Of(CommunityMatrix matrix, IReadOnlyList<BlockSite> blocks)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        ArgumentNullException.ThrowIfNull(blocks);
        var yards = matrix.Yards.Where(y => y.Shared).Select(y => y with
        {
            Latitude = blocks[y.Block].Latitude,
            Longitude = blocks[y.Block].Longitude
        }).ToList();
        var counted = yards.Select(y => y.YardId).ToHashSet();
        // What lies in a yard that is not counted takes no part, not even as pressure on its neighbours.
        var infestations = matrix.Infestations.Where(i => i.Block >= 0 && (i.YardId is not { } yard || counted.Contains(yard)))
            .Select(i => i with { Latitude = blocks[i.Block].Latitude, Longitude = blocks[i.Block].Longitude }).ToList();
        return matrix with { Blocks = blocks, Yards = yards, Infestations = infestations };
    }

    /// <summary>Square metres, pressure or reach as far as they are worth: two significant digits.</summary>
    public static double Worth(double value)
    {
        if (value == 0 || !double.IsFinite(value))
        {
            return value;
        }

        var step = Math.Pow(10, Math.Floor(Math.Log10(Math.Abs(value))) - 1);
        // Through decimal digits, so that the result is the double nearest to what is printed.
        return double.Parse((Math.Round(value / step) * step).ToString("G2", System.Globalization.CultureInfo.InvariantCulture),
            System.Globalization.CultureInfo.InvariantCulture);
    }

    public static SiteMeasures Worth(SiteMeasures m)
    {
        ArgumentNullException.ThrowIfNull(m);
        return m with
        {
            Shannon = At(m.Shannon, 2),
            Simpson = At(m.Simpson, 2),
            Evenness = At(m.Evenness, 2),
            InverseSimpson = At(m.InverseSimpson, 1),
            Hill1 = At(m.Hill1, 1),
            Hill2 = At(m.Hill2, 1),
            Chao2 = At(m.Chao2, 1),
            Chao2StandardError = At(m.Chao2StandardError, 1),
            MeanC = At(m.MeanC, 1),
            NativeMeanC = At(m.NativeMeanC, 1),
            Fqi = At(m.Fqi, 1),
            NativeFqi = At(m.NativeFqi, 1),
            AdjustedFqi = At(m.AdjustedFqi, 1),
            CoverWeightedMeanC = At(m.CoverWeightedMeanC, 1),
            Bloom = Worth(m.Bloom),
            BloomWithoutTentative = Worth(m.BloomWithoutTentative),
            InvasivePressureSquareMetres = m.InvasivePressureSquareMetres is { } p ? Worth(p) : null,
        };
    }

    /// <summary>Pressure on a yard as its own household may read it: its own infestations as they are, all others as the public sees them;
    /// two significant digits.</summary>
    /// <param name="matrix">Everything.</param>
    /// <param name="yard">The household's yard.</param>
    /// <param name="seen">What the public sees.</param>
    public static double PressureOn(CommunityMatrix matrix, YardCommunity yard, Figures seen)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        ArgumentNullException.ThrowIfNull(yard);
        ArgumentNullException.ThrowIfNull(seen);
        var own = matrix.Infestations.Where(i => i.YardId == yard.YardId);
        var others = seen.Matrix.Infestations.Where(i => i.YardId != yard.YardId);
        var around = matrix with { Infestations = [.. own, .. others] };
        return Worth(InvasivePressure.At(around, yard.Latitude, yard.Longitude, seen.Convention));
    }

    private static BloomCoverage Worth(BloomCoverage bloom) => bloom with
    {
        HalfMonths = [.. bloom.HalfMonths.Select(h => h with { AreaSquareMetres = Worth(h.AreaSquareMetres), Support = Worth(h.Support) })],
        CoveredShare = Math.Round(bloom.CoveredShare, 2),
        LateSeasonCoveredShare = Math.Round(bloom.LateSeasonCoveredShare, 2),
    };

    private static double? At(double? value, int decimals) => value is { } v ? Math.Round(v, decimals) : null;
}
