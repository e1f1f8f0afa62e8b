namespace CommonGround.Ecology.Phenology;

/// <summary>The half-months that count for bloom coverage, all ends included, 0–23, never wrapping.</summary>
/// <param name="First">First half-month of the season.</param>
/// <param name="Last">Last half-month of the season.</param>
/// <param name="LateFrom">First half-month of the late season, which ends with the season.</param>
/// <param name="Norm">Native taxa in flower that cover a half-month; three is the usual norm.</param>
public sealed record Season(int First, int Last, int LateFrom, int Norm)
{
    /// <summary>April 1–October 31, late from August 16, three taxa.</summary>
    public static Season Default { get; } = new(6, 19, 15, 3);

    /// <summary>Whether half-month <paramref name="t"/> (0–23) counts.</summary>
    public bool Holds(int t) => t >= First && t <= Last;
}
