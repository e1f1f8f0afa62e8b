using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;

namespace CommonGround.Web.Features.Community;

/// <summary>The measures of every block, street and the neighbourhood, for one way of looking: all yards, or only those that
/// share.</summary>
public sealed class Figures
{
    /// <summary>A block of fewer yards is not shown: two households could tell each other's.</summary>
    public const int YardsToShow = Storage.Publishing.PublicSets.FewestYards;

    private Figures(CommunityMatrix matrix, Season season, PressureConvention convention, bool isPublic = false)
    {
        IsPublic = isPublic;
        Matrix = matrix;
        Season = season;
        Convention = convention;
        Blocks = Told(CommunityMeasures.OfBlocks(matrix, season, convention));
        Streets = Told(CommunityMeasures.OfStreets(matrix, season, convention));
        Neighbourhood = Told([CommunityMeasures.OfNeighbourhood(matrix, season, convention)])[0];
        Shown = [.. Enumerable.Range(0, matrix.Blocks.Count).Where(b => Blocks[b].Yards >= YardsToShow)];
    }

    /// <summary>What its dates of bloom rest on.</summary>
    public BloomDates Dates { get; internal set; } = BloomDates.OfCatalogue;

    /// <summary>Made for everybody, by <see cref="PublicView"/>.</summary>
    public bool IsPublic { get; }
    public CommunityMatrix Matrix { get; }
    public Season Season { get; }
    public PressureConvention Convention { get; }
    public IReadOnlyList<SiteMeasures> Blocks { get; }
    public IReadOnlyList<SiteMeasures> Streets { get; }
    public SiteMeasures Neighbourhood { get; }

    /// <summary>Indices of the blocks with three or more yards.</summary>
    public IReadOnlyList<int> Shown { get; }

    public int LateHalves => Season.Last - Season.LateFrom + 1;

    public int SeasonHalves => Season.Last - Season.First + 1;

    /// <param name="publicBlocks">Blocks where the public may think them: without a shape, in the midst of the yards it sees
    /// counted.</param>
    public static Figures Of(CommunityMatrix matrix, bool sharedOnly, GroupRules? rules = null,
        IReadOnlyList<BlockSite>? publicBlocks = null)
    {
        rules ??= GroupRules.Default;
        if (!sharedOnly)
        {
            return new Figures(matrix, rules.Season, rules.Pressure);
        }

        return new Figures(PublicView.Of(matrix, publicBlocks ?? matrix.Blocks), rules.Season, rules.Pressure, isPublic: true);
    }

    /// <summary>Square metres as they may be told: as they are to organisers, else rounded to what they are worth.</summary>
    public double Told(double squareMetres) => IsPublic ? PublicView.Worth(squareMetres) : squareMetres;

    /// <summary>Native taxa in flower by half-month, 24 entries.</summary>
    public static int[] InFlower(SiteMeasures site) => [.. site.Bloom.HalfMonths.Select(h => h.N)];

    public static int[] InFlowerCertain(SiteMeasures site) => [.. site.BloomWithoutTentative.HalfMonths.Select(h => h.N)];

    /// <summary>Half-months covered between two, both included.</summary>
    public int Covered(SiteMeasures site, int from, int to) => Enumerable.Range(from, to - from + 1)
        .Count(t => site.Bloom.HalfMonths[t].N >= Season.Norm);

    public int LateCovered(SiteMeasures site) => Covered(site, Season.LateFrom, Season.Last);

    public int SeasonCovered(SiteMeasures site) => Covered(site, Season.First, Season.Last);

    /// <summary>Shown blocks covered in each half-month, 24 entries.</summary>
    public int[] BlocksCovered() =>
        [.. Enumerable.Range(0, HalfMonth.Count).Select(t => Shown.Count(b => Blocks[b].Bloom.HalfMonths[t].N >= Season.Norm))];

    public int[] BlocksCoveredCertain() => [.. Enumerable.Range(0, HalfMonth.Count)
        .Select(t => Shown.Count(b => Blocks[b].BloomWithoutTentative.HalfMonths[t].N >= Season.Norm))];

    public string BlockName(int block) => $"{Matrix.Streets[Matrix.Blocks[block].Street].Name}, {Matrix.Blocks[block].Name}";

    private IReadOnlyList<SiteMeasures> Told(IReadOnlyList<SiteMeasures> exact) => IsPublic ? [.. exact.Select(PublicView.Worth)] : exact;
}
