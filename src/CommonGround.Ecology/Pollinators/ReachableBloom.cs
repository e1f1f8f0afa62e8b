using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;

namespace CommonGround.Ecology.Pollinators;

/// <summary>How much native bloom a pollinator nesting at a place can reach: R(t) = Σ over yards of area(y,t)·exp(−d/α), m².</summary>
/// <remarks>
/// area(y,t) is the cover of native taxa in flower in yard y, tentative identifications included; d the great-circle distance to the yard's
/// point; α a flight distance from <see cref="ForagingRange"/>. Source of the exponential weighting: Lonsdorf and others (2009), Annals
/// of Botany 103:1589–1600; see docs/measures.md#reachable-bloom.
/// </remarks>
public static class ReachableBloom
{
    /// <summary>Reachable bloom at any point.</summary>
    /// <param name="matrix">Its yards are the sources.</param>
    /// <param name="latitude">Degrees north.</param>
    /// <param name="longitude">Degrees east.</param>
    /// <param name="halfMonth">0–23; see <see cref="HalfMonth.Of"/>.</param>
    /// <param name="alphaMetres">Flight distance at which 1/e counts, m, above 0.</param>
    /// <returns>m², 0 or more; 0 where nothing flowers. Yards beyond 40 α are left out (below 10⁻¹⁷ of their bloom).</returns>
    /// <remarks>See docs/measures.md#reachable-bloom.</remarks>
    public static double At(CommunityMatrix matrix, double latitude, double longitude, int halfMonth, double alphaMetres) =>
        Sources(matrix, halfMonth, alphaMetres).At(latitude, longitude);

    /// <summary>Reachable bloom at the middle of every block, in the order of <see cref="CommunityMatrix.Blocks"/>.</summary>
    /// <param name="matrix">Its yards are the sources.</param>
    /// <param name="halfMonth">0–23; see <see cref="HalfMonth.Of"/>.</param>
    /// <param name="alphaMetres">Flight distance at which 1/e counts, m, above 0.</param>
    /// <returns>One entry per block, m², each 0 or more.</returns>
    /// <remarks>See docs/measures.md#reachable-bloom.</remarks>
    public static double[] OfAllBlocks(CommunityMatrix matrix, int halfMonth, double alphaMetres)
    {
        var sources = Sources(matrix, halfMonth, alphaMetres);
        var blocks = matrix.Blocks;
        return sources.AtAll(blocks.Count, b => (blocks[b].Latitude, blocks[b].Longitude));
    }

    /// <summary>Native cover in flower in one yard: area(y,t), m².</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="yard">Position in <see cref="CommunityMatrix.Yards"/>.</param>
    /// <param name="halfMonth">0–23.</param>
    /// <returns>m², 0 or more.</returns>
    /// <remarks>See docs/measures.md#reachable-bloom.</remarks>
    public static double FloweringSquareMetres(CommunityMatrix matrix, int yard, int halfMonth)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        RequireHalfMonth(halfMonth);
        return Flowering(matrix.Rows[yard], matrix.Traits.All, halfMonth);
    }

    private static DecaySources Sources(CommunityMatrix matrix, int halfMonth, double alphaMetres)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        RequireHalfMonth(halfMonth);
        if (!double.IsFinite(alphaMetres) || alphaMetres <= 0)
        {
            throw new ArgumentOutOfRangeException(nameof(alphaMetres), alphaMetres, "A flight distance is above 0 m.");
        }

        var rows = matrix.Rows;
        var traits = matrix.Traits.All;
        var sources = new DecaySource[rows.Length];
        Parallel.For(0, rows.Length, y =>
            sources[y] = new(rows[y].Latitude, rows[y].Longitude, Flowering(rows[y], traits, halfMonth), alphaMetres));
        return new(sources);
    }

    private static double Flowering(YardCommunity yard, TaxonTrait[] traits, int halfMonth)
    {
        double area = 0;
        foreach (ref readonly var presence in yard.Presences.AsSpan())
        {
            area += (traits[presence.Taxon].BloomBits >> halfMonth & 1) != 0 ? presence.CoverSquareMetres : 0;
        }

        return area;
    }

    private static void RequireHalfMonth(int halfMonth)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(halfMonth);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(halfMonth, HalfMonth.Count);
    }
}
