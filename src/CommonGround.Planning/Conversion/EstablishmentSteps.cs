using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>What a sowing and a planted band need: gate, seed, water, cutting, count. Measures stand as "[metric|customary]".</summary>
/// <remarks>
/// From memory and common practice of northern Illinois and its neighbours; cuts of the first year after the USDA NRCS Iowa guide of
/// September 2018.
/// </remarks>
internal static class EstablishmentSteps
{
    public static IEnumerable<CalendarStep> Of(ConversionRequest request, ConversionMix? mix)
    {
        var sown = mix is null ? request.Method != Method.Plugs : mix.Taxa.Any(t => t.SeedsPerSquareMetre > 0);
        var plugged = mix is null ? request.Method != Method.Seed : mix.Taxa.Any(t => t.Plugs > 0);
        return [.. sown ? Sowing(request, mix) : [], .. plugged ? Plugs(request, mix, sown) : [], .. sown ? Growing(mix) : []];
    }

    private static IEnumerable<CalendarStep> Sowing(ConversionRequest request, ConversionMix? mix)
    {
        var spring = request.Start == StartSeason.Spring;
        var (year, month) = spring ? (1, 4) : (0, 10);
        yield return new(year, month, month,
            "Before you sow, wait for a flush of weeds after rain: sow only where [under one live perennial weed stands on a square "
                + "metre|fewer than one live perennial weed stands on ten square feet]. Else every date moves by a season.",
            "Better a third of the ground clean than all of it dirty.", "")
        { Short = "Sow only on clean ground" };
        var care = SeedCare.Of(mix?.Taxa ?? [], request.Start);
        if (care.Count > 0)
        {
            yield return new(year, spring ? 2 : month, Math.Min(12, spring ? 4 : month + 1),
                "Seed that wants something first: " + string.Join("; ",
                    care.Select(c => $"{c.What}: {string.Join(", ", c.Taxa.Select(t => t.Taxon.DisplayName))}")) + ".",
                spring ? "Unchilled seed of these waits a year in the ground." : "The winter does the chilling.", "")
            { Short = "Get the seed ready that needs it" };
        }

        const string How =
            "Take off sheet, chips, cardboard or dead grass first: seed must lie on bare soil. Mix it with five times its bulk of damp "
            + "sand, sow half lengthwise and half across, fine seed last. Tread or roll it in, at most [5 mm|¼ in] deep.";
        yield return spring
            ? new(1, 5, 6,
            How + " Between May 10 and June 10, with oats as cover, [3 g to a square metre|a third of an ounce to 30 square feet]: never "
                + "ryegrass, cereal rye, vetch or bagged “wildflowers”.", "Some kinds wait for a winter and come up only next year.", "")
            { Short = "Sow, with oats as cover" }
            : new(0, 11, 12, How + " From mid-November to February on bare, firm ground; not on ice, and not on snow over a slope.",
            "Nothing to see until spring: the seed needs the cold.", "")
            { Short = "Sow on bare soil" };
        if (spring)
        {
            yield return new(1, 5, 7, "Keep the sowing moist for four weeks, then water only after two dry weeks.", "", "")
            { Short = "Keep the sowing moist four weeks" };
        }
        else
        {
            yield return new(1, 4, 6, "Do not water a winter sowing.", "It comes up when the ground is warm and wet enough.", "")
            { Short = "Do not water the sowing" };
        }

        yield return new(1, 5, 9,
            "When growth reaches [30 cm|12 in], cut it back to [15–20 cm|6–8 in], every three to four weeks until mid-September, flowers "
                + "or not; take the clippings off. Do not pull weeds in the sowing: the cut is enough.",
            "Year one looks like weeds. The wanted plants are making roots and stay below the cut. Put up the sign, keep the edge mown.",
                "Wear eye protection and closed shoes; keep children and pets off while cutting.")
        { Short = "At [30 cm|12 in] cut to [15–20 cm|6–8 in]" };
        yield return new(1, 9, 9,
            "Count native seedlings in ten frames of [0.1 m²|1 ft²]. [Ten or more to a square metre|One or more to a frame on average] is "
                + "good; [three to ten|one to every second or third frame]: wait, and sow the gaps in November; fewer: look again "
                + "next June.",
            "Still so few next June means that it failed: find the cause, clear the ground, begin again.", "")
        { Short = "Count the seedlings" };
    }

    private static IEnumerable<CalendarStep> Plugs(ConversionRequest request, ConversionMix? mix, bool sown)
    {
        var (year, month) = request.Start == StartSeason.EarlyAutumn ? (0, 9) : (1, 5);
        yield return new(year, month, month + 1, "Plant plugs in staggered rows as the plan shows, low ones in front; water them in."
            + (sown ? "" : " Peg out the grid first, and set each kind in its drift."), "Small plants far apart.",
            ConversionCalendar.Digging)
        { Short = "Plant the plugs, water them in" };
        yield return new(year, month, month + 1,
            "Lay [3 cm|1 in] of leaf mould between the plugs, none on the crowns. Keep a strip of [30–50 cm|12–20 in] all round mown "
                + "or edged.", "The edge says that it is meant.", "")
        { Short = "Leaf mould between plugs; mow the edge" };
        yield return new(year, month, Math.Min(month + 4, 12),
            "Soak new plugs; water twice a week for three weeks, then [25 mm|1 in] a week until September when it does not rain."
                + (year == 0 ? " Go on until the ground freezes." : ""), "", "")
        { Short = "Water the plugs when it is dry" };
        if (sown)
        {
            yield return new(1, 5, 9, "Weed the planted band by hand every two weeks the first summer, and never mow it.", "",
                "Wear gloves.")
            { Short = "Weed the plugs every two weeks" };
        }
        else
        {
            yield return new(1, 5, 9, "Weed the bed by hand every two weeks the first summer.",
                "Three times the work of a sowing in the first year, little later.", "Wear gloves.")
            { Short = "Weed by hand every two weeks" };
        }

        if (mix?.Taxa.Where(t => t.Plugs > 0 && t.Traits.Browsed).Select(t => t.Taxon.DisplayName).ToList() is { Count: > 0 } browsed)
        {
            yield return new(year, month,
                month, $"Put wire cages [45 cm|18 in] high round {string.Join(", ", browsed)} until the second June.",
                    "Rabbits and deer take these first.", "")
            { Short = "Wire cages against rabbits" };
        }

        yield return new(2, 5, 6, "Replace by June 1 what frost has heaved out and what is eaten or gone, and cage it.", "", "")
        { Short = "Replace lost plugs by June 1" };
        yield return new(2, 6, 9, request is { Light: Light.Shade, Moisture: Moisture.Dry }
            ? "In dry shade water through this second summer too." : "Water only in drought.", "", "")
        { Short = "Water only in drought" };
    }

    private static IEnumerable<CalendarStep> Growing(ConversionMix? mix)
    {
        yield return new(2, 6, 6,
            "One cut to [20–30 cm|8–12 in] by mid-June where weeds stand over the natives. Cut sweet clover, wild carrot and teasel at "
                + "first flower and bag them.",
            Quick(mix), "Wear gloves and long sleeves.")
        { Short = "One high cut if weedy" };
        yield return new(2, 9, 12, "Note what has not come up; sow or plant into the gaps in November.", "Some kinds need a third year.",
            "")
        { Short = "Note the gaps; fill them in November" };
    }

    /// <summary>What takes the ground in the second year, by the mix's own fillers; empty where it has none.</summary>
    private static string Quick(ConversionMix? mix) =>
        ConversionCalendar.Names(mix?.Taxa.Where(t => t.Traits.Role == MixRole.Filler && t.SeedsPerSquareMetre > 0), 3)
            is { Length: > 0 } quick ? $"First comes a year of {quick}: right, by year four there is little of it." : "";
}
