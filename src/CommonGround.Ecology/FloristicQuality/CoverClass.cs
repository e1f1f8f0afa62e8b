namespace CommonGround.Ecology.FloristicQuality;

/// <summary>A class of a cover scale and the cover it stands for.</summary>
/// <param name="Code">As field sheets write it: <c>+</c>, <c>2a</c>, <c>5</c>.</param>
/// <param name="MidpointPercent">Cover used in arithmetic, %, 0–100.</param>
public readonly record struct CoverClass(string Code, double MidpointPercent);

/// <summary>Published cover scales: rough classes that walkers can agree on, and the percent cover each stands for.</summary>
/// <remarks>See docs/measures.md#cover-classes.</remarks>
public static class CoverScale
{
    private static readonly double[] s_dominBreaks = [0, 0.01, 0.1, 1, 5, 10, 25, 33, 50, 75, 90, 100];

    private static readonly string[] s_dominCodes = ["+", "1", "2", "3", "4", "5", "6", "7", "8", "9", "X"];

    /// <summary>Six classes, 0–5–25–50–75–95–100 %, with arithmetic midpoints.</summary>
    /// <remarks>Source: Daubenmire (1959); see docs/measures.md#cover-classes.</remarks>
    public static IReadOnlyList<CoverClass> Daubenmire { get; } =
        [new("1", 2.5), new("2", 15), new("3", 37.5), new("4", 62.5), new("5", 85), new("6", 97.5)];

    /// <summary>Ten classes of the North Carolina Vegetation Survey; the trace class is taken as 0.1 %.</summary>
    /// <remarks>Source: Peet, Wentworth and White (1998); see docs/measures.md#cover-classes.</remarks>
    public static IReadOnlyList<CoverClass> NorthCarolina { get; } =
    [
        new("1", 0.1), new("2", 0.5), new("3", 1.5), new("4", 3.5), new("5", 7.5),
        new("6", 17.5), new("7", 37.5), new("8", 62.5), new("9", 85), new("10", 97.5),
    ];

    /// <summary>The extended Braun-Blanquet scale with the whole-number percentages of European practice: class 4 is 68 %, not 62.5
    /// %.</summary>
    /// <remarks>Source: Braun-Blanquet scale as tabulated by the vegdata package; see docs/measures.md#cover-classes.</remarks>
    public static IReadOnlyList<CoverClass> BraunBlanquet { get; } =
    [
        new("r", 1), new("+", 2), new("1", 3), new("2m", 4), new("2a", 8),
        new("2b", 18), new("3", 38), new("4", 68), new("5", 88),
    ];

    /// <summary>The first Braun-Blanquet scale, in which class 2 is whole (5–25 %), with arithmetic midpoints.</summary>
    /// <remarks>Source: Mueller-Dombois and Ellenberg (1974), from memory; see docs/measures.md#cover-classes.</remarks>
    public static IReadOnlyList<CoverClass> BraunBlanquetOfFiveClasses { get; } =
        [new("+", 0.1), new("1", 2.5), new("2", 15), new("3", 37.5), new("4", 62.5), new("5", 87.5)];

    /// <summary>The percent cover that a class of a scale stands for.</summary>
    /// <param name="scale">One of the scales above.</param>
    /// <param name="code">The class as written on the sheet.</param>
    /// <returns>%, 0–100; <c>null</c> for a code the scale does not have.</returns>
    /// <remarks>See docs/measures.md#cover-classes.</remarks>
    public static double? MidpointPercent(IReadOnlyList<CoverClass> scale, string code)
    {
        ArgumentNullException.ThrowIfNull(scale);
        foreach (var cover in scale)
        {
            if (string.Equals(cover.Code, code, StringComparison.Ordinal))
            {
                return cover.MidpointPercent;
            }
        }

        return null;
    }

    /// <summary>The Domin class of a percent cover; classes include their lower bound: + 0, 1 from 0.01, 2 from 0.1, 3 from 1, 4 from 5, 5
    /// from 10, 6 from 25, 7 from 33, 8 from 50, 9 from 75, X from 90.</summary>
    /// <param name="percent">%, above 0 to 100.</param>
    /// <returns>The class; <c>null</c> for 0: what does not grow has no class.</returns>
    /// <remarks>Source: break points of the Domin scale as the vegan package uses them; see docs/measures.md#cover-classes.</remarks>
    public static string? DominClass(double percent)
    {
        if (!(percent is >= 0 and <= 100))
        {
            throw new ArgumentOutOfRangeException(nameof(percent), percent, "Cover is 0 to 100 %.");
        }

        return percent == 0 ? null : s_dominCodes[Math.Min(Array.FindLastIndex(s_dominBreaks, b => percent >= b), s_dominCodes.Length - 1)];
    }
}
