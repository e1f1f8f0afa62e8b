namespace CommonGround.Ecology.Phenology;

/// <summary>A bloom window that a neighbourhood's own records give.</summary>
/// <param name="Window">In half-months, both ends included.</param>
/// <param name="FirstDay">First day in flower of an ordinary yard in an ordinary year, day of the year 1–365.</param>
/// <param name="FirstDaySd">How sure that is: standard deviation, days.</param>
/// <param name="LastDay">Last day in flower, day of the year.</param>
/// <param name="LastDaySd">Standard deviation, days.</param>
/// <param name="Yards">Yards in which it was seen in flower.</param>
/// <param name="FirstYear">First year of it.</param>
/// <param name="LastYear">Last year of it.</param>
public sealed record OwnBloomWindow(BloomWindow Window, double FirstDay, double FirstDaySd, double LastDay, double LastDaySd, int Yards,
    int FirstYear, int LastYear);

/// <summary>
/// A taxon's first and last day in flower from a group's own looks, drawn towards the catalogue's dates: few looks hardly move them, many
/// take over.
/// </summary>
/// <remarks>
/// The first day of yard i in year y is μ + warmth(y) + b(y) + e(i,y), with μ ~ N(first day of the catalogue's window, 14²), b ~ N(0, 6²),
/// e ~ N(0, 7²), days. A look says only that the day lies before or after it: the likelihood is Φ((first look in flower − m)/7) − Φ((last
/// look before − m)/7), one per yard and year, of which one in a hundred may be wrong; a look without one on its other side counts only
/// where it contradicts the usual day, because people note flowers more readily than their absence. The last day goes the same way. The
/// posterior mean is taken on a grid of days. The three spreads are our own convention (two weeks either way are what Hopkins' law is
/// trusted to). Interval-censored likelihood: Turnbull 1976 (from memory). See docs/measures.md#own-bloom-windows.
/// </remarks>
public static class OwnBloom
{
    /// <summary>Fewer yards in flower give no window: neither enough to go by, nor enough to keep a household's own dates its
    /// own.</summary>
    public const int FewestYards = 3;

    /// <summary>One year may be an odd one.</summary>
    public const int FewestYears = 2;

    /// <summary>Spread of the catalogue's date about the true one of the place, days.</summary>
    public const double CatalogueSd = 14;

    /// <summary>Spread of a year about the ordinary one, beyond what its warmth explains, days.</summary>
    public const double YearSd = 6;

    /// <summary>Spread of yards within a year, days.</summary>
    public const double YardSd = 7;

    private const double Wrong = 0.01;
    private const double NearestDays = 7;
    private const int Reach = 56;
    private const int YearReach = 18;
    private const int YearStep = 3;
    private static readonly double[] s_below = [.. Enumerable.Range(-Far, (2 * Far) + 1).Select(d => Below(d / YardSd))];
    private static readonly double[] s_years = Weights();

    // Ten spreads away nothing is left to tell.
    private const int Far = 80;

    /// <summary>The neighbourhood's own window.</summary>
    /// <param name="usual">The catalogue's, as it holds at the place.</param>
    /// <param name="looks">Of all yards that may count, any order.</param>
    /// <param name="warmthDays">Year → days that its warmth made bloom later at a day of the year; <c>null</c> where no temperatures are
    /// kept. 0 where one year's are not.</param>
    /// <returns><c>null</c> with fewer than three yards or two years in flower, and for a window that wraps past December: the catalogue's
    /// then stands.</returns>
    public static OwnBloomWindow? Estimate(BloomWindow usual, IEnumerable<BloomLook> looks, Func<int, int, double>? warmthDays = null)
    {
        ArgumentNullException.ThrowIfNull(looks);
        if (usual.End < usual.Start)
        {
            return null;
        }

        var bloom = ObservedFlowering.ByYardAndYear(usual, looks);
        var seen = bloom.Where(b => b.First is not null).ToList();
        if (seen.Select(b => b.Yard).Distinct().Count() < FewestYards || seen.Select(b => b.Year).Distinct().Count() < FewestYears)
        {
            return null;
        }

        double start = HalfMonth.FirstDay(usual.Start, 2025).DayOfYear, end = HalfMonth.LastDay(usual.End, 2025).DayOfYear;
        var first = Posterior(start, bloom.GroupBy(b => b.Year).Select(y => new YearOfEnds(
            Warmth(y.Key, start), [.. y.Select(b => (After: Day(b.NotYet), By: Day(b.First ?? b.Over))).Where(e => Tells(e, start))])));
        var last = Posterior(end, bloom.GroupBy(b => b.Year).Select(y => new YearOfEnds(
            Warmth(y.Key, end), [.. y.Select(b => (After: Day(b.Last is { } l ? l.AddDays(-1) : b.NotYet), By: Day(b.Over)))
                .Where(e => Tells(e, end))])));
        // The half-month whose first, or last, day lies nearest.
        var from = HalfMonthOf(first.Mean + NearestDays);
        var to = Math.Max(from, HalfMonthOf(last.Mean - NearestDays));
        return new(new BloomWindow(from, to), first.Mean, first.Sd, last.Mean, last.Sd, seen.Select(b => b.Yard).Distinct().Count(),
            seen.Min(b => b.Year), seen.Max(b => b.Year));

        double Warmth(int year, double day) => warmthDays?.Invoke(year, (int)day) ?? 0;
    }

    /// <summary>A look without one on its other side counts only where it contradicts the usual day: people note flowers more readily than
    /// their absence.</summary>
    private static bool Tells((int? After, int? By) ends, double usual) => ends switch
    {
        (null, null) => false,
        (null, { } by) => by < usual,
        ({ } after, null) => after >= usual,
        _ => true,
    };

    /// <summary>Mean and spread of μ given all years.</summary>
    private static (double Mean, double Sd) Posterior(double usual, IEnumerable<YearOfEnds> years)
    {
        var middle = (int)Math.Round(usual);
        var log = new double[(2 * Reach) + 1];
        for (var i = 0; i < log.Length; i++)
        {
            var z = (middle - Reach + i - usual) / CatalogueSd;
            log[i] = -0.5 * z * z;
        }

        foreach (var year in years)
        {
            Add(log, middle - Reach, year);
        }

        var top = log.Max();
        double sum = 0, mean = 0, square = 0;
        for (var i = 0; i < log.Length; i++)
        {
            var p = Math.Exp(log[i] - top);
            var day = (double)(middle - Reach + i);
            (sum, mean, square) = (sum + p, mean + (p * day), square + (p * day * day));
        }

        mean /= sum;
        return (mean, Math.Sqrt(Math.Max(0, (square / sum) - (mean * mean))));
    }

    /// <summary>One year's yards share the year's own deviation, which is summed over.</summary>
    private static void Add(double[] log, int from, YearOfEnds year)
    {
        var shift = (int)Math.Round(year.Warmth);
        var wide = new double[log.Length + (2 * YearReach)];
        for (var i = 0; i < wide.Length; i++)
        {
            var day = from - YearReach + i + shift;
            double likelihood = 0;
            foreach (var (after, by) in year.Yards)
            {
                var p = (by is { } b ? BelowDays(b - day) : 1) - (after is { } a ? BelowDays(a - day) : 0);
                likelihood += Math.Log(((1 - Wrong) * Math.Max(0, p)) + Wrong);
            }

            wide[i] = likelihood;
        }

        for (var i = 0; i < log.Length; i++)
        {
            double sum = 0;
            for (var b = 0; b < s_years.Length; b++)
            {
                sum += s_years[b] * Math.Exp(wide[i + (b * YearStep)]);
            }

            log[i] += Math.Log(sum);
        }
    }

    private static int HalfMonthOf(double day) =>
        HalfMonth.Of(new DateOnly(2025, 1, 1).AddDays((int)Math.Clamp(Math.Round(day), 1, 365) - 1));

    private static int? Day(DateOnly? on) => on?.DayOfYear;

    private static double BelowDays(int days) => s_below[Math.Clamp(days, -Far, Far) + Far];

    private static double[] Weights()
    {
        var raw = Enumerable.Range(0, (2 * YearReach / YearStep) + 1).Select(i => ((i * YearStep) - YearReach) / YearSd)
            .Select(z => Math.Exp(-0.5 * z * z)).ToArray();
        return [.. raw.Select(w => w / raw.Sum())];
    }

    /// <summary>The normal distribution below z, to 1.5·10⁻⁷: Abramowitz and Stegun 1964, 7.1.26.</summary>
    private static double Below(double z)
    {
        var x = Math.Abs(z) / Math.Sqrt(2);
        var t = 1 / (1 + (0.3275911 * x));
        var tail = t * (0.254829592 + (t * (-0.284496736 + (t * (1.421413741 + (t * (-1.453152027 + (t * 1.061405429))))))))
            * Math.Exp(-x * x);
        return z >= 0 ? 1 - (tail / 2) : tail / 2;
    }

    private sealed record YearOfEnds(double Warmth, IReadOnlyList<(int? After, int? By)> Yards);
}
