namespace CommonGround.Planning.Conversion;

/// <summary>What to do in the first three years, and what to expect, without flattery.</summary>
/// <remarks>Common practice of native plantings in the middle-western United States; the group's own experience goes before it.</remarks>
public static class ConversionCalendar
{
    private const string Digging = "Before any digging call the utility locating service (811 in the United States) and wait for its marks.";
    private const string Herbicide = "The label is the law. Follow it and local rules, keep people and pets away for as long as it says, and leave the work to a licensed applicator where the law asks for one or you are unsure.";

    /// <summary>Steps by year and month. Years 1–3 are growing seasons; year 0 is the one before the first, in which the ground is cleared.</summary>
    public static IReadOnlyList<CalendarStep> For(ConversionRequest request, ConversionMix? mix = null)
    {
        ArgumentNullException.ThrowIfNull(request);
        // The ways to clear the ground are choices, kept in their own order; all of them come before anything is planted.
        IEnumerable<CalendarStep> steps = [.. Planting(request), .. FirstYear(request), .. Later(request)];
        return [.. Preparation(request), .. steps.Concat(EstablishmentSteps.Of(request, mix)).OrderBy(s => s.Year).ThenBy(s => s.FromMonth)];
    }

    private static IEnumerable<CalendarStep> Preparation(ConversionRequest request)
    {
        var (from, to) = (5, request.Start == StartSeason.EarlyAutumn ? 8 : 10);
        yield return new(0, from, from, "Mark the areas and ask what the ordinance says of plant height and front yards; tell the neighbours what is coming.", "", Digging);
        if (request.PresentCover is PresentCover.BareSoil)
        {
            yield return new(0, from, to, "Let weeds come up on the bare soil and hoe or rake them off shallowly, two or three times.", "Each flush is smaller than the last.", "");
            yield break;
        }

        if (request.PresentCover == PresentCover.Shrubs)
        {
            yield return new(0, from, from, "Cut the shrubs to the ground and dig out the roots; clear what comes up again before anything is planted.", "", Digging);
        }

        yield return new(0, from, to, "Choice one, smother: mow short, cover with overlapping cardboard and 10–15 cm of wood chips or a dark sheet, and leave it for a whole growing season.",
            request.Start == StartSeason.EarlyAutumn ? "Three months are short for this: tough grass comes through." : "Dead turf underneath after 3–6 months.", "");
        yield return new(0, 6, 8, "Choice two, solarise: in full sun, mow short, water, stretch clear sheet over it and bury its edges for 6–8 hot weeks.",
            request.Light == Ecology.Taxa.Light.FullSun ? "Works best in the hottest weeks; clear sheet, not dark." : "Hardly works without full sun: choose another way here.", "");
        yield return new(0, from, to, "Choice three, herbicide: only where the other ways will not do, on growing turf, and twice where it greens up again.", "Brown turf within weeks; leave the dead thatch, it keeps weeds down.", Herbicide);
        if (request.SlopePercent >= 10)
        {
            yield return new(0, from, to, "On the slope keep the dead turf in place and lay a degradable blanket over the seed or between the plugs.", "Bare soil on a slope washes away in one storm.", "");
        }
    }

    private static IEnumerable<CalendarStep> Planting(ConversionRequest request)
    {
        var (sowYear, sowFrom, sowTo) = request.Start == StartSeason.Spring ? (1, 4, 6) : (0, 11, 12);
        var (plugYear, plugFrom, plugTo) = request.Start == StartSeason.EarlyAutumn ? (0, 9, 10) : (1, 5, 6);
        if (request.Method is Method.Seed or Method.Mixed)
        {
            yield return new(sowYear, sowFrom, sowTo, "Mix the seed with damp sand, sow half lengthwise and half across, press it in by treading or rolling; do not bury it.",
                sowYear == 0 ? "Nothing to see until spring: the seed needs the cold." : "Some kinds wait for a winter and come up only next year.", "");
        }

        if (request.Method is Method.Plugs or Method.Mixed)
        {
            yield return new(plugYear, plugFrom, plugTo, "Plant plugs in staggered rows at the spacing of the list, low ones in front; water them in.", "Small plants far apart.", Digging);
        }
    }

    private static IEnumerable<CalendarStep> FirstYear(ConversionRequest request)
    {
        if (request.Method is Method.Seed or Method.Mixed)
        {
            yield return new(1, 5, 9, "When growth reaches 20–30 cm, cut it back to 10–15 cm; about three times. Where plugs stand among it, cut round them.",
                "Year one looks like weeds. The wanted plants are making roots and stay below the cut.", "Wear eye protection and closed shoes; keep children and pets off while cutting.");
        }

        yield return new(1, 5, 9, "Once a month look for seedlings of the worst weeds and pull them before they seed; leave what you cannot name until somebody can.",
            "More weeds than flowers.", "Wear gloves: the sap of some weeds burns skin in sunlight.");
        yield return new(1, 10, 12, "Leave everything standing over winter.", "Brown stems: a small sign saying what grows here helps with passers-by.", "");
    }

    private static IEnumerable<CalendarStep> Later(ConversionRequest request)
    {
        const string Burning = "Fire only with a permit, a trained crew and the consent of the fire service; never alone, never where local rules forbid it. Mowing does as well in a yard.";
        yield return new(2, 3, 4, "Cut last year's stems to 20–30 cm and leave them lying or stacked near by: bees nest in them.", "", "");
        yield return new(2, 4, 9, "Check for weeds once a month; cut patches of tall weeds to 20 cm in June, before they seed.", "Leaves you know again, first flowers of the quick kinds; gaps are ordinary.", "Wear gloves and long sleeves.");
        if (request.Method is Method.Seed or Method.Mixed)
        {
            yield return new(2, 9, 12, "Note what has not come up; sow or plant into the gaps.", "Some kinds need a third year.", "");
        }

        yield return new(3, 3, 4, "Cut a half or a third of the planting, another part each year, so that whatever winters in the stems keeps a home.", "", "Burning instead of cutting: " + Burning);
        yield return new(3, 5, 9, "Walk through monthly, pull what does not belong, and record what flowers.", "The first year that looks like the picture: most kinds flower, the slow ones still do not.", "");
        yield return new(3, 9, 11, "Count what has come up against the list, and thin what takes too much room.", "", "");
    }
}
