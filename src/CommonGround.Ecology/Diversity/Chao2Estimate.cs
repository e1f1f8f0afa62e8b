namespace CommonGround.Ecology.Diversity;

/// <summary>How many taxa there probably are in all, the overlooked ones included, judged by how many were met in only one or two
/// places.</summary>
/// <param name="Observed">Taxa met, S.</param>
/// <param name="Value">Estimated taxa, at least <paramref name="Observed"/>.</param>
/// <param name="Variance">Variance of <paramref name="Value"/>, taxa², 0 or more.</param>
/// <param name="Lower">Lower end of the 95 % interval, taxa; never below <paramref name="Observed"/>.</param>
/// <param name="Upper">Upper end of the 95 % interval, taxa.</param>
/// <remarks>Source: Chao (1987); see docs/measures.md#chao2.</remarks>
public sealed record Chao2Estimate(int Observed, double Value, double Variance, double Lower, double Upper)
{
    /// <summary>Standard error, taxa: the square root of <see cref="Variance"/>.</summary>
    public double StandardError => Math.Sqrt(Variance);

    /// <summary>Chao2 with the factor A = (n−1)/n: S + A·Q₁²/(2Q₂), or S + A·Q₁(Q₁−1)/2 when no taxon was met exactly twice.</summary>
    /// <param name="holding">Sampling units that hold each taxon: one entry per taxon, each 0 to <paramref name="units"/>, order
    /// irrelevant.</param>
    /// <param name="units">Number n of sampling units (yards or plots), empty ones included.</param>
    /// <returns><c>null</c> with fewer than two units or when nothing was met.</returns>
    /// <remarks>
    /// Q₁ and Q₂ are the taxa met in exactly one and two units. The 95 % interval is log-normal: with T = Value − S and K = exp(1.96 √ln(1
    /// + Variance/T²)) it runs from S + T/K to S + T·K, and is S to S when T = 0. Source: Chao (1987); small-sample form and variance:
    /// Gotelli and Colwell (2011); see docs/measures.md#chao2.
    /// </remarks>
    public static Chao2Estimate? Of(IReadOnlyCollection<int> holding, int units) => Estimate(holding, units, units < 2 ? 0
        : (units - 1.0) / units);

    /// <summary>Chao2 without the small-sample factor (A = 1), as older papers print it: S + Q₁²/(2Q₂).</summary>
    /// <param name="holding">Sampling units that hold each taxon: one entry per taxon, each 0 to <paramref name="units"/>, order
    /// irrelevant.</param>
    /// <param name="units">Number n of sampling units, empty ones included.</param>
    /// <returns><c>null</c> with fewer than two units or when nothing was met.</returns>
    /// <remarks>Source: Chao (1987); see docs/measures.md#chao2.</remarks>
    public static Chao2Estimate? WithoutSmallSampleFactor(IReadOnlyCollection<int> holding, int units) => Estimate(holding, units, 1);

    internal static Chao2Estimate? FromCounts(int observed, int inOne, int inTwo, int units) =>
        units < 2 || observed == 0 ? null : Estimate(observed, inOne, inTwo, (units - 1.0) / units);

    private static Chao2Estimate? Estimate(IReadOnlyCollection<int> holding, int units, double factor)
    {
        ArgumentNullException.ThrowIfNull(holding);
        ArgumentOutOfRangeException.ThrowIfNegative(units);
        foreach (var count in holding)
        {
            if (count < 0 || count > units)
            {
                throw new ArgumentOutOfRangeException(nameof(holding), count, "A taxon is held by 0 to all of the sampling units.");
            }
        }

        var observed = holding.Count(h => h > 0);
        return units < 2 || observed == 0
            ? null
            : Estimate(observed, holding.Count(h => h == 1), holding.Count(h => h == 2), factor);
    }

    private static Chao2Estimate Estimate(int observed, double inOne, double inTwo, double factor)
    {
        double extra, variance;
        if (inTwo > 0)
        {
            var ratio = inOne / inTwo;
            extra = factor * inOne * inOne / (2 * inTwo);
            variance = inTwo * ((factor / 2 * Math.Pow(ratio, 2)) + (factor * factor * Math.Pow(ratio, 3))
                + (factor * factor / 4 * Math.Pow(ratio, 4)));
        }
        else
        {
            extra = factor * inOne * (inOne - 1) / 2;
            variance = (factor * inOne * (inOne - 1) / 2)
                + (factor * factor * inOne * Math.Pow((2 * inOne) - 1, 2) / 4)
                - (factor * factor * Math.Pow(inOne, 4) / (4 * (observed + extra)));
        }

        variance = extra > 0 ? Math.Max(0, variance) : 0;
        if (extra == 0)
        {
            return new(observed, observed, 0, observed, observed);
        }

        var k = Math.Exp(1.96 * Math.Sqrt(Math.Log(1 + (variance / (extra * extra)))));
        return new(observed, observed + extra, variance, observed + (extra / k), observed + (extra * k));
    }
}
