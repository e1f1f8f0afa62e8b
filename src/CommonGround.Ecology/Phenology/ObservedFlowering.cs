namespace CommonGround.Ecology.Phenology;

/// <summary>A dated look at one taxon in one yard.</summary>
/// <param name="Yard">Any number that tells yards apart.</param>
/// <param name="On">The day.</param>
/// <param name="GrowthStage">BBCH principal stage 0–9.</param>
public readonly record struct BloomLook(long Yard, DateOnly On, int GrowthStage);

/// <summary>What the looks of one yard and year say of a taxon's bloom. Each end lies between two looks, or is open on one side.</summary>
/// <param name="Yard">The yard.</param>
/// <param name="Year">The calendar year.</param>
/// <param name="NotYet">Last look before bloom that found leaves or buds; <c>null</c> where nobody looked.</param>
/// <param name="First">First look that found it in flower; <c>null</c> where none did.</param>
/// <param name="Last">Last look that found it in flower.</param>
/// <param name="Over">First look after bloom that found ripe fruit or dying leaves; <c>null</c> where nobody looked. Fruit forming does not
/// say that the last flower is gone.</param>
public sealed record YardBloom(long Yard, int Year, DateOnly? NotYet, DateOnly? First, DateOnly? Last, DateOnly? Over);

/// <summary>First and last bloom as people saw them.</summary>
/// <remarks>
/// The first look that finds flowers comes after the true first day, and the last one before the true last day: with a look every two weeks
/// by a week on average. So the looks around it are kept as well. See docs/measures.md#observed-flowering.
/// </remarks>
public static class ObservedFlowering
{
    private const int FruitForming = 7;

    /// <summary>Sorts looks into one record a yard and year.</summary>
    /// <param name="usual">The usual window. Leaves seen after its end are new growth, ripe fruit or dying leaves before its start are last
    /// year's: both say nothing of bloom.</param>
    /// <param name="looks">Any number, any order.</param>
    /// <returns>By year, then yard; without years and yards of which nothing can be said.</returns>
    /// <remarks>See docs/measures.md#observed-flowering.</remarks>
    public static IReadOnlyList<YardBloom> ByYardAndYear(BloomWindow? usual, IEnumerable<BloomLook> looks)
    {
        ArgumentNullException.ThrowIfNull(looks);
        return [.. looks.GroupBy(l => (l.On.Year, l.Yard)).OrderBy(g => g.Key)
            .Select(g => Of(g.Key.Yard, g.Key.Year, usual, [.. g]))
            .Where(y => (y.NotYet ?? y.First ?? y.Over) is not null)];
    }

    /// <summary>Days by which a first look in flower lies after the first day of the usual window; below 0 before it.</summary>
    public static int DaysAfterUsualStart(DateOnly first, BloomWindow usual) => first.DayNumber - HalfMonth.FirstDay(usual.Start,
        first.Year).DayNumber;

    /// <summary>Days by which a last look in flower lies after the last day of the usual window; below 0 before it.</summary>
    public static int DaysAfterUsualEnd(DateOnly last, BloomWindow usual) => last.DayNumber - HalfMonth.LastDay(usual.End,
        last.Year).DayNumber;

    private static YardBloom Of(long yard, int year, BloomWindow? usual, IReadOnlyList<BloomLook> looks)
    {
        var wraps = usual is { } u && u.End < u.Start;
        var opens = usual is { } from && !wraps ? HalfMonth.FirstDay(from.Start, year) : DateOnly.MinValue;
        var closes = usual is { } to && !wraps ? HalfMonth.LastDay(to.End, year) : DateOnly.MaxValue;
        var flowers = looks.Where(l => l.GrowthStage == GrowthStage.Flowering).Select(l => l.On).ToList();
        DateOnly? first = flowers.Count > 0 ? flowers.Min() : null;
        DateOnly? last = flowers.Count > 0 ? flowers.Max() : null;
        var before = looks.Where(l => l.GrowthStage < GrowthStage.Flowering && l.On < (first ?? closes)).Select(l => (DateOnly?)l.On).Max();
        var after = looks.Where(l => l.GrowthStage > FruitForming && l.On > (last ?? opens)).Select(l => (DateOnly?)l.On).Min();
        // Without flowers in between, buds after fruit contradict each other: neither is believed.
        return before is { } b && after is { } a && b >= a ? new(yard, year, null, first, last, null)
            : new(yard, year, before, first, last, after);
    }
}
