using CommonGround.Ecology.Diversity;
using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;

namespace CommonGround.Ecology.Sites;

/// <summary>Every measure of every yard, block, street or the whole neighbourhood of a community matrix.</summary>
/// <remarks>
/// The batch methods keep the order of the matrix's lists. They and the single-site methods agree to about 10⁻¹³ relative (sums may be
/// taken in another order); none depends on the order of rows. Every field is explained at <see cref="SiteMeasures"/> and in
/// docs/measures.md.
/// </remarks>
public static class CommunityMeasures
{
    /// <summary>Measures of every yard, in the order of <see cref="CommunityMatrix.Yards"/>.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="season">The half-months that count for bloom coverage.</param>
    /// <param name="convention">Weights and defaults of invasive pressure.</param>
    public static IReadOnlyList<SiteMeasures> OfYards(CommunityMatrix matrix, Season season, PressureConvention convention)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return WithPressure(
            RollUp.OfAll(matrix, Grouping.Each(matrix.Yards.Count), season),
            [.. InvasivePressure.OfAllYards(matrix, convention)]);
    }

    /// <summary>Measures of every block, in the order of <see cref="CommunityMatrix.Blocks"/>.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="season">The half-months that count for bloom coverage.</param>
    /// <param name="convention">Weights and defaults of invasive pressure.</param>
    public static IReadOnlyList<SiteMeasures> OfBlocks(CommunityMatrix matrix, Season season, PressureConvention convention)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return WithPressure(RollUp.OfAll(matrix, matrix.Index.YardsByBlock, season), [.. InvasivePressure.OfAllBlocks(matrix, convention)]);
    }

    /// <summary>Measures of every block without invasive pressure (left <c>null</c>): the part that needs no distances.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="season">The half-months that count for bloom coverage.</param>
    public static IReadOnlyList<SiteMeasures> OfBlocksWithoutPressure(CommunityMatrix matrix, Season season)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return RollUp.OfAll(matrix, matrix.Index.YardsByBlock, season);
    }

    /// <summary>Measures of every street, in the order of <see cref="CommunityMatrix.Streets"/>.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="season">The half-months that count for bloom coverage.</param>
    /// <param name="convention">Weights and defaults of invasive pressure.</param>
    public static IReadOnlyList<SiteMeasures> OfStreets(CommunityMatrix matrix, Season season, PressureConvention convention)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return WithPressure(RollUp.OfAll(matrix, matrix.Index.YardsByStreet, season), InvasivePressure.OfAllStreets(matrix, convention));
    }

    /// <summary>Measures of the whole neighbourhood: all yards of the matrix.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="season">The half-months that count for bloom coverage.</param>
    /// <param name="convention">Weights and defaults of invasive pressure.</param>
    public static SiteMeasures OfNeighbourhood(CommunityMatrix matrix, Season season, PressureConvention convention)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        var measures = RollUp.OfAll(matrix, Grouping.All(matrix.Index.YardsByBlock.Members), season);
        return measures[0] with { InvasivePressureSquareMetres = InvasivePressure.OfNeighbourhood(matrix, convention) };
    }

    /// <summary>Measures of one yard.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="yard">Position in <see cref="CommunityMatrix.Yards"/>; see <see cref="CommunityMatrix.PositionOf"/>.</param>
    /// <param name="season">The half-months that count for bloom coverage.</param>
    /// <param name="convention">Weights and defaults of invasive pressure.</param>
    public static SiteMeasures OfYard(CommunityMatrix matrix, int yard, Season season, PressureConvention convention)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return SiteMeasures.Of(SiteCommunity.Of([matrix.Yards[yard]]), matrix.Taxa, season,
            InvasivePressure.OfYard(matrix, yard, convention));
    }

    /// <summary>Measures of one block.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="block">Index into <see cref="CommunityMatrix.Blocks"/>.</param>
    /// <param name="season">The half-months that count for bloom coverage.</param>
    /// <param name="convention">Weights and defaults of invasive pressure.</param>
    public static SiteMeasures OfBlock(CommunityMatrix matrix, int block, Season season, PressureConvention convention) =>
        SiteMeasures.Of(CommunityOfBlock(matrix, block), matrix.Taxa, season, InvasivePressure.OfBlock(matrix, block, convention));

    /// <summary>Measures of one street.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="street">Index into <see cref="CommunityMatrix.Streets"/>.</param>
    /// <param name="season">The half-months that count for bloom coverage.</param>
    /// <param name="convention">Weights and defaults of invasive pressure.</param>
    public static SiteMeasures OfStreet(CommunityMatrix matrix, int street, Season season, PressureConvention convention) =>
        SiteMeasures.Of(CommunityOfStreet(matrix, street), matrix.Taxa, season, InvasivePressure.OfStreet(matrix, street, convention));

    /// <summary>The yards of a block rolled up, for the measures that compare sites or list their taxa.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="block">Index into <see cref="CommunityMatrix.Blocks"/>.</param>
    public static SiteCommunity CommunityOfBlock(CommunityMatrix matrix, int block)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return SiteCommunity.Of(matrix.YardsOfBlock(block).Select(y => matrix.Yards[y])).Told(matrix.Taxa);
    }

    /// <summary>The yards of a street rolled up.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="street">Index into <see cref="CommunityMatrix.Streets"/>.</param>
    public static SiteCommunity CommunityOfStreet(CommunityMatrix matrix, int street)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return SiteCommunity.Of(matrix.YardsOfStreet(street).Select(y => matrix.Yards[y])).Told(matrix.Taxa);
    }

    /// <summary>All yards rolled up.</summary>
    /// <param name="matrix">The community.</param>
    public static SiteCommunity CommunityOfNeighbourhood(CommunityMatrix matrix)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return SiteCommunity.Of(matrix.Index.YardsByBlock.Members.Select(y => matrix.Yards[y])).Told(matrix.Taxa);
    }

    /// <summary>Which taxa grow in which yards of a street, for accumulation curves and richness estimates.</summary>
    /// <param name="matrix">The community.</param>
    /// <param name="street">Index into <see cref="CommunityMatrix.Streets"/>.</param>
    public static Incidence IncidenceOfStreet(CommunityMatrix matrix, int street)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return IncidenceOf(matrix, matrix.YardsOfStreet(street));
    }

    /// <summary>Which taxa grow in which yards of the neighbourhood.</summary>
    /// <param name="matrix">The community.</param>
    public static Incidence IncidenceOfNeighbourhood(CommunityMatrix matrix)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        return IncidenceOf(matrix, matrix.Index.YardsByBlock.Members);
    }

    private static Incidence IncidenceOf(CommunityMatrix matrix, IReadOnlyList<int> yards)
    {
        var counted = SiteCommunity.Of(yards.Select(y => matrix.Yards[y])).Told(matrix.Taxa).Taxa.Select(t => t.Taxon).ToHashSet();
        return Incidence.Of(
            [.. yards.Select(y => (IReadOnlyCollection<int>)[.. matrix.Yards[y].Presences.Select(p => p.Taxon).Where(counted.Contains)])]);
    }

    private static SiteMeasures[] WithPressure(SiteMeasures[] measures, double?[] pressures)
    {
        for (var i = 0; i < measures.Length; i++)
        {
            measures[i] = measures[i] with { InvasivePressureSquareMetres = pressures[i] };
        }

        return measures;
    }
}
