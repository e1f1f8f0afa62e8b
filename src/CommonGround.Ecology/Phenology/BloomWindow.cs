namespace CommonGround.Ecology.Phenology;

/// <summary>A run of half-months, both ends included, that may wrap past December (start 22, end 1 is 1 December–31 January's first half).</summary>
public readonly record struct BloomWindow
{
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
}
