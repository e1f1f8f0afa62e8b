namespace CommonGround.Ecology.Diversity;

/// <summary>How many taxa to expect in a number of yards.</summary>
/// <param name="Units">Yards (sampling units) visited, 1 to all.</param>
/// <param name="Richness">Expected taxa.</param>
/// <param name="StandardDeviation">Spread between random choices of that many yards, taxa; 0 when all are taken.</param>
public readonly record struct AccumulationPoint(int Units, double Richness, double StandardDeviation);

/// <summary>The species accumulation curve: how fast new taxa turn up as more yards are walked, whatever the order of walking.</summary>
/// <remarks>
/// Exact expectation, no random draws: E(k) = Σᵢ (1 − qᵢ), qᵢ = C(n−nᵢ, k)/C(n, k), with nᵢ of n units holding taxon i. Variance: Σᵢ Vᵢ + 2
/// Σ over pairs rᵢⱼ √(Vᵢ Vⱼ), Vᵢ = qᵢ(1−qᵢ), with rᵢⱼ the correlation of presences over all units. Sources: Mao Tau: Colwell, Mao and Chang
/// (2004); this variance: Ugland, Gray and Ellingsen (2003), as the vegan package documents it. See docs/measures.md#accumulation.
/// </remarks>
public static class Accumulation
{
    /// <summary>The whole curve, from one unit to all.</summary>
    /// <param name="incidence">Which taxa are in which units.</param>
    /// <returns>n points; none without units; richness 0 throughout when nothing was met. Effort grows with n·S².</returns>
    /// <remarks>See docs/measures.md#accumulation.</remarks>
    public static IReadOnlyList<AccumulationPoint> Curve(Incidence incidence)
    {
        ArgumentNullException.ThrowIfNull(incidence);
        var correlations = Correlations(incidence);
        double[] missed = [.. incidence.Holding.Select(_ => 1.0)];
        var points = new AccumulationPoint[incidence.Units];
        for (var k = 1; k <= incidence.Units; k++)
        {
            MissOneMore(incidence, missed, k);
            points[k - 1] = Point(k, missed, correlations);
        }

        return points;
    }

    /// <summary>One point of the curve.</summary>
    /// <param name="incidence">Which taxa are in which units.</param>
    /// <param name="units">Number of units k, 1 to n.</param>
    /// <returns>Expected taxa and their standard deviation in k units.</returns>
    /// <remarks>See docs/measures.md#accumulation.</remarks>
    public static AccumulationPoint At(Incidence incidence, int units)
    {
        ArgumentNullException.ThrowIfNull(incidence);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(units);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(units, incidence.Units);
        double[] missed = [.. incidence.Holding.Select(_ => 1.0)];
        for (var k = 1; k <= units; k++)
        {
            MissOneMore(incidence, missed, k);
        }

        return Point(units, missed, Correlations(incidence));
    }

    // C(n−m, k)/C(n, k) from its value at k−1: the k-th unit drawn misses the taxon as well.
    private static void MissOneMore(Incidence incidence, double[] missed, int k)
    {
        for (var i = 0; i < missed.Length; i++)
        {
            missed[i] *= Math.Max(0, incidence.Units - incidence.Holding[i] - k + 1) / (double)(incidence.Units - k + 1);
        }
    }

    private static AccumulationPoint Point(int k, double[] missed, double[][] correlations)
    {
        double richness = 0, variance = 0;
        double[] deviations = [.. missed.Select(q => Math.Sqrt(q * (1 - q)))];
        for (var i = 0; i < missed.Length; i++)
        {
            richness += 1 - missed[i];
            variance += deviations[i] * deviations[i];
            for (var j = 0; j < i; j++)
            {
                variance += 2 * correlations[i][j] * deviations[i] * deviations[j];
            }
        }

        return new(k, richness, Math.Sqrt(Math.Max(0, variance)));
    }

    // Row i holds the correlations with taxa before i. A taxon that is everywhere correlates with nothing: its variance is 0 anyway.
    private static double[][] Correlations(Incidence incidence)
    {
        double n = incidence.Units;
        var rows = new double[incidence.Richness][];
        for (var i = 0; i < rows.Length; i++)
        {
            rows[i] = new double[i];
            var pi = incidence.Holding[i] / n;
            for (var j = 0; j < i; j++)
            {
                var pj = incidence.Holding[j] / n;
                var spread = Math.Sqrt(pi * (1 - pi) * pj * (1 - pj));
                rows[i][j] = spread > 0 ? ((incidence.HoldingBoth(i, j) / n) - (pi * pj)) / spread : 0;
            }
        }

        return rows;
    }
}
