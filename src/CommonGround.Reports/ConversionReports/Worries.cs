using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>What people are afraid of, answered as it is; what the town says; and what to do before anybody begins.</summary>
/// <remarks>
/// Sources, as known from memory and named in print: US Centers for Disease Control and Prevention, advice on ticks and yards; state
/// wildlife agencies on snakes; American Academy of Allergy, Asthma &amp; Immunology on ragweed and on stings; the rest is common practice
/// of plantings.
/// </remarks>
internal static class Worries
{
    public static IReadOnlyList<Flow> Flows(ConversionReport report, Typesetter set, double width)
    {
        var notes = Notes(report, new PlanWording(report));
        return
        [
            Prose.Section(set, width, $"{Wording.Capital(Wording.Count(notes.Count))} honest worries"),
            Prose.Small(set, width, "Better to read them now than in June. Health advice changes: the agencies named have the newest."),
            .. NumberedNotes.Lay(set, width, notes).Select((f, i) => i == 0 ? f with { SpaceBefore = 6 } : f),
        ];
    }

    /// <summary>What the town says, and what to do before anybody begins.</summary>
    public static IReadOnlyList<Flow> Before(ConversionReport report, PlanWording words, Typesetter set, double width) =>
    [
        .. Town(report, words, set, width),
        Prose.H2(set, width, "Before anybody begins"),
        Layout.Notes.Lay(set, width, CautionsAndSources.Rules(report)) with { SpaceBefore = 6 },
    ];

    private static List<NumberedNote> Notes(ConversionReport report, PlanWording words)
    {
        var sown = report.Plan.Mix.Taxa.Any(t => t.SeedsPerSquareMetre > 0);
        var cut = words.Customary ? "6 to 8 in" : "15 to 20 cm";
        return
        [
            new("It will look like weeds the first summer.", sown
                ? $"It will. Roots grow first. It is cut back to {cut} whenever it reaches knee height, the edge is kept mown, and a sign "
                    + "says what is coming."
                : "A little: plugs stand far apart, with bare mulch between. The edge is kept mown, and a sign says what is coming.",
                "sure"),
            new("Ticks.", "They sit in tall grass, brush and leaf litter, so check yourself after working there. Keep the bed away from "
                + $"where children play, and a strip of chips or gravel {(words.Customary ? "3 ft" : "1 m")} wide between it and any woods "
                + "(advice of the US Centers for Disease Control and Prevention).", "depends on the place"),
            new("Snakes.", "A planting may shelter the small harmless ones that eat slugs and mice. Leave a snake alone; your state’s "
                + "wildlife agency says which kinds live near you and what to do.", "seldom"),
            new("Hay fever and stings.", "Showy flowers have heavy pollen that insects carry; late-summer hay fever is mostly ragweed’s, "
                + "whose pollen the wind carries (allergists’ associations). Wild bees seldom sting. Where somebody is allergic to stings, "
                + "ask their doctor, and keep flowers away from doors and seats.", "seldom"),
            new("It looks dead in winter.", "It stands brown until March: seed for birds, shelter for bees in the stems. "
                + "Page 1 shows it. Who dislikes that may cut the front strip in autumn and leave the back.", "sure"),
            new("Selling the house.", "Some buyers like it and some do not; we know of no figures for beds like this one. It can be mown "
                + "back to lawn in one season, so nothing is lost.", "not known"),
            new(sown ? "Some of the seed will not come up." : "Some of the plants will die.", sown
                ? "Always. Slow kinds show after years. Gaps are sown again in November; keep what is left of the packets."
                : "About one plug in ten, in common experience. Replace them by June.", "likely"),
        ];
    }

    private static IEnumerable<Flow> Town(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var local = report.Local;
        var tallest = report.Plan.Mix.Taxa.Select(t => t.Grown.HeightMaxMetres).Max();
        var reaches = tallest is { } metres ? $" This plan may reach {words.Height(metres)}"
            + (report.Plan.Request.TallestMetres is { } limit ? $"; the plan’s limit is {words.Height(limit)}." : ".") : "";
        yield return Prose.H2(set, width, "What your town says");
        yield return Prose.Body(set, width, local.Ordinance.Length == 0
            ? "The group has not entered your town’s rules. Ask the code office what it says of plant height, of front yards and of "
                + "corners, before you begin." + reaches
            : $"“{local.Ordinance.ReplaceLineEndings(" ").Trim()}”"
                + $"{(local.OrdinanceSource.Length > 0 ? $" ({local.OrdinanceSource})" : "")}");
        if (local.Ordinance.Length > 0)
        {
            yield return Prose.Small(set, width,
                "As the group entered it. Rules change and are read by the town, not by us: ask the code office before you plant."
                    + reaches);
        }
    }
}
