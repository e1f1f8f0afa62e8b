using CommonGround.Ecology.Phenology;

namespace CommonGround.Ecology.Taxa;

/// <summary>A value held against a second source: where the two disagree it is doubtful, and is taken at its safe end.</summary>
/// <remarks>
/// The limits are a convention of this project, explained in docs/catalogue.md: a factor of 1.4 for sizes, one month at either end for a
/// season.
/// </remarks>
public static class SecondSource
{
    /// <summary>Two sizes that differ by more than this factor disagree; 1.</summary>
    public const double Limit = 1.4;

    /// <summary>How far a bloom window may reach beyond published months, half-months.</summary>
    public const int LimitHalfMonths = 2;

    /// <summary>Whether two sizes differ by more than <see cref="Limit"/> times, whichever is the larger.</summary>
    /// <param name="first">Above 0, in any unit.</param>
    /// <param name="second">Above 0, in the same unit.</param>
    public static bool Disagree(double first, double second) => Math.Max(first, second) > Limit * Math.Min(first, second) * (1 + 1e-9);

    /// <summary>What a limit reckons with: the larger of two sizes that disagree, else the first; <c>null</c> where the first is not
    /// known.</summary>
    public static double? ForLimits(double? first, double? second) => first is { } one && second is { } two && Disagree(one, two)
        ? Math.Max(one, two) : first;

    /// <summary>Whether the height of a taxon is doubtful.</summary>
    public static bool HeightIsDoubtful(CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        return taxon is { HeightMaxMetres: { } first, HeightSecondMetres: { } second } && Disagree(first, second);
    }

    /// <summary>Whether a bloom window has no half-month in common with the published months, or reaches more than a month beyond them at
    /// either end.</summary>
    /// <remarks>A window inside the published months is sound: a flora covers a wide country, and its months are wide for it.</remarks>
    public static bool BloomIsDoubtful(CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        if (taxon is not { Bloom: { } window, BloomSecond: { } published }) return false;
        if (!Enumerable.Range(0, HalfMonth.Count).Any(t => window.Contains(t) && published.Contains(t))) return true;
        return Before(window.Start, published) > LimitHalfMonths || After(window.End, published) > LimitHalfMonths;
    }

    /// <summary>Half-months from <paramref name="t"/> forward to the published start; 0 when it lies inside.</summary>
    private static int Before(int t, BloomWindow published) => published.Contains(t) ? 0 : Wrap(published.Start - t);

    private static int After(int t, BloomWindow published) => published.Contains(t) ? 0 : Wrap(t - published.End);

    private static int Wrap(int halfMonths) => ((halfMonths % HalfMonth.Count) + HalfMonth.Count) % HalfMonth.Count;
}
