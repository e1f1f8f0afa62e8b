using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Every kind with its year, its height, its visitors and its reason.</summary>
internal static class PlantingPages
{
    /// <summary>Kinds of the mix by first, then last flowering; their place is the number they go by.</summary>
    public static IReadOnlyList<PlannedTaxon> Numbered(ConversionPlan plan) => plan.Mix.Numbered;

    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var plan = report.Plan;
        var numbered = Numbered(plan);
        List<Flow> flows = [Prose.Section(set, width, "For those who want to know more"),
            Prose.Small(set, width, "From here on: how it was worked out, and each step in full.")];
        if (plan.Mix.Areas.Count > 1)
        {
            flows.Add(AreaTable(plan, words).Lay(set, width));
        }

        flows.Add(Prose.H2(set, width, $"{Wording.Capital(Wording.Count(numbered.Count, "kind", "kinds"))} and what each brings"));
        flows.Add(Species(report, numbered).Lay(set, width) with { SpaceBefore = 4 });
        if (numbered.Any(t => t.Traits.Disputed.Count > 0))
        {
            flows.Add(Prose.Small(set, width, "Disputed, the cautious value taken: " + string.Join("; ",
                numbered.SelectMany(t => t.Traits.Disputed.Select(d => $"{t.Taxon.DisplayName}, {d.Trait} {d.Used} or {d.Other}"))) + "."));
        }

        return flows;
    }

    private static Table AreaTable(ConversionPlan plan, PlanWording words) => new(
        [new("Area", 40), new($"Ground, {(words.Customary ? "ft²" : "m²")}", 16, Right: true), new("Kinds", 10, Right: true),
            new($"Seed as sold, {words.WeightUnit}", 18, Right: true), new("Plugs", 12, Right: true)],
        [.. plan.Mix.Areas.Select(a => new Row([
            Cell.Of(a.Area.Name),
            Cell.Of(words.Area(a.Area.SquareMetres).Split('\u00A0')[0]),
            Cell.Of($"{a.Taxa.Count}"),
            Cell.Of(words.WeightFigure(a.Taxa.Sum(t => t.BulkGrams))),
            Cell.Of($"{a.Taxa.Sum(t => t.Plugs):#,0}"),
        ]))], TableSpacing.Close);

    /// <summary>The cautions have a column only where there are any; the part on care says that a blank means nothing.</summary>
    private static Table Species(ConversionReport report, IReadOnlyList<PlannedTaxon> numbered)
    {
        var cautions = numbered.Any(t => t.Taxon.Toxicity.Length > 0 || t.Taxon.Caution.Length > 0);
        Column[] columns = [new("Plant", cautions ? 40 : 50), new("In flower", 23.2),
            new($"Height, {Wording.HeightUnit(report.Units)}", 15.4), new("Light; ground", 28.3), new("Who comes to it", 27),
                new("Why it is here", cautions ? 27 : 39.5)];
        return new(cautions ? [.. columns, new("Caution", 22.5)] : columns,
            [.. numbered.Select((t, i) => new Row([.. Cells(report, t, i), .. Caution(t, cautions)]))], new TableSpacing(10.25, 1.2));
    }

    private static IEnumerable<Cell> Caution(PlannedTaxon t, bool cautions) =>
        cautions ? [Cell.Of(t.Taxon.Toxicity.Length > 0 ? t.Taxon.Toxicity : t.Taxon.Caution.Length > 0 ? "see “Plants to handle with care”"
            : "none found")] : [];

    private static Cell[] Cells(ConversionReport report, PlannedTaxon t, int i) =>
        [
            new Cell([new Run($"{i + 1} ", Faces.DataStrong), .. Plantings.Name(t.Taxon)]),
            new Cell([new Run(Wording.Window(t.Taxon), Faces.Data)], t.Taxon.Bloom is { } window
                ? SmallCharts.Window(window, t.Taxon.FlowerColour, report.Plan.Request.Season, null) : null),
            Cell.Of(Wording.HeightFigures(t.Grown, report.Units)),
            Cell.Of($"{Span(t.Taxon.Light.Order().Select(l => l == Light.FullSun ? "sun" : Wording.Of(l)))}; "
                + $"{Span(t.Taxon.Moisture.Order().Select(Wording.Of))}"),
            Cell.Of(WhoComes.To(t)),
            Cell.Of(RoleWords.Short(t.Traits.Role) + (t.Reasons.Count > 1 ? "; " + t.Reasons[1] : "")),
        ];

    /// <summary>"dry to moist": a catalogue lists neighbours, so its ends say as much.</summary>
    private static string Span(IEnumerable<string> words)
    {
        var all = words.ToList();
        return all.Count == 0 ? "not known" : all.Count == 1 ? all[0] : $"{all[0]} to {all[^1]}";
    }
}
