using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.ThisHalfMonth;

/// <summary>A native taxon in flower across the neighbourhood.</summary>
public sealed record InFlowerLine(CatalogueTaxon Taxon, int Yards, double CoverSquareMetres);

/// <summary>What a half-month says of a neighbourhood: pure, from its figures.</summary>
public sealed class HalfMonthStory
{
    private static readonly string[] Grades = ["bare", "thin", "fair", "full"];

    public HalfMonthStory(Figures figures, int half)
    {
        Figures = figures;
        Half = half;
        BlocksCovered = figures.BlocksCovered();
        BlocksCoveredCertain = figures.BlocksCoveredCertain();
        InFlower = Lines(t => t.Bloom!.Value.Contains(half));
        var next = (half + 1) % 24;
        Starting = Lines(t => t.Bloom!.Value.Start == next);
        Ending = Lines(t => t.Bloom!.Value.End == half);
    }

    public Figures Figures { get; }
    public int Half { get; }

    /// <summary>Shown blocks covered, by half-month.</summary>
    public IReadOnlyList<int> BlocksCovered { get; }
    public IReadOnlyList<int> BlocksCoveredCertain { get; }
    public IReadOnlyList<InFlowerLine> InFlower { get; }
    public IReadOnlyList<InFlowerLine> Starting { get; }
    public IReadOnlyList<InFlowerLine> Ending { get; }

    public int Shown => Figures.Shown.Count;

    private bool InSeason => Half >= Figures.Season.First && Half <= Figures.Season.Last;

    /// <summary>The first later half-month of the season that is a grade below now's, or null.</summary>
    public int? Fall => InSeason
        ? Enumerable.Range(Half + 1, Math.Max(0, Figures.Season.Last - Half)).Where(t => Grade(t) < Grade(Half)).Select(t => (int?)t)
        .FirstOrDefault()
        : null;

    /// <summary>The headline is the answer: how it is now, and when that changes.</summary>
    public string Headline()
    {
        var name = HalfMonthWords.Of(Half);
        if (Shown == 0)
        {
            return $"{name}: no block has three yards yet";
        }

        if (!InSeason)
        {
            return InFlower.Count == 0 ? $"{name}: nothing native in flower" : $"{name}: outside the season";
        }

        return Fall is { } fall ? $"{name}: {Grades[Grade(Half)]} now, {Grades[Grade(fall)]} from {HalfMonthWords.FirstDay(fall)}"
            : $"{name}: {Grades[Grade(Half)]} to the season’s end";
    }

    /// <param name="neighbourhood">Its name.</param>
    /// <param name="bloomPlace">Where the dates hold.</param>
    /// <param name="isToday">The half-month is the present one.</param>
    public string Lead(string neighbourhood, string bloomPlace, bool isToday)
    {
        if (Shown == 0)
        {
            return "A block is shown when three or more of its yards take part. Register yards, and the season’s gaps appear here.";
        }

        if (!InSeason && InFlower.Count == 0)
        {
            return $"The season begins on {HalfMonthWords.FirstDay(Figures.Season.First)}. Until then the gaps below can be planned, and "
                + $"seed that needs a cold winter can go on the ground.";
        }

        var start = $"By the usual dates for {bloomPlace}, {Words.Count(InFlower.Count, "native species is", "native species are")} in "
            + $"flower {(isToday ? "now" : "then")} in {neighbourhood}, and {BlocksCovered[Half]} of {Shown} blocks have at least "
            + $"{Words.Spelled(Figures.Season.Norm).ToLowerInvariant()}.";
        var last = Figures.Season.Last;
        return Fall switch
        {
            { } fall when fall
                < last => $"{start} It does not last: from {HalfMonthWords.FirstDay(fall)} only {BlocksCovered[fall]} do, and from "
                + $"{HalfMonthWords.FirstDay(last)} only {BlocksCovered[last]}.",
            { } fall => $"{start} In {HalfMonthWords.Of(fall)} only {BlocksCovered[fall]} do.",
            null when InSeason => $"{start} That holds to {HalfMonthWords.LastDay(last)}.",
            null => $"{start} The season runs from {HalfMonthWords.FirstDay(Figures.Season.First)} to {HalfMonthWords.LastDay(last)}.",
        };
    }

    /// <summary>The street whose shown blocks have the fewest late half-months covered, with those blocks; null when none is
    /// shown.</summary>
    public (int Street, double Mean, IReadOnlyList<int> Blocks)? Thinnest()
    {
        var streets = Figures.Shown.GroupBy(b => Figures.Matrix.Blocks[b].Street)
            .Select(g => (g.Key, Mean: g.Average(b => Figures.LateCovered(Figures.Blocks[b])),
            Blocks: (IReadOnlyList<int>)[.. Figures.Matrix.BlocksOfStreet(g.Key)]))
            .OrderBy(s => s.Mean).ThenBy(s => Figures.Matrix.Streets[s.Key].Name, StringComparer.Ordinal).ToList();
        return streets.Count == 0 ? null : streets[0];
    }

    private int Grade(int t) => Shown == 0 ? 0 : (BlocksCovered[t] * 100 / Shown) switch { >= 75 => 3, >= 50 => 2, >= 15 => 1, _ => 0 };

    private List<InFlowerLine> Lines(Func<CatalogueTaxon, bool> which)
    {
        var taxa = Figures.Matrix.Taxa;
        return [.. CommunityMeasures.CommunityOfNeighbourhood(Figures.Matrix).Taxa
            .Where(t => taxa[t.Taxon] is { Nativity: Nativity.Native, Bloom: not null } taxon && which(taxon))
            .Select(t => new InFlowerLine(taxa[t.Taxon], t.YardsHolding, Figures.Told(t.CoverSquareMetres)))
            .OrderByDescending(l => l.Yards).ThenByDescending(l => l.CoverSquareMetres)];
    }
}
