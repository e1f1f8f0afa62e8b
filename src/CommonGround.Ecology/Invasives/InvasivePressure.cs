using CommonGround.Ecology.Sites;

namespace CommonGround.Ecology.Invasives;

/// <summary>How strongly the unwanted plants around a place seed into it: Σ w·A·c·g(stage)·exp(−d/λ), m²-equivalents.</summary>
/// <remarks>
/// w is the weight of the taxon's impact rank, A·c the infested area times cover, g the growth-stage factor, d the great-circle distance
/// and λ the taxon's dispersal distance. The form and the weights are our own convention, kept in <see cref="PressureConvention"/>. See
/// docs/measures.md#invasive-pressure.
/// </remarks>
public static class InvasivePressure
{
    /// <summary>What an infestation is worth on the spot: w·A·c·g, m²-equivalents, 0 or more.</summary>
    /// <param name="infestation">Area m², cover 0–1, stage 0–9 or unknown.</param>
    /// <param name="matrix">Holds the taxon.</param>
    /// <param name="convention">Weights and defaults.</param>
    /// <remarks>See docs/measures.md#invasive-pressure.</remarks>
    public static double SourceSquareMetres(Infestation infestation, CommunityMatrix matrix, PressureConvention convention)
    {
        ArgumentNullException.ThrowIfNull(infestation);
        ArgumentNullException.ThrowIfNull(matrix);
        ArgumentNullException.ThrowIfNull(convention);
        if (!double.IsFinite(infestation.AreaSquareMetres) || infestation.AreaSquareMetres < 0 || !(infestation.Cover is >= 0 and <= 1))
        {
            throw new ArgumentException("An infestation has an area of 0 m² or more and a cover of 0 to 1.", nameof(infestation));
        }

        var weight = convention.Weight(matrix.Taxa[infestation.Taxon].ImpactRank);
        return weight * infestation.AreaSquareMetres * infestation.Cover * convention.StageFactor(infestation.GrowthStage);
    }

    /// <summary>Pressure at any point.</summary>
    /// <param name="matrix">Its infestations are the sources.</param>
    /// <param name="latitude">Degrees north.</param>
    /// <param name="longitude">Degrees east.</param>
    /// <param name="convention">Weights and defaults.</param>
    /// <returns>m²-equivalents, 0 or more; 0 without infestations. Sources beyond 40 dispersal distances are left out (below 10⁻¹⁷ of
    /// them).</returns>
    /// <remarks>See docs/measures.md#invasive-pressure.</remarks>
    public static double At(CommunityMatrix matrix, double latitude, double longitude, PressureConvention convention) =>
        Sources(matrix, convention).At(latitude, longitude);

    /// <summary>Pressure on a yard, at its point, m²-equivalents.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="yard">Position in <see cref="CommunityMatrix.Yards"/>.</param>
    /// <param name="convention">Weights and defaults.</param>
    /// <returns>0 or more; 0 without infestations.</returns>
    /// <remarks>See docs/measures.md#invasive-pressure.</remarks>
    public static double OfYard(CommunityMatrix matrix, int yard, PressureConvention convention) =>
        At(matrix, matrix.Yards[yard].Latitude, matrix.Yards[yard].Longitude, convention);

    /// <summary>Pressure on a block, at its middle, m²-equivalents.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="block">Index into <see cref="CommunityMatrix.Blocks"/>.</param>
    /// <param name="convention">Weights and defaults.</param>
    /// <returns>0 or more; 0 without infestations.</returns>
    /// <remarks>See docs/measures.md#invasive-pressure.</remarks>
    public static double OfBlock(CommunityMatrix matrix, int block, PressureConvention convention) =>
        At(matrix, matrix.Blocks[block].Latitude, matrix.Blocks[block].Longitude, convention);

    /// <summary>Pressure on a street, the mean over its blocks, m²-equivalents.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="street">Index into <see cref="CommunityMatrix.Streets"/>.</param>
    /// <param name="convention">Weights and defaults.</param>
    /// <returns>0 or more; 0 without infestations anywhere; otherwise <c>null</c> for a street without blocks.</returns>
    /// <remarks>See docs/measures.md#invasive-pressure.</remarks>
    public static double? OfStreet(CommunityMatrix matrix, int street, PressureConvention convention)
    {
        var sources = Sources(matrix, convention);
        return MeanOver(matrix,
            [.. matrix.BlocksOfStreet(street).Select(b => sources.At(matrix.Blocks[b].Latitude, matrix.Blocks[b].Longitude))]);
    }

    /// <summary>Pressure on the neighbourhood, the mean over all blocks, m²-equivalents.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="convention">Weights and defaults.</param>
    /// <returns>0 or more; 0 without infestations; otherwise <c>null</c> when there is no block.</returns>
    /// <remarks>See docs/measures.md#invasive-pressure.</remarks>
    public static double? OfNeighbourhood(CommunityMatrix matrix, PressureConvention convention) =>
        MeanOver(matrix, OfAllBlocks(matrix, convention));

    /// <summary>Pressure on every block, in the order of <see cref="CommunityMatrix.Blocks"/>, m²-equivalents.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="convention">Weights and defaults.</param>
    /// <returns>One entry per block, each 0 or more.</returns>
    /// <remarks>See docs/measures.md#invasive-pressure.</remarks>
    public static double[] OfAllBlocks(CommunityMatrix matrix, PressureConvention convention)
    {
        var blocks = matrix.Blocks;
        return Sources(matrix, convention).AtAll(blocks.Count, b => (blocks[b].Latitude, blocks[b].Longitude));
    }

    /// <summary>Pressure on every yard, in the order of <see cref="CommunityMatrix.Yards"/>, m²-equivalents.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="convention">Weights and defaults.</param>
    /// <returns>One entry per yard, each 0 or more.</returns>
    /// <remarks>See docs/measures.md#invasive-pressure.</remarks>
    public static double[] OfAllYards(CommunityMatrix matrix, PressureConvention convention)
    {
        var yards = matrix.Yards;
        return Sources(matrix, convention).AtAll(yards.Count, y => (yards[y].Latitude, yards[y].Longitude));
    }

    /// <summary>Pressure on every street, in the order of <see cref="CommunityMatrix.Streets"/>, each the mean over its blocks,
    /// m²-equivalents.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="convention">Weights and defaults.</param>
    /// <returns>One entry per street; <c>null</c> for one without blocks while there are infestations.</returns>
    /// <remarks>See docs/measures.md#invasive-pressure.</remarks>
    public static double?[] OfAllStreets(CommunityMatrix matrix, PressureConvention convention)
    {
        var ofBlocks = OfAllBlocks(matrix, convention);
        return [.. Enumerable.Range(0, matrix.Streets.Count)
            .Select(s => MeanOver(matrix, [.. matrix.BlocksOfStreet(s).Select(b => ofBlocks[b])]))];
    }

    private static double? MeanOver(CommunityMatrix matrix, double[] ofBlocks) =>
        matrix.Infestations.Count == 0 ? 0
        : ofBlocks.Length == 0 ? null
        : ofBlocks.Sum() / ofBlocks.Length;

    private static DecaySources Sources(CommunityMatrix matrix, PressureConvention convention)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        ArgumentNullException.ThrowIfNull(convention);
        return new([.. matrix.Infestations.Select(i => new DecaySource(
            i.Latitude,
            i.Longitude,
            SourceSquareMetres(i, matrix, convention),
            convention.DispersalMetres(matrix.Taxa[i.Taxon])))]);
    }
}
