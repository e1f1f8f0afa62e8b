using System.Globalization;

namespace CommonGround.Reports.Charts;

/// <summary>Round steps for an axis.</summary>
internal static class Scale
{
    /// <summary>1, 2 or 5 times a power of ten, so that <paramref name="most"/> takes at most <paramref name="steps"/> of them.</summary>
    public static double Step(double most, int steps)
    {
        if (!(most > 0))
        {
            return 1;
        }

        var rough = most / steps;
        var power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        return power * (rough / power <= 1 ? 1 : rough / power <= 2 ? 2 : rough / power <= 5 ? 5 : 10);
    }

    /// <summary>0 and each step up to and over <paramref name="most"/>.</summary>
    public static IReadOnlyList<double> Ticks(double most, int steps)
    {
        var step = Step(most, steps);
        return [.. Enumerable.Range(0, (int)Math.Ceiling(most / step - 1e-9) + 1).Select(i => i * step)];
    }

    /// <summary>A figure as it stands in a chart: thousands parted, one decimal under 10, none from there.</summary>
    public static string Words(double value) => value.ToString(Math.Abs(value) < 9.95 && Math.Abs(value - Math.Round(value)) > 0.04 ? "0.0"
        : "#,0", CultureInfo.InvariantCulture);

    /// <summary>Two figures, the rest noughts, from 100 up: what is reckoned from rough numbers claims no more.</summary>
    public static string Rough(double value)
    {
        if (Math.Abs(value) < 99.5)
        {
            return Words(value);
        }

        var unit = Math.Pow(10, Math.Floor(Math.Log10(Math.Abs(value))) - 1);
        return Words(Math.Round(value / unit) * unit);
    }

    /// <summary>A whole figure with the currency's sign before it; the minus stands in front.</summary>
    public static string Money(double value, string currency) => (value < -0.5 ? "−" : "") + currency + Math.Abs(value).ToString("#,0",
        CultureInfo.InvariantCulture);
}
