namespace CommonGround.Ecology.Pollinators;

/// <summary>How far a bee flies for food, judged by its body size: log₁₀ Y = a + b·log₁₀ IT, Y in km, IT in mm.</summary>
/// <remarks>
/// IT is the inter-tegular span, the width of the thorax between the wing bases: about 1 mm for small sweat bees, 3 mm and more for
/// bumblebees. The four lines were fitted to four ways of measuring range. Logarithms are base 10, the span is in millimetres and the
/// distance in kilometres. Source: Greenleaf, Williams, Winfree and Kremen (2007), Oecologia 153:589–596; see
/// docs/measures.md#foraging-range.
/// </remarks>
public static class ForagingRange
{
    /// <summary>How far half the bees still find home from: 10^(−1.643 + 3.242 log₁₀ IT). The usual α of reachable bloom.</summary>
    /// <param name="interTegularMillimetres">Inter-tegular span, mm, above 0; 1–8 for bees.</param>
    /// <returns>Kilometres, above 0.</returns>
    /// <remarks>Source: Greenleaf and others (2007); see docs/measures.md#foraging-range.</remarks>
    public static double TypicalHomingKilometres(double interTegularMillimetres) => Kilometres(-1.643, 3.242, interTegularMillimetres);

    /// <summary>How far the best bees still find home from: 10^(−1.363 + 3.366 log₁₀ IT).</summary>
    /// <param name="interTegularMillimetres">Inter-tegular span, mm, above 0.</param>
    /// <returns>Kilometres, above 0.</returns>
    /// <remarks>Source: Greenleaf and others (2007); see docs/measures.md#foraging-range.</remarks>
    public static double MaximumHomingKilometres(double interTegularMillimetres) => Kilometres(-1.363, 3.366, interTegularMillimetres);

    /// <summary>How far bees could be trained to follow a feeder: 10^(−0.760 + 2.313 log₁₀ IT).</summary>
    /// <param name="interTegularMillimetres">Inter-tegular span, mm, above 0.</param>
    /// <returns>Kilometres, above 0.</returns>
    /// <remarks>Source: Greenleaf and others (2007); see docs/measures.md#foraging-range.</remarks>
    public static double MaximumFeederTrainingKilometres(double interTegularMillimetres) =>
        Kilometres(-0.760, 2.313, interTegularMillimetres);

    /// <summary>The farthest food that bees tell each other of: 10^(−0.993 + 2.788 log₁₀ IT).</summary>
    /// <param name="interTegularMillimetres">Inter-tegular span, mm, above 0.</param>
    /// <returns>Kilometres, above 0.</returns>
    /// <remarks>Source: Greenleaf and others (2007); see docs/measures.md#foraging-range.</remarks>
    public static double MaximumCommunicationKilometres(double interTegularMillimetres) =>
        Kilometres(-0.993, 2.788, interTegularMillimetres);

    private static double Kilometres(double a, double b, double span)
    {
        if (!double.IsFinite(span) || span <= 0)
        {
            throw new ArgumentOutOfRangeException(nameof(span), span, "An inter-tegular span is above 0 mm.");
        }

        return Math.Pow(10, a + (b * Math.Log10(span)));
    }
}
