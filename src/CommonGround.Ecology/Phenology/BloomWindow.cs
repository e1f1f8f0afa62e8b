namespace CommonGround.Ecology.Phenology;

/// <summary>A run of half-months, both ends included, that may wrap past December (start 22, end 1 is December 1–January 31's first
/// half).</summary>
public readonly record struct BloomWindow
{
    /// <summary>A window from one half-month to another.</summary>
    /// <param name="start">First half-month in flower, 0–23.</param>
    /// <param name="end">Last half-month in flower, 0–23; before <paramref name="start"/> when the window wraps past December.</param>
    [System.Text.Json.Serialization.JsonConstructor]
    public BloomWindow(int start, int end)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(start);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(start, HalfMonth.Count);
        ArgumentOutOfRangeException.ThrowIfNegative(end);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(end, HalfMonth.Count);
        Start = start;
        End = end;
    }

    /// <summary>First half-month in flower, 0–23.</summary>
    public int Start { get; }

    /// <summary>Last half-month in flower, 0–23.</summary>
    public int End { get; }

    /// <summary>Whether half-month <paramref name="t"/> (0–23) lies in the window.</summary>
    public bool Contains(int t) => Start <= End ? t >= Start && t <= End : t >= Start || t <= End;

    /// <summary>The window moved by whole half-months, later when positive; it keeps its length and wraps past December.</summary>
    public BloomWindow Shifted(int halfMonths) => new(Wrap(Start + halfMonths), Wrap(End + halfMonths));

    private static int Wrap(int t) => ((t % HalfMonth.Count) + HalfMonth.Count) % HalfMonth.Count;
}
