using System.Text.RegularExpressions;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>What can hurt, what law asks, how sure each figure is and where it comes from.</summary>
internal static partial class CautionsAndSources
{
    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, double width) =>
    [
        .. ByPractice(report, set, width),
        Prose.H2(set, width, "How sure we are, and what the figures take for granted"),
        Prose.FineList(set, width,
            [.. Sure(report, words).Select(l => new[] { new Run(l.What + ": ", Faces.Label.In(Ink.Black)),
                new Run(l.Words + " ", Faces.Foot.In(Ink.Black)),
                new Run(UnitWords.In(Sentences(l.Basis), words.Customary), Faces.Foot) })]),
    ];

    /// <summary>The plants of the plan that can hurt, for the household to see before it plants.</summary>
    public static IReadOnlyList<Flow> Plants(ConversionReport report, Typesetter set, double width)
    {
        var cautions = Cautions(report);
        return
        [
            Prose.H2(set, width, "Plants to handle with care"),
            cautions.Count == 0
                ? Prose.Body(set, width,
                "The catalogue has no caution for the plants of this plan. That does not make them harmless: a blank means nothing "
                    + "was found.")
                : new Table([new("Handle with care", 27), new("Caution and look-alikes", 91)], cautions,
                new TableSpacing(10.5, 1.6)).Lay(set, width) with { SpaceBefore = 4 },
        ];
    }

    private static IReadOnlyList<Row> Cautions(ConversionReport report) =>
        // Plants that share a caution share its row; the gravest come first.
        [.. report.Plan.Mix.Taxa.Select(t => t.Taxon).Where(t => t.Caution.Length > 0 || t.Toxicity.Length > 0)
            .GroupBy(t => t.Caution.Length > 0 ? t.Caution : Wording.Capital(t.Toxicity) + ".")
            .OrderBy(g => CareAndLaw.Gravity(g.First())).ThenBy(g => g.First().DisplayName, StringComparer.Ordinal)
            .Select(g => new Row([Cell.Of(string.Join(", ", g.Select(t => t.DisplayName)), Faces.DataStrong.At(8.5)),
            Cell.Of(g.Key, Faces.Data.At(8.5))]))];

    /// <summary>What good practice left out, by name and reason: the proof of the mix does not speak of these.</summary>
    private static IEnumerable<Flow> ByPractice(ConversionReport report, Typesetter set, double width)
    {
        var groups = PracticeWords.LeftOut(report.Plan.Mix.LeftOut, l => l.Taxon.DisplayName);
        if (groups.Count == 0) yield break;
        yield return Prose.H2(set, width, "Left out by good practice");
        yield return Prose.Small(set, width, $"{Wording.Capital(Wording.Count(report.Plan.Mix.LeftOut.Count, "plant", "plants"))} of the "
            + "catalogue would grow here and keep to your limits. They are not offered, for these reasons; some are weeds or poisonous. "
            + "Read a plant’s page before you ask for it by name.", keepWithNext: true);
        yield return Prose.FineList(set, width, [.. groups.Select(g => new[]
        {
            new Run(Wording.Capital(g.Why) + ": ", Faces.Label.In(Ink.Black)), new Run(string.Join(", ", g.Plants) + ".", Faces.Foot),
        })]);
    }

    internal static IReadOnlyList<Note> Rules(ConversionReport report)
    {
        var request = report.Plan.Request;
        var chewed = request.KeepToxicToAnimalsOut ? " Plants known to harm people, pets or stock were left out of this plan."
            : request.KeepToxicOut ? " Plants known to harm people were left out of this plan." : "";
        return
        [
            new("Not for eating", $"Nothing in this plan is said to be safe to eat. Where no caution is printed, none was found; that is "
                + $"not proof.{chewed} Keep children and animals from plants you have not had checked.", Danger: true),
            new("Before you dig",
                "In the United States call 811 some working days before; elsewhere the utility locating service. Buried lines can lie "
                    + "close under the surface. Local rules say how long ahead."),
            new("Herbicide",
                "The label is the law, and some products and places need a licensed applicator. Ask before you treat near water or a "
                    + "boundary."),
            new("Fire", "Do not burn the planting on your own. Burning needs a permit and a trained crew, and many towns forbid it; "
                + "cutting back does the same work."),
            new("Noxious weeds",
                "State and county law may require you to control or report some plants and forbid moving or planting others. Their list "
                    + "decides, not this report."),
        ];
    }

    /// <summary>Each kind of figure: how sure, and on what it rests.</summary>
    private static IReadOnlyList<(string What, string Words, IEnumerable<string> Basis)> Sure(ConversionReport report,
        PlanWording words)
    {
        var plan = report.Plan;
        var quality = plan.Mix.Quality;
        var estimated = plan.Mix.Taxa.Count(t => t.PriceEstimated);
        return
        [
            ("Flowering", report.BloomDates.Length > 0
                ? $"fairly sure, to the half-month. {report.BloomDates} Not every kind sown comes up."
                : $"fairly sure. Regional averages to the half-month ({Places(plan)}); a warm or cold spring moves them, and not every "
                + $"kind sown comes up.", []),
            ("The choice of plants", PracticeWords.Proof(quality),
                [.. plan.Mix.Advice, .. plan.Mix.Binding.Count > 0 ? [$"What held it back: {string.Join("; ", plan.Mix.Binding)}"]
                    : Array.Empty<string>()]),
            ("Amounts", "from seeds in a gram and usual spacing in the catalogue; a lot’s own label goes first.", []),
            ("Money", report.NoPrices ? "none given."
                : $"rough. {(plan.Money.PricesInvented ? "Prices are invented for the demo. " : "")}{(estimated > 0 ? $"{Wording.Capital(Wording.Count(estimated, "price is", "prices are"))} estimated. " : "")}Your own hours and what you spend on the {words.Ground()} now decide most of it.",
                report.NoPrices ? [] : plan.Money.Assumptions),
            ("Water", plan.Water is null ? "not worked out."
                : "rough. The difference is surer than either figure, and only what is watered now can be saved.", plan.Water?.Assumptions
                ?? []),
            ("Runoff", $"rough. Soil group {plan.Request.SoilGroup} comes from a map or a guess, not a test; the difference is surer than "
                + $"either figure.", plan.Runoff.Assumptions),
            ("Sources of the plants’ traits", "", new[] { ("bloom", "flowering"), ("site", "light and ground"), ("pollinator", "visitors"),
                ("seed", "seed"), ("spacing", "spacing"), ("toxicity", "toxicity") }
                .GroupBy(g => Sources(plan, g.Item1), g => g.Item2, StringComparer.Ordinal).Where(g => g.Key.Length > 0)
                .Select(g => $"{Wording.Listed([.. g])}: {g.Key}")),
        ];
    }

    private static string Sentences(IEnumerable<string> sentences) =>
        string.Join(" ", sentences.Select(s => s.EndsWith('.') ? Wording.Capital(s) : Wording.Capital(s) + "."));

    /// <summary>A source as a reader needs it: where the value is from, and what it was held against; working notes stay behind.</summary>
    internal static string Plain(string source)
    {
        var parts = VisitorCount().Replace(source, "").Split(';').Select(p => p.Trim()).Where(p => p.Length > 0
            && !p.StartsWith("confidence", StringComparison.Ordinal)).Select(p => Verdict().Replace(p, ""))
            .Select(p => p.Replace("within 2x: ", "within a factor of two of ", StringComparison.Ordinal)
                .Replace("held against ", "checked against ", StringComparison.Ordinal).Replace(" (name probable)", "",
                StringComparison.Ordinal));
        return string.Join(", ", parts.Distinct(StringComparer.Ordinal));
    }

    /// <summary>": keep", ": changed": what was done with a value after it was checked.</summary>
    [GeneratedRegex(@":\s*(keep|kept|changed|corrected|new)\b.*$", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Verdict();

    /// <summary>A source says how many visitors one plant had; of many plants only the source is told.</summary>
    [GeneratedRegex(@", \d+ visitor tax\w+", RegexOptions.None, 1000)]
    private static partial Regex VisitorCount();

    private static string Places(ConversionPlan plan)
    {
        var places = plan.Mix.Taxa.Select(t => t.Taxon).Where(t => t.Bloom is not null && t.BloomPlace.Length > 0).Select(t => t.BloomPlace)
            .Distinct(StringComparer.Ordinal).Take(3).ToList();
        return places.Count == 0 ? "place not noted" : Wording.Listed(places);
    }

    /// <summary>The two sources most of the plan's kinds rest on.</summary>
    private static string Sources(ConversionPlan plan, string group) =>
        Wording.Listed([.. plan.Mix.Taxa.Select(t => Plain(t.Taxon.Sources.GetValueOrDefault(group, "")))
            .Where(s => s.Length > 0)
        .GroupBy(s => s, StringComparer.Ordinal).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal)
        .Select(g => g.Key).Take(2)]);
}
