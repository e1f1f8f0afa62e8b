using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Invasives;

namespace CommonGround.Web.Features.ThisHalfMonth;

/// <summary>An unwanted plant whose usual control window is open.</summary>
/// <param name="Until">Last day of the window.</param>
/// <param name="AreaSquareMetres">Null where fewer than three yards have it: the public is not told how much.</param>
/// <param name="Places">Blocks it stands on, the largest first; for the public those where three yards have it.</param>
public sealed record ControlTask(CatalogueTaxon Taxon, double? AreaSquareMetres, DateOnly Until, IReadOnlyList<string> Places,
    double Pressure)
{
    /// <summary>Why it is named before it is treated; empty where its name is enough.</summary>
    public string NameFirst => ControlCalendar.Of(Taxon.ScientificName)?.NameFirst ?? "";
}

/// <summary>What the half-month asks for, from the open infestations and the catalogue's control windows.</summary>
public static class ToDo
{
    public static IReadOnlyList<ControlTask> Controls(Figures figures, int half, DateOnly today, bool organiser)
    {
        var matrix = figures.Matrix;
        return [.. matrix.Infestations
            .Where(i => Windows(matrix.Taxa[i.Taxon], figures, half, today).Any())
            // A block of fewer than three yards is named to organisers only.
            .Where(i => organiser || figures.Shown.Contains(i.Block))
            .GroupBy(i => i.Taxon)
            .Select(g => Task(g.Key, [.. g], figures, half, today, organiser))
            .OrderByDescending(t => t.Pressure)];
    }

    /// <summary>The open windows by which its cases are due; the catalogue's, where the control calendar does not hold it.</summary>
    /// <returns>The last day of each.</returns>
    private static IEnumerable<DateOnly> Windows(CatalogueTaxon taxon, Figures figures, int half, DateOnly today)
    {
        IEnumerable<BloomWindow> windows = taxon is { ControlStart: { } from, ControlEnd: { } to } ? [new BloomWindow(from, to)] : [];
        var days = 0;
        if (ControlCalendar.Of(taxon.ScientificName) is { } calendar)
        {
            // Half-months of an ordinary year: this one may be ahead or behind.
            (windows, days) = (calendar.Timed.SelectMany(m => m.Windows), figures.Dates.WarmthDays ?? 0);
            half = half == HalfMonth.Of(today) ? HalfMonth.Of(today.AddDays(-days)) : half;
        }

        return windows.Where(w => w.Contains(half))
            .Select(w => HalfMonth.LastDay(w.End, w.End >= half ? today.Year : today.Year + 1).AddDays(days));
    }

    private static ControlTask Task(int taxon, List<Infestation> places, Figures figures, int half, DateOnly today, bool organiser)
    {
        var matrix = figures.Matrix;
        var entry = matrix.Taxa[taxon];
        var until = Windows(entry, figures, half, today).Max();
        var blocks = places.Where(p => p.Block >= 0).GroupBy(p => p.Block).Where(g => organiser || HidesAYard(g))
            .OrderByDescending(g => g.Sum(p => p.AreaSquareMetres)).Select(g => figures.BlockName(g.Key)).ToList();
        return new ControlTask(entry, organiser || HidesAYard(places) ? figures.Told(places.Sum(p => p.AreaSquareMetres)) : null, until,
            blocks, places.Sum(p => InvasivePressure.SourceSquareMetres(p, matrix, figures.Convention)));
    }

    /// <summary>Whether nobody can tell whose it is: it stands in no yard, or in three or more.</summary>
    private static bool HidesAYard(IEnumerable<Infestation> places) =>
        places.Select(p => p.YardId).OfType<long>().Distinct().Count() is 0 or >= Figures.YardsToShow;
}
