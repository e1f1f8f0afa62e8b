using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Features.ThisHalfMonth;

/// <summary>An unwanted plant whose usual control window is open.</summary>
/// <param name="Until">Last day of the window.</param>
/// <param name="Places">Blocks it stands on, the largest first.</param>
public sealed record ControlTask(CatalogueTaxon Taxon, double AreaSquareMetres, DateOnly Until, IReadOnlyList<string> Places,
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
            .Select(g => Task(g.Key, [.. g], figures, half, today))
            .OrderByDescending(t => t.Pressure)];
    }

    private static bool Open(CatalogueTaxon taxon, int half) =>
        taxon is { ControlStart: { } from, ControlEnd: { } to } && new BloomWindow(from, to).Contains(half);

    private static ControlTask Task(int taxon, List<Infestation> places, Figures figures, int half, DateOnly today)
    {
        var matrix = figures.Matrix;
        var entry = matrix.Taxa[taxon];
        var end = entry.ControlEnd!.Value;
        var until = HalfMonth.LastDay(end, end >= half ? today.Year : today.Year + 1);
        var blocks = places.Where(p => p.Block >= 0).GroupBy(p => p.Block).OrderByDescending(g => g.Sum(p => p.AreaSquareMetres))
            .Select(g => figures.BlockName(g.Key)).ToList();
        return new ControlTask(entry, figures.Told(places.Sum(p => p.AreaSquareMetres)), until, blocks,
            places.Sum(p => InvasivePressure.SourceSquareMetres(p, matrix, figures.Convention)));
    }
}
