using System.Text.RegularExpressions;

namespace CommonGround.Planning.Conversion;

/// <summary>What to do in the first years, and what to expect, without flattery.</summary>
/// <remarks>
/// Common practice of native plantings in northern Illinois and its neighbours, much of it from memory; the group's own experience goes
/// before it.
/// See docs/measures.md#calendar.
/// </remarks>
public static partial class ConversionCalendar
{
    internal const string Digging =
        "Before any digging call the utility locating service (811 in the United States) and wait for its marks.";
    internal const string Herbicide =
        "The label is the law. Follow it and local rules, keep people and pets away for as long as it says, and leave the work to a "
        + "licensed applicator where the law asks for one or you are unsure.";

    /// <summary>Steps by year and month. Years 1–3 are growing seasons; year 0 is the time before the first, in which the ground is
    /// cleared; 4 is every year after.</summary>
    /// <param name="request">What was asked for.</param>
    /// <param name="mix">What is planted; null for what the request's method would.</param>
    /// <param name="customary">Inches and square feet, else centimetres and square metres.</param>
    public static IReadOnlyList<CalendarStep> For(ConversionRequest request, ConversionMix? mix = null, bool customary = false)
    {
        ArgumentNullException.ThrowIfNull(request);
        // The ways to clear turf are choices, kept in their own order; all of them come before anything is planted.
        var clearing = GroundPreparation.Of(request).ToList();
        List<CalendarStep> first = clearing.Exists(s => s.Do.StartsWith("Choice", StringComparison.Ordinal)) ? clearing : [];
        IEnumerable<CalendarStep> steps = [.. first.Count > 0 ? [] : clearing, .. EstablishmentSteps.Of(request, mix), .. Later(request)];
        IEnumerable<CalendarStep> all = [.. first, .. steps.OrderBy(s => s.Year).ThenBy(s => s.FromMonth)];
        return [.. all.Select(s => s with { Do = InUnits(s.Do, customary), Expect = InUnits(s.Expect, customary),
            Caution = InUnits(s.Caution, customary) })];
    }

    /// <summary>"[15–20 cm|6–8 in]" as the one or the other.</summary>
    internal static string InUnits(string text, bool customary) =>
        Measures().Replace(text, m => m.Groups[customary ? "customary" : "metric"].Value);

    private static IEnumerable<CalendarStep> Later(ConversionRequest request)
    {
        const string Burning =
            "Fire only with a permit, a trained crew and the consent of the fire service; never alone, never where local rules forbid it. "
            + "Cutting does as well in a yard.";
        yield return new(1, 5, 9,
            "Once a month look for seedlings of the worst weeds and stop them before they seed; leave what you cannot name until "
                + "somebody can.",
            "More weeds than flowers.", "Wear gloves: the sap of some weeds burns skin in sunlight.");
        yield return new(1, 10, 12, "Leave everything standing over winter.",
            "Brown stems: a small sign saying what grows here helps with passers-by.", "");
        yield return new(2, 3, 4,
            "Cut last year’s stems to [30–45 cm|12–18 in] and leave them standing or stacked near by: bees nest in them.", "", "");
        yield return new(3, 3, 3,
            "From now on one cut a year, late in March: half of the planting, the other half next year. Stems stay [30–45 cm|12–18 in] "
                + "high for bees, the cut litter comes off.",
            "Whatever winters in the stems keeps a home.", "Burning instead of cutting: " + Burning);
        yield return new(3, 5, 9, "Walk through monthly, pull what does not belong, and record what flowers.",
            "Grasses flower: the first year that looks like the picture. Most kinds flower, the slow ones still do not.", "");
        yield return new(3, 9, 11, "Count what has come up against the list, and thin what takes too much room.", "", "");
        yield return new(4, 5, 9, "A kind that takes more than a third of the ground is cut before its seed is ripe.",
            "Leadplant, blazing star, gentian and dropseed show between the fourth and the sixth year.", "");
        if (request.Browsers)
        {
            yield return new(4, 3, 4,
                "Look which kinds rabbits or deer have taken. What is gone twice is the wrong plant for the place: choose another.", "",
                    "");
        }
    }

    [GeneratedRegex(@"\[(?<metric>[^|\]]*)\|(?<customary>[^\]]*)\]", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Measures();
}
