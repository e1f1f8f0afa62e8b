using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>What to do in the first years, and what to expect, without flattery.</summary>
/// <remarks>
/// Common practice of native plantings in northern Illinois and its neighbours, much of it from memory; the group's own experience goes
/// before it. See docs/measures.md#calendar.
/// </remarks>
public static class ConversionCalendar
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
        IEnumerable<CalendarStep> steps = [.. first.Count > 0 ? [] : clearing, .. EstablishmentSteps.Of(request, mix),
            .. Later(request, mix)];
        IEnumerable<CalendarStep> all = [.. first, .. steps.OrderBy(s => s.Year).ThenBy(s => s.FromMonth)];
        return [.. all.Select(s => s with { Do = InUnits(s.Do, customary), Expect = InUnits(s.Expect, customary),
            Caution = InUnits(s.Caution, customary), Short = InUnits(s.Short, customary) })];
    }

    internal static string InUnits(string text, bool customary) => UnitWords.In(text, customary);

    private static IEnumerable<CalendarStep> Later(ConversionRequest request, ConversionMix? mix)
    {
        const string Burning =
            "Fire only with a permit, a trained crew and the consent of the fire service; never alone, never where local rules forbid it. "
            + "Cutting does as well in a yard.";
        yield return new(1, 5, 9,
            "Once a month look for seedlings of the worst weeds and stop them before they seed; leave what you cannot name until "
                + "somebody can.",
            "More weeds than flowers.", "Wear gloves: the sap of some weeds burns skin in sunlight.")
        { Short = "Stop the worst weeds" };
        yield return new(1, 10, 12, "Leave everything standing over winter.",
            "Brown stems: a small sign saying what grows here helps with passers-by.", "")
        { Short = "Leave the stems standing" };
        yield return new(2, 3, 4,
            "Cut last year’s stems to [30–45 cm|12–18 in] and leave them standing or stacked near by: bees nest in them.", "", "")
        { Short = "Cut last year’s stems to [30–45 cm|12–18 in]" };
        yield return new(3, 3, 3,
            "From now on one cut a year, late in March: half of the planting, the other half next year. Stems stay [30–45 cm|12–18 in] "
                + "high for bees, the cut litter comes off.",
            "Whatever winters in the stems keeps a home.", "Burning instead of cutting: " + Burning)
        { Short = "Cut half of it, late in the month" };
        yield return new(3, 5, 9, "Walk through monthly, pull what does not belong, and record what flowers.",
            "Grasses flower: the first year that looks like the picture. Most kinds flower, the slow ones still do not.", "")
        { Short = "Pull what does not belong" };
        yield return new(3, 9, 11, "Count what has come up against the list, and thin what takes too much room.", "", "")
        { Short = "Look what has come up; thin" };
        yield return new(4, 5, 9, "A kind that takes more than a third of the ground is cut before its seed is ripe.",
            Slow(mix), "")
        { Short = "Cut what takes over, before its seed" };
        if (request.Browsers)
        {
            yield return new(4, 3, 4,
                "Look which kinds rabbits or deer have taken. What is gone twice is the wrong plant for the place: choose another.", "",
                    "")
            { Short = "Look what rabbits and deer took" };
        }
    }

    /// <summary>The mix's own kinds that take years to show; empty where it has none.</summary>
    private static string Slow(ConversionMix? mix)
    {
        var slow = Names(mix?.Taxa.Where(t => t.Traits.FromSeed == FromSeed.Slow && t.SeedsPerSquareMetre > 0), 5);
        return slow.Length == 0 ? "" : $"Slow from seed, they show between the fourth and the sixth year: {slow}.";
    }

    /// <summary>Common names of the first few, with "and" before the last; empty for none.</summary>
    internal static string Names(IEnumerable<PlannedTaxon>? taxa, int most = 99)
    {
        string[] names = [.. (taxa ?? []).Select(t => t.Taxon.DisplayName).Take(most)];
        return names.Length < 2 ? string.Concat(names) : $"{string.Join(", ", names[..^1])} and {names[^1]}";
    }
}
