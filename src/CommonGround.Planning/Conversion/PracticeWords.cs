namespace CommonGround.Planning.Conversion;

/// <summary>What good practice leaves out of a mix, and how far the proof of a mix reaches, in words for page, report and
/// commands.</summary>
public static class PracticeWords
{
    /// <summary>Whether a reason is good practice, which a household may set aside by asking by name; the others are the ground's, the
    /// law's or the household's own.</summary>
    public static bool IsPractice(WhyNot why) => why >= WhyNot.NoTraits;

    /// <summary>How good the mix is known to be: one sentence, the same wherever it is read.</summary>
    public static string Proof(MixQuality quality)
    {
        ArgumentNullException.ThrowIfNull(quality);
        const string Among = "among the plants that good practice offers for this ground and these limits";
        return quality.Best <= 0 ? "Kept as it was made; nothing was chosen anew."
            : quality.ProvenBest
                ? $"Proven: {Among}, no sound mix has a better bloom (enough kinds in each half-month; at either end of the season two "
                + "are enough), and with that bloom none feeds more kinds of visitors. This one keeps "
                + $"{quality.Objective / quality.Best:P0} of that; the rest goes to plants that come up and stay."
                : $"Good, not proven best: {Among}, {Below(quality.Gap)} the most visitors that any mix of this bloom could feed. It keeps "
                + $"{quality.Objective / quality.Best:P0} of what was found.";
    }

    /// <summary>The plants left out by good practice, by the first reason: "spreads too hard …: this, that". Largest group first.</summary>
    /// <param name="leftOut">Of the mix.</param>
    /// <param name="name">How a plant is called.</param>
    public static IReadOnlyList<(string Why, IReadOnlyList<string> Plants)> LeftOut(IEnumerable<LeftOutTaxon> leftOut,
        Func<LeftOutTaxon, string> name)
    {
        ArgumentNullException.ThrowIfNull(leftOut);
        return [.. leftOut.GroupBy(l => l.Reasons[0]).OrderByDescending(g => g.Count()).ThenBy(g => g.Key)
            .Select(g => (WhyNotWords.Of(g.Key), (IReadOnlyList<string>)[.. g.Select(name).Order(StringComparer.Ordinal)]))];
    }

    private static string Below(double gap) => gap < 0.0005 ? "less than 0.1 % below" : $"at most {100 * gap:0.#} % below";
}
