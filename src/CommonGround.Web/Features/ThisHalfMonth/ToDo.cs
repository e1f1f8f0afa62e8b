using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Features.ThisHalfMonth;

/// <summary>An unwanted plant whose usual control window is open.</summary>
/// <param name="Until">Last day of the window.</param>
/// <param name="AreaSquareMetres">Null where fewer than three yards have it: the public is not told how much.</param>
/// <param name="Places">Blocks it stands on, the largest first; for the public those where three yards have it.</param>
public sealed record ControlTask(CatalogueTaxon Taxon, double? AreaSquareMetres, DateOnly Until, IReadOnlyList<string> Places,
    double Pressure);

/// <summary>What the half-month asks for, from the open infestations and the catalogue's control windows.</summary>
public static class ToDo
{
    public static IReadOnlyList<ControlTask> Controls(Figures figures, int half, DateOnly today, bool organiser)
    {
        var matrix = figures.Matrix;
        return [.. matrix.Infestations
            .Where(i => Open(matrix.Taxa[i.Taxon], half))
            // A block of fewer than three yards is named to organisers only.
            .Where(i => organiser || figures.Shown.Contains(i.Block))
            .GroupBy(i => i.Taxon)
            .Select(g => Task(g.Key, [.. g], figures, half, today, organiser))
            .OrderByDescending(t => t.Pressure)];
    }

    private static bool Open(CatalogueTaxon taxon, int half) =>
        taxon is { ControlStart: { } from, ControlEnd: { } to } && new BloomWindow(from, to).Contains(half);

    private static ControlTask Task(int taxon, List<Infestation> places, Figures figures, int half, DateOnly today, bool organiser)
    {
        var matrix = figures.Matrix;
        var entry = matrix.Taxa[taxon];
        var end = entry.ControlEnd!.Value;
        var until = HalfMonth.LastDay(end, end >= half ? today.Year : today.Year + 1);
        var blocks = places.Where(p => p.Block >= 0).GroupBy(p => p.Block).Where(g => organiser || HidesAYard(g))
            .OrderByDescending(g => g.Sum(p => p.AreaSquareMetres)).Select(g => figures.BlockName(g.Key)).ToList();
        return new ControlTask(entry, organiser || HidesAYard(places) ? figures.Told(places.Sum(p => p.AreaSquareMetres)) : null, until,
            blocks, places.Sum(p => InvasivePressure.SourceSquareMetres(p, matrix, figures.Convention)));
    }

    /// <summary>Whether nobody can tell whose it is: it stands in no yard, or in three or more.</summary>
    private static bool HidesAYard(IEnumerable<Infestation> places) =>
        places.Select(p => p.YardId).OfType<long>().Distinct().Count() is 0 or >= Figures.YardsToShow;
}
