namespace CommonGround.Ecology.Phenology;

/// <summary>How much warmth a day gave to growth, from its lowest and highest temperature. Methods differ, so each is named.</summary>
/// <remarks>
/// Temperatures and thresholds are in one scale throughout (°C here; °F gives °F-days); results are degree-days, 0 or more. The highest
/// may not be below the lowest. See docs/measures.md#degree-days.
/// </remarks>
public static class DegreeDays
{
    /// <summary>Average, then zero: max(0, (Tmin+Tmax)/2 − base). Cold nights take away from warm days.</summary>
    /// <param name="minimum">Lowest temperature of the day, °C.</param>
    /// <param name="maximum">Highest temperature of the day, °C.</param>
    /// <param name="threshold">Base below which nothing grows, °C.</param>
    /// <returns>°C·days, 0 or more.</returns>
    /// <remarks>Source: McMaster and Wilhelm (1997), method 1; see docs/measures.md#degree-days.</remarks>
    public static double AverageThenZero(double minimum, double maximum, double threshold)
    {
        RequireRange(minimum, maximum);
        return Math.Max(0, ((minimum + maximum) / 2) - threshold);
    }

    /// <summary>Clip, then average: both temperatures are first raised to the base and, where given, lowered to the cap.</summary>
    /// <param name="minimum">Lowest temperature of the day, °C.</param>
    /// <param name="maximum">Highest temperature of the day, °C.</param>
    /// <param name="threshold">Base below which nothing grows, °C.</param>
    /// <param name="cap">Temperature above which growth gains nothing, °C, or <c>null</c>; 50 and 86 °F make the "86/50" method.</param>
    /// <returns>°C·days, 0 or more.</returns>
    /// <remarks>Source: McMaster and Wilhelm (1997), method 2; see docs/measures.md#degree-days.</remarks>
    public static double ClipThenAverage(double minimum, double maximum, double threshold, double? cap = null)
    {
        RequireRange(minimum, maximum);
        var top = cap ?? double.MaxValue;
        RequireThresholds(threshold, top);
        return ((Math.Clamp(minimum, threshold, top) + Math.Clamp(maximum, threshold, top)) / 2) - threshold;
    }

    /// <summary>The four-case rule of the British and Irish weather services.</summary>
    /// <param name="minimum">Lowest temperature of the day, °C.</param>
    /// <param name="maximum">Highest temperature of the day, °C.</param>
    /// <param name="threshold">Base, °C.</param>
    /// <returns>°C·days, 0 or more.</returns>
    /// <remarks>
    /// Always above the base: mean − base. Mostly above: (Tmax−base)/2 − (base−Tmin)/4. Mostly below: (Tmax−base)/4. Never above: 0.
    /// Source: Met Éireann, cases I–IV; see docs/measures.md#degree-days.
    /// </remarks>
    public static double FourCases(double minimum, double maximum, double threshold)
    {
        RequireRange(minimum, maximum);
        var mean = (minimum + maximum) / 2;
        return minimum >= threshold ? mean - threshold
            : maximum <= threshold ? 0
            : mean >= threshold ? ((maximum - threshold) / 2) - ((threshold - minimum) / 4)
            : (maximum - threshold) / 4;
    }

    /// <summary>Single triangle: the day warms and cools in straight lines; the area above the base, less the area above the cap.</summary>
    /// <param name="minimum">Lowest temperature of the day, °C.</param>
    /// <param name="maximum">Highest temperature of the day, °C.</param>
    /// <param name="threshold">Base, °C.</param>
    /// <param name="cap">Horizontal cut-off, °C, or <c>null</c> for none.</param>
    /// <returns>°C·days, 0 or more.</returns>
    /// <remarks>Above b: mean − b, or (Tmax−b)²/(2(Tmax−Tmin)). Source: Zalom and others (1983); see
    /// docs/measures.md#degree-days.</remarks>
    public static double SingleTriangle(double minimum, double maximum, double threshold, double? cap = null) =>
        Between(minimum, maximum, threshold, cap, TriangleAbove);

    /// <summary>Double triangle: the cooling half of the day runs to the next day's minimum.</summary>
    /// <param name="minimum">Lowest temperature of the day, °C.</param>
    /// <param name="maximum">Highest temperature of the day, °C.</param>
    /// <param name="nextMinimum">Lowest temperature of the next day, °C, not above <paramref name="maximum"/>.</param>
    /// <param name="threshold">Base, °C.</param>
    /// <param name="cap">Horizontal cut-off, °C, or <c>null</c> for none.</param>
    /// <returns>°C·days, 0 or more: the mean of the two triangles.</returns>
    /// <remarks>Source: Zalom and others (1983); see docs/measures.md#degree-days.</remarks>
    public static double DoubleTriangle(double minimum, double maximum, double nextMinimum, double threshold, double? cap = null) =>
        (SingleTriangle(minimum, maximum, threshold, cap) + SingleTriangle(nextMinimum, maximum, threshold, cap)) / 2;

    /// <summary>Single sine: the day warms and cools along a sine wave; the area above the base, less the area above the cap.</summary>
    /// <param name="minimum">Lowest temperature of the day, °C.</param>
    /// <param name="maximum">Highest temperature of the day, °C.</param>
    /// <param name="threshold">Base, °C.</param>
    /// <param name="cap">Horizontal cut-off, °C, or <c>null</c> for none.</param>
    /// <returns>°C·days, 0 or more.</returns>
    /// <remarks>
    /// Above b, with mean M and half-range W: ((M−b)(π/2−θ) + W cos θ)/π, θ = asin((b−M)/W). Source: Baskerville and Emin (1969); Zalom
    /// and others (1983); see docs/measures.md#degree-days.
    /// </remarks>
    public static double SingleSine(double minimum, double maximum, double threshold, double? cap = null) =>
        Between(minimum, maximum, threshold, cap, SineAbove);

    /// <summary>Double sine: the cooling half of the day runs to the next day's minimum.</summary>
    /// <param name="minimum">Lowest temperature of the day, °C.</param>
    /// <param name="maximum">Highest temperature of the day, °C.</param>
    /// <param name="nextMinimum">Lowest temperature of the next day, °C, not above <paramref name="maximum"/>.</param>
    /// <param name="threshold">Base, °C.</param>
    /// <param name="cap">Horizontal cut-off, °C, or <c>null</c> for none.</param>
    /// <returns>°C·days, 0 or more: the mean of the two sine waves.</returns>
    /// <remarks>Source: Zalom and others (1983); see docs/measures.md#degree-days.</remarks>
    public static double DoubleSine(double minimum, double maximum, double nextMinimum, double threshold, double? cap = null) =>
        (SingleSine(minimum, maximum, threshold, cap) + SingleSine(nextMinimum, maximum, threshold, cap)) / 2;

    private static double Between(double minimum, double maximum, double threshold, double? cap, Func<double, double, double, double> above)
    {
        RequireRange(minimum, maximum);
        if (cap is not { } top)
        {
            return above(minimum, maximum, threshold);
        }

        RequireThresholds(threshold, top);
        return above(minimum, maximum, threshold) - above(minimum, maximum, top);
    }

    private static double TriangleAbove(double minimum, double maximum, double threshold) =>
        minimum >= threshold ? ((minimum + maximum) / 2) - threshold
        : maximum <= threshold ? 0
        : (maximum - threshold) * (maximum - threshold) / (2 * (maximum - minimum));

    private static double SineAbove(double minimum, double maximum, double threshold)
    {
        var mean = (minimum + maximum) / 2;
        if (minimum >= threshold)
        {
            return mean - threshold;
        }

        if (maximum <= threshold)
        {
            return 0;
        }

        var halfRange = (maximum - minimum) / 2;
        var angle = Math.Asin((threshold - mean) / halfRange);
        return (((mean - threshold) * ((Math.PI / 2) - angle)) + (halfRange * Math.Cos(angle))) / Math.PI;
    }

    private static void RequireRange(double minimum, double maximum)
    {
        if (!double.IsFinite(minimum) || !double.IsFinite(maximum) || maximum < minimum)
        {
            throw new ArgumentOutOfRangeException(nameof(maximum),
                maximum, $"The highest temperature is not below the lowest ({minimum}).");
        }
    }

    private static void RequireThresholds(double threshold, double cap)
    {
        if (cap < threshold)
        {
            throw new ArgumentOutOfRangeException(nameof(cap), cap, $"The cap is not below the base ({threshold}).");
        }
    }
}
