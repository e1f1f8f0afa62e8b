using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>What can hurt, what law asks, how sure each figure is and where it comes from.</summary>
internal static class CautionsAndSources
{
    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var cautions = Cautions(report);
        return
        [
            Prose.Section(set, width, "Care and law"),
            cautions.Count == 0
                ? Prose.Body(set, width, "The catalogue has no caution for the plants of this plan. That does not make them harmless: a blank means nothing was found.")
                : new Table([new("Handle with care", 27), new("Caution and look-alikes", 91)], cautions, new TableSpacing(10.5, 1.6)).Lay(set, width) with { SpaceBefore = 4 },
            Notes.Lay(set, width, Rules(report, words)) with { SpaceBefore = 14 },
            Prose.H2(set, width, "How sure we are"),
            Prose.List(set, width, [.. Sure(report).Select(l => new[] { new Run(l.What + ": ", Faces.Small with { Family = Faces.SansSemi }), new Run(l.Words, Faces.Small.In(Ink.Black)) })]),
            Prose.H3(set, width, "What the figures take for granted"),
            Prose.List(set, width, [.. Assumptions(report).Select(l => new[] { new Run(l.What + ": ", Faces.Small with { Family = Faces.SansSemi }), new Run(l.Words, Faces.Small) })]),
        ];
    }

    private static IReadOnlyList<Row> Cautions(ConversionReport report) =>
        // Plants that share a caution share its row; the gravest come first.
        [.. report.Plan.Mix.Taxa.Select(t => t.Taxon).Where(t => t.Caution.Length > 0 || t.Toxicity.Length > 0).GroupBy(t => t.Caution.Length > 0 ? t.Caution : Wording.Capital(t.Toxicity) + ".")
            .OrderBy(g => CareAndLaw.Gravity(g.First())).ThenBy(g => g.First().DisplayName, StringComparer.Ordinal)
            .Select(g => new Row([Cell.Of(string.Join(", ", g.Select(t => t.DisplayName)), Faces.DataStrong.At(8.5)), Cell.Of(g.Key, Faces.Data.At(8.5))]))];

    private static IReadOnlyList<Note> Rules(ConversionReport report, PlanWording words)
    {
        var request = report.Plan.Request;
        var tallest = report.Plan.Mix.Taxa.Select(t => t.Taxon.HeightMaxMetres).Max();
        var reaches = tallest is { } metres ? $" This plan may reach {words.Height(metres)}{(request.TallestMetres is { } limit ? $"; you set {words.Height(limit)}" : "")}." : "";
        var chewed = request.KeepToxicOut ? " Plants with a known toxicity were left out of this plan." : "";
        return
        [
            new("Not for eating", $"Nothing in this plan is said to be safe to eat. Where no caution is printed, none was found; that is not proof.{chewed} Keep children and animals from plants you have not had checked.", Danger: true),
            new("Before you dig", "In the United States call 811 some working days before; elsewhere the utility locating service. Buried lines can lie close under the surface. Local rules say how long ahead."),
            new("Height and tidiness rules", $"Many towns limit plant height, above all near the kerb and at corners.{reaches} Ask the code office before you plant; a mown edge and a sign help."),
            new("Herbicide", "The label is the law, and some products and places need a licensed applicator. Turf can also be smothered or cut. Ask before you treat near water or a boundary."),
            new("Fire", "Do not burn the planting on your own. Burning needs a permit and a trained crew, and many towns forbid it; cutting back does the same work."),
            new("Noxious weeds", "State and county law may require you to control or report some plants and forbid moving or planting others. Their list decides, not this report. Ask the seller for the seed’s test of weed seed."),
        ];
    }

    private static IReadOnlyList<(string What, string Words)> Sure(ConversionReport report)
    {
        var plan = report.Plan;
        var quality = plan.Mix.Quality;
        var estimated = plan.Mix.Taxa.Count(t => t.PriceEstimated);
        return
        [
            ("Flowering", $"fairly sure. Regional averages to the half-month ({Places(plan)}); a warm or cold spring moves them, and not every taxon sown comes up."),
            ("The choice of plants", quality.ProvenBest ? "proven: no other mix under the same limits scores higher by our own measure." : $"good, not proven best: at most {100 * quality.Gap:0.#} % below what any mix could score by our own measure."),
            ("Amounts", "from seeds in a gram and usual spacing in the catalogue; a lot’s own label goes first."),
            ("Money", report.NoPrices ? "none given." : $"rough. {(plan.Money.PricesInvented ? "Prices are invented for the demo. " : "")}{(estimated > 0 ? $"{Wording.Capital(Wording.Count(estimated, "price is", "prices are"))} estimated. " : "")}Your own hours and what you spend on the {new PlanWording(report).Ground()} now decide most of it."),
            ("Water", plan.Water is null ? "not worked out." : "rough. The difference is surer than either figure, and only what is watered now can be saved."),
            ("Runoff", $"rough. Soil group {plan.Request.SoilGroup} comes from a map or a guess, not a test; the difference is surer than either figure."),
            ("Hours", "a guess from common practice; the first two years vary most."),
        ];
    }

    private static List<(string What, string Words)> Assumptions(ConversionReport report)
    {
        var plan = report.Plan;
        var lines = new List<(string What, string Words)>();
        void Add(string what, IEnumerable<string> words)
        {
            var text = string.Join(" ", words.Select(Ended));
            if (text.Length > 0)
            {
                lines.Add((what, text));
            }
        }

        Add("Limits that held the mix back", plan.Mix.Binding);
        Add("Water", plan.Water?.Assumptions ?? []);
        Add("Runoff", plan.Runoff.Assumptions);
        Add("Money", report.NoPrices ? [] : plan.Money.Assumptions);
        Add("Plants", new[] { ("bloom", "flowering"), ("site", "light and ground"), ("pollinator", "visitors"), ("seed", "seed"), ("spacing", "spacing"), ("toxicity", "toxicity") }
            .Select(g => (g.Item2, Sources(plan, g.Item1))).Where(s => s.Item2.Length > 0).Select(s => $"{s.Item1}: {s.Item2}"));
        return lines;
    }

    private static string Ended(string sentence) => sentence.EndsWith('.') ? Wording.Capital(sentence) : Wording.Capital(sentence) + ".";

    private static string Places(ConversionPlan plan)
    {
        var places = plan.Mix.Taxa.Select(t => t.Taxon).Where(t => t.Bloom is not null && t.BloomPlace.Length > 0).Select(t => t.BloomPlace).Distinct(StringComparer.Ordinal).Take(3).ToList();
        return places.Count == 0 ? "place not noted" : Wording.Listed(places);
    }

    /// <summary>The two sources most of the plan's taxa rest on.</summary>
    private static string Sources(ConversionPlan plan, string group) => Wording.Listed([.. plan.Mix.Taxa.Select(t => t.Taxon.Sources.GetValueOrDefault(group, "")).Where(s => s.Length > 0)
        .GroupBy(s => s, StringComparer.Ordinal).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).Select(g => g.Key).Take(2)]);
}
