using CommonGround.Ecology.Phenology;

namespace CommonGround.Ecology.Invasives;

/// <summary>A look at a place: how much of the plant was there; 0 when it was looked for and not found.</summary>
public readonly record struct CaseLook(DateOnly On, double AreaSquareMetres);

/// <summary>What a case asks for next.</summary>
public enum CaseState
{
    /// <summary>The plant stands there: treat it in its window.</summary>
    Open,

    /// <summary>Not found of late: look once a year until the seed in the soil is gone.</summary>
    Resting,

    /// <summary>Somebody closed it.</summary>
    Closed,
}

/// <summary>How a case stands.</summary>
/// <param name="DueFrom">First day on which the next step can be taken; <c>null</c> once closed or where the calendar has no
/// window.</param>
/// <param name="DueTo">Last day.</param>
/// <param name="Methods">Methods that can be used then, none for a look.</param>
/// <param name="OverdueSince">Last day of the first chance that was missed; <c>null</c> where none was.</param>
/// <param name="LastFound">When it was last seen.</param>
/// <param name="ManagersUntil">Year up to which managers go on looking; <c>null</c> where no years are told.</param>
/// <param name="SeedUntil">Year in which 5 % of the seed is left; <c>null</c> where no half-life is published.</param>
public sealed record CaseStanding(CaseState State, DateOnly? DueFrom, DateOnly? DueTo, IReadOnlyList<ControlMethod> Methods,
    DateOnly? OverdueSince,
    DateOnly LastFound, int? ManagersUntil, int? SeedUntil)
{
    /// <summary>A chance to treat it, or to look, was missed.</summary>
    public bool IsOverdue => OverdueSince is not null;

    /// <summary>Last day of each of <see cref="Methods"/>, in the same order; the latest is <see cref="DueTo"/>.</summary>
    public IReadOnlyList<DateOnly> Until { get; init; } = [];

    /// <summary>Why it is named before it is treated; empty where its name is enough or it does not stand there.</summary>
    public string NameFirst { get; init; } = "";

    /// <summary>Whether the years that seed lasts, or else managers ask, are over and the last look found nothing.</summary>
    public bool MayEnd(DateOnly today) => State == CaseState.Resting && today.Year > (SeedUntil ?? ManagersUntil ?? int.MaxValue);
}

/// <summary>What has happened in a case, and what the calendar says of the plant.</summary>
/// <param name="Looks">At least one that found it, any order.</param>
/// <param name="Treatments">Days it was treated.</param>
/// <param name="MovedTo">The day somebody put the next step off to, and when they did; <c>null</c> where nobody did.</param>
/// <param name="IsClosed">Somebody closed it.</param>
/// <param name="DaysLater">How much later this year is than an ordinary one, days; negative is earlier.</param>
public sealed record CaseHistory(IReadOnlyList<CaseLook> Looks, IReadOnlyList<DateOnly> Treatments, (DateOnly Said,
    DateOnly Until)? MovedTo,
    bool IsClosed, int DaysLater);

/// <summary>Works out when a case is due: treatment in the plant's own windows, then a look a year until the seed is gone.</summary>
/// <remarks>See docs/measures.md#case-due-dates.</remarks>
public static class CaseCourse
{
    /// <summary>How a case stands on a day.</summary>
    /// <param name="history">What happened; at least one look that found the plant.</param>
    /// <param name="taxon">The plant's calendar; <c>null</c> where the calendar does not hold it.</param>
    /// <param name="today">The group's day.</param>
    /// <remarks>
    /// While the last look found it: the first window of a method by hand (of any advised one where none is by hand) that ends on or after
    /// the last look; a treatment uses up the window it fell into. Methods whose own window has ended are no longer among its methods.
    /// Windows are moved by the year's warmth. Once a look finds none: the half-months of flower in the year after it. Whatever somebody
    /// put it off to goes before, until something is recorded after they said so. See docs/measures.md#case-due-dates.
    /// </remarks>
    public static CaseStanding Of(CaseHistory history, UnwantedTaxon? taxon, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(history);
        var looks = history.Looks.Where(l => l.On <= today).OrderBy(l => l.On).ToList();
        if (!looks.Exists(l => l.AreaSquareMetres > 0))
        {
            throw new ArgumentException("A case begins with a look that found the plant.", nameof(history));
        }

        var found = looks.FindLast(l => l.AreaSquareMetres > 0).On;
        var last = looks[^1];
        int? managers = taxon?.ManagersYears is { } years ? found.Year + years : null;
        int? seed = taxon?.SeedYears is { } bank ? found.Year + bank : null;
        if (history.IsClosed)
        {
            return new(CaseState.Closed, null, null, [], null, found, managers, seed);
        }

        var treated = history.Treatments.Where(t => t <= today).Select(t => (DateOnly?)t).Max();
        var isOpen = last.AreaSquareMetres > 0;
        var next = isOpen ? Treat(taxon, last.On, treated >= last.On ? treated : null, history.DaysLater)
            : Look(taxon, last.On);
        if (history.MovedTo is { } moved && moved.Said >= last.On && (treated is null || moved.Said >= treated))
        {
            var end = HalfMonth.LastDay(HalfMonth.Of(moved.Until), moved.Until.Year);
            next = (moved.Until, end, [.. (taxon?.Timed ?? []).Where(m => isOpen && m.IsOpen(HalfMonth.Of(moved.Until)))
                .Select(m => (m.Method, end))]);
        }

        // What was missed stays said; what can be done is the next chance.
        DateOnly? missed = next?.To < today ? next.Value.To : null;
        if (missed is not null)
        {
            next = isOpen ? Treat(taxon, today, treated >= last.On ? treated : null, history.DaysLater) : Look(taxon, today.AddYears(-1));
            next = next?.To < today ? Look(taxon, today) : next;
        }

        var methods = (next?.Methods ?? []).Where(m => m.To >= today).ToList();
        return new(isOpen ? CaseState.Open : CaseState.Resting, next?.From, next?.To, [.. methods.Select(m => m.Method)], missed, found,
            managers, seed)
        {
            Until = [.. methods.Select(m => m.To)],
            NameFirst = isOpen ? taxon?.NameFirst ?? "" : "",
        };
    }

    /// <summary>The first window that is not used up; windows open on its first day are its other methods, each to its end.</summary>
    private static (DateOnly From, DateOnly To, IReadOnlyList<(ControlMethod Method, DateOnly To)> Methods)? Treat(UnwantedTaxon? taxon,
        DateOnly seen, DateOnly? treated, int daysLater)
    {
        var windows = (taxon?.Timed ?? []).SelectMany(m => m.Windows
            .SelectMany(w => Enumerable.Range(seen.Year - 1, 4).Select(y => Days(w, y, daysLater)))
            .Where(w => w.To >= seen && !(treated >= w.From && treated <= w.To) && !(treated > w.To))
            .Select(w => (w.From, w.To, m.Method))).ToList();
        if (treated is { } day)
        {
            // One treatment is enough for all methods whose season it fell into.
            windows.RemoveAll(w => w.From <= day);
        }

        if (windows.Count == 0)
        {
            return null;
        }

        var first = windows.Min(w => w.From);
        var start = first > seen ? first : seen;
        var open = windows.Where(w => w.From <= start && w.To >= start).ToList();
        return (start, open.Max(w => w.To), [.. open.GroupBy(w => w.Method).OrderBy(g => g.Key).Select(g => (g.Key, g.Max(w => w.To)))]);
    }

    private static (DateOnly From, DateOnly To, IReadOnlyList<(ControlMethod Method, DateOnly To)> Methods)? Look(UnwantedTaxon? taxon,
        DateOnly last)
    {
        var (from, to) = Days(taxon?.Marks?.Flowering ?? new BloomWindow(8, 9), last.Year + 1, 0);
        return (from, to, []);
    }

    private static (DateOnly From, DateOnly To) Days(BloomWindow window, int year, int daysLater) =>
        (HalfMonth.FirstDay(window.Start, year).AddDays(daysLater),
        HalfMonth.LastDay(window.End, window.End < window.Start ? year + 1 : year).AddDays(daysLater));
}
