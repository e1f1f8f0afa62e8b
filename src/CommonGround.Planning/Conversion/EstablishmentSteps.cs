using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>What a sowing and a planted band need beyond the ordinary: gate, seed, water, count, failure and remedy.</summary>
/// <remarks>From memory and common practice of northern Illinois and its neighbours; first-year cuts after the USDA NRCS Iowa guide of September 2018.</remarks>
internal static class EstablishmentSteps
{
    public static IEnumerable<CalendarStep> Of(ConversionRequest request, ConversionMix? mix)
    {
        var sown = mix is null ? request.Method != Method.Plugs : mix.Taxa.Any(t => t.SeedsPerSquareMetre > 0);
        var plugged = mix is null ? request.Method != Method.Seed : mix.Taxa.Any(t => t.Plugs > 0);
        return [.. sown ? Sowing(request, mix) : [], .. plugged ? Plugs(request, mix, sown) : [], .. sown ? Later() : []];
    }

    private static IEnumerable<CalendarStep> Sowing(ConversionRequest request, ConversionMix? mix)
    {
        var (year, month) = request.Start == StartSeason.Spring ? (1, 4) : (0, 10);
        yield return new(year, month, month, "Before you sow, wait for a flush of weeds after rain: sow only where under one live perennial weed stands on a square metre. Else wait a season.",
            "Better a third of the ground clean than all of it dirty.", "");
        if (request.Start == StartSeason.Spring)
        {
            yield return new(1, 3, 4, "Chill the seed of slow kinds 30–60 days in damp sand in the refrigerator; sow with 3 g of oats to a square metre as cover, never ryegrass or vetch.", "", "");
        }

        if (mix?.Taxa.Any(t => t.Traits.Role == MixRole.Legume && t.SeedsPerSquareMetre > 0) == true)
        {
            yield return new(year, month, Math.Min(12, month + 1), $"Dust the seed of {string.Join(", ", mix.Taxa.Where(t => t.Traits.Role == MixRole.Legume).Select(t => t.Taxon.DisplayName))} with the right inoculant on the day you sow.",
                "Without its bacteria a legume grows, but feeds the soil less.", "");
        }

        yield return new(1, 9, 9, "Count: ten frames of 0.1 m². Ten or more native seedlings on a square metre are good; three to ten: wait, and sow the gaps in November; under three: look again next June.",
            "Still under three next June means it failed: find the cause, clear the ground, begin again.", "");
    }

    private static IEnumerable<CalendarStep> Plugs(ConversionRequest request, ConversionMix? mix, bool sown)
    {
        var (year, month) = request.Start == StartSeason.EarlyAutumn ? (0, 9) : (1, 5);
        yield return new(year, month, month + 1, sown
                ? "Set the plugs together in a band one metre deep along the walk or street; weed it by hand every two weeks the first summer, and never mow it."
                : "Peg out a grid at the spacing of the list, set each kind in its drift, and lay 3 cm of leaf mould between the plugs, none on the crowns.",
            "A mown or edged strip of 30–50 cm all round says that it is meant.", "");
        yield return new(year, month, Math.Min(month + 4, 12), "Soak new plugs; water twice a week for three weeks, then 25 mm a week until September when it does not rain.", "", "");
        if (mix?.Taxa.Where(t => t.Plugs > 0 && t.Traits.Browsed).Select(t => t.Taxon.DisplayName).ToList() is { Count: > 0 } browsed)
        {
            yield return new(year, month, month, $"Put wire cages 45 cm high round {string.Join(", ", browsed)} until the second June.", "Rabbits and deer take these first.", "");
        }
    }

    private static IEnumerable<CalendarStep> Later()
    {
        yield return new(2, 6, 6, "One cut to 20–30 cm by mid-June where weeds stand over the natives; cut sweet clover, wild carrot and teasel at first flower and bag them.",
            "Black-eyed Susan takes over: right, it is thin by year four.", "");
        yield return new(3, 6, 11, "Where it goes wrong: grass over 70 % and few flowers: cut to 15 cm in early June two years running, rake a third bare in November and sow flowers. Thistle or crown vetch over a quarter: clear that part and begin again. Washed out: blanket, and sow again in November.",
            "Leadplant, blazing star, gentian and dropseed may take four to six years to show.", "");
    }
}
