namespace CommonGround.Ecology.Invasives;

/// <summary>How long seed in the soil keeps an unwanted plant coming back.</summary>
/// <remarks>See docs/measures.md#seed-bank.</remarks>
public static class SeedBank
{
    /// <summary>Share of the seed that must be left before follow-up may end: 5 %. Our own convention.</summary>
    public const double EnoughGone = 0.05;

    /// <summary>The share of seed in the soil that is still alive a year later: 2^(−1/h).</summary>
    /// <param name="halfLifeYears">Time in which half of it dies, years, above 0.</param>
    /// <returns>0 to 1, both excluded.</returns>
    /// <remarks>Exponential decay; see docs/measures.md#seed-bank.</remarks>
    public static double AnnualSurvival(double halfLifeYears)
    {
        if (!double.IsFinite(halfLifeYears) || halfLifeYears <= 0)
        {
            throw new ArgumentOutOfRangeException(nameof(halfLifeYears), halfLifeYears, "A half-life is above 0 years.");
        }

        return Math.Pow(2, -1 / halfLifeYears);
    }

    /// <summary>How many years to keep coming back after the last plant has seeded: ln 0.05 / ln σ, rounded up.</summary>
    /// <param name="annualSurvival">Share σ of seed alive a year later, 0 to below 1.</param>
    /// <returns>Whole years: 0 when no seed survives a year, else at least 1.</returns>
    /// <remarks>After that 5 % of the seed or less is left. See docs/measures.md#seed-bank.</remarks>
    public static int FollowUpYears(double annualSurvival)
    {
        if (!(annualSurvival is >= 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(annualSurvival), annualSurvival, "Annual survival is 0 to below 1.");
        }

        return annualSurvival == 0 ? 0 : (int)Math.Min(int.MaxValue, Math.Ceiling(Math.Log(EnoughGone) / Math.Log(annualSurvival)));
    }

    /// <summary>Follow-up years from the half-life of the seed.</summary>
    /// <param name="halfLifeYears">Years, above 0, or <c>null</c> when nobody knows it.</param>
    /// <returns>Whole years, at least 1; <c>null</c> when the half-life is not known.</returns>
    /// <remarks>See docs/measures.md#seed-bank.</remarks>
    public static int? FollowUpYearsForHalfLife(double? halfLifeYears) =>
        halfLifeYears is { } years ? Math.Max(1, FollowUpYears(AnnualSurvival(years))) : null;
}
