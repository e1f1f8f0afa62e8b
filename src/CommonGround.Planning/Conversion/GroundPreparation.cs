using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>How the ground is cleared, by what stands there now; nothing is planted before it is clean.</summary>
/// <remarks>From memory and common practice; see docs/measures.md#calendar.</remarks>
internal static class GroundPreparation
{
    public static IEnumerable<CalendarStep> Of(ConversionRequest request)
    {
        var (from, to) = (4, request.Start == StartSeason.EarlyAutumn ? 8 : 10);
        yield return new(0, from, from,
            "Mark the areas and ask what the ordinance says of plant height and front yards; tell the neighbours what is coming.", "",
                ConversionCalendar.Digging)
        { Short = "Mark the lines; ask the town; call 811" };
        foreach (var step in Clearing(request, to))
        {
            yield return step;
        }

        if (request.Light == Light.Shade && request.PresentCover != PresentCover.Shrubs)
        {
            yield return new(0, 5, 5,
                "Under trees rake bare patches only, and pull garlic mustard in two Mays running. Do not till and do not fill: the trees’ "
                    + "roots lie close under the surface.", "", "")
            { Short = "Rake bare patches only" };
        }

        if (request.SlopePercent >= 10)
        {
            yield return new(0, Math.Min(to, 9), to, "On the slope keep the dead turf in place" + (request.SlopePercent >= 25
                ? ", and lay a blanket that rots away and has no plastic net over the seed." : "."),
                "Bare soil on a slope washes away in one storm.", "")
            { Short = "Keep the dead turf on the slope" };
        }
    }

    private static IEnumerable<CalendarStep> Clearing(ConversionRequest request, int to) => request.PresentCover switch
    {
        PresentCover.BareSoil => Bare(request),
        PresentCover.Shrubs => Shrubs(),
        PresentCover.FlowerBed => Bed(),
        PresentCover.Weeds => [.. Weeds(), .. Turf(request, to)],
        PresentCover.ThinTurf => [.. Thin(), .. Turf(request, to)],
        _ => Turf(request, to),
    };

    private static IEnumerable<CalendarStep> Turf(ConversionRequest request, int to)
    {
        yield return new(0, 4, to,
            "Choice one, smother: mow short, cover with cardboard and [10–15 cm|4–6 in] of wood chips or a dark sheet that lets no light "
                + "through, and leave it from April to September.",
            request.Start == StartSeason.EarlyAutumn ? "A summer is short for this: tough grass comes through."
                : "Dead turf underneath after one season.", "")
        { Short = "Clear the turf: smother it" };
        yield return new(0, 8, Math.Max(8, to),
            "Choice two, cut the sod away [5 cm|2 in] deep with a sod cutter or spade, and use it elsewhere. Never till sod: every piece "
                + "grows again.", "Clean ground at once, and work.", ConversionCalendar.Digging)
        { Short = "or cut the sod away" };
        yield return new(0, 8, Math.Max(9, to),
            "Choice three, herbicide: only where the other ways will not do, on growing turf from late August, and again four weeks later "
                + "where it greens up.",
            "Brown turf within weeks; leave the dead thatch, it keeps weeds down.", ConversionCalendar.Herbicide)
        { Short = "or herbicide, only by its label" };
    }

    private static IEnumerable<CalendarStep> Thin()
    {
        yield return new(0, 5, 9,
            "Creeping Charlie, clover and dandelion in the turf take a whole season: three passes, in May, July and September, or twelve "
                + "months under cover.", "What is left alive comes through the planting for years.", "")
        { Short = "Creeping weeds: three passes" };
    }

    private static IEnumerable<CalendarStep> Weeds()
    {
        yield return new(0, 4, 10,
            "Quack grass, brome, thistle, bindweed, crown vetch or reed canary grass take two whole seasons. Begin two years ahead, and "
                + "sow or plant only when a flush in spring shows none of them.",
            "A weed that comes through a bed of plugs cannot be got out again.", "")
        { Short = "Deep-rooted weeds: two seasons" };
    }

    private static IEnumerable<CalendarStep> Bare(ConversionRequest request)
    {
        if (request.Light != Light.Shade)
        {
            yield return new(0, 4, 5,
                "Loosen packed soil [15–20 cm|6–8 in] deep once, not under trees. No compost, no topsoil, no fertiliser: they feed "
                    + "the weeds.", "", ConversionCalendar.Digging)
            { Short = "Loosen packed soil once" };
        }

        yield return new(0, 5, 9, "Let weeds come up twice, and kill each flush shallowly, without stirring the soil.",
            "Each flush is smaller than the last.", "")
        { Short = "Kill each flush of weeds" };
        yield return new(0, 8, 9,
            "Sow oats, [3 g to a square metre|a third of an ounce to 30 square feet], to hold the soil until winter.",
                "The frost kills them.", "")
        { Short = "Sow oats to hold the soil" };
    }

    private static IEnumerable<CalendarStep> Bed()
    {
        yield return new(0, 4, 5, "Sift out the roots of weeds and of what grew there. No compost, no fertiliser.", "",
            ConversionCalendar.Digging)
        { Short = "Sift out the roots" };
        yield return new(0, 5, 9, "Grow oats or buckwheat for one summer and cut them before they seed: they use up the richness.",
            "In rich soil tall kinds flop: plugs do better here than seed.", "")
        { Short = "Oats for a summer; cut before seed" };
    }

    private static IEnumerable<CalendarStep> Shrubs()
    {
        yield return new(0, 9, 11, "Cut buckthorn, honeysuckle and the like to the ground, and treat the stumps in autumn.",
            "Untreated stumps sprout again.", ConversionCalendar.Herbicide)
        { Short = "Cut the shrubs, treat the stumps" };
        yield return new(0, 10, 12,
            "Sow a native cover at once where the shrubs stood, such as wild rye, and pull the shrubs’ seedlings for a year.",
            "Plugs next spring do better here than seed.", "")
        { Short = "Sow a cover; pull shrub seedlings" };
    }
}
