using CommonGround.Ecology.Phenology;
using CommonGround.Interchange.Walks;

namespace CommonGround.Walk;

/// <summary>The answers that lie under the thumb. Their places never change.</summary>
public enum Answer { InFlower, Finished, StillHere, NotSure, NotFound, Gone }

/// <summary>A planting on the walk's list.</summary>
public sealed record WalkItem(WalkBed Bed, WalkPlant Plant)
{
    /// <summary>Tells this planting's notes from those of others.</summary>
    public string Key => $"{Bed.Id}|{Plant.Taxon}|{Plant.Patch}";

    /// <summary>What the calendar lets one expect; the walker sees what is.</summary>
    /// <param name="halfMonth">0–23.</param>
    public Answer Expected(int halfMonth) => Plant.Bloom is not { } bloom ? Answer.StillHere
        : bloom.Contains(halfMonth) ? Answer.InFlower
        : bloom.Start <= bloom.End && halfMonth > bloom.End ? Answer.Finished
        : Answer.StillHere;

    /// <summary>The walk's order: by bed; in it what should show now, then what comes, then what is over, and last what nobody has seen
    /// for long.</summary>
    public static IReadOnlyList<WalkItem> InOrder(WalkYard yard, int halfMonth)
    {
        ArgumentNullException.ThrowIfNull(yard);
        return [.. yard.Beds.SelectMany(b => b.Plants.Select(p => new WalkItem(b, p)).OrderBy(i => Rank(i, halfMonth))
            .ThenBy(i => i.Plant.CommonName, StringComparer.Ordinal))];
    }

    private static int Rank(WalkItem item, int halfMonth) => item.Plant.Old ? 3
        : item.Expected(halfMonth) switch { Answer.InFlower => 0, Answer.StillHere => 1, _ => 2 };
}
