using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>What is planted where: each area from above and pass by pass, then every taxon with its year, its height and its
/// visitors.</summary>
internal static class PlantingPages
{
    /// <summary>Taxa of the mix by first, then last flowering; their place is the number they go by.</summary>
    public static IReadOnlyList<PlannedTaxon> Numbered(ConversionPlan plan) => plan.Mix.Numbered;

    public static IReadOnlyList<Flow> Flows(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var plan = report.Plan;
        var numbered = Numbered(plan);
        List<Flow> flows = [Prose.Section(set, width, "Planting plan") with { StartsPage = true },
            .. SettingOut.Flows(report, words, set, width), .. ComingYears.Flows(report, set, width)];
        if (plan.Mix.Areas.Count > 1)
        {
            flows.Add(AreaTable(plan, words).Lay(set, width));
        }

        flows.Add(Prose.H2(set, width, $"{Wording.Capital(Wording.Count(numbered.Count, "taxon", "taxa"))} and what each brings"));
        flows.Add(Species(report, numbered).Lay(set, width) with { SpaceBefore = 4 });
        if (numbered.Any(t => t.Traits.Disputed.Count > 0))
        {
            flows.Add(Prose.Small(set, width, "Disputed, the cautious value taken: " + string.Join("; ",
                numbered.SelectMany(t => t.Traits.Disputed.Select(d => $"{t.Taxon.DisplayName}, {d.Trait} {d.Used} or {d.Other}"))) + "."));
        }

        flows.AddRange(Feeds(report, numbered, set, width));
        return flows;
    }

    /// <summary>Who these plants feed, in one sentence and one picture.</summary>
    private static IEnumerable<Flow> Feeds(ConversionReport report, IReadOnlyList<PlannedTaxon> numbered, Typesetter set, double width)
    {
        var (mix, site) = (report.Plan.Mix, report.Plan.YardVisitors);
        var rows = numbered.Where(t => t.Taxon.Bloom is not null && !t.Traits.IsGrass)
            .Select(t => new VisitedRow(t.Taxon.DisplayName, t.Taxon.Bloom!.Value, t.Taxon.FlowerColour, t.VisitorKinds)).ToList();
        if (rows.Count == 0 || mix.Visitors.Visitors == 0) yield break;
        yield return Prose.H2(set, width, "Who these plants feed");
        var more = site is { NewBees.Count: > 0 }
            ? $" {Wording.Capital(Wording.Count(site.NewBees.Count))} of these kinds have nothing in the yard now." : "";
        yield return Prose.Body(set,
            width, $"The planting feeds {mix.Visitors.Bees} of the {mix.Quality.BeesPossible} kinds of bees that any suitable plants "
                + $"feed, {mix.Visitors.BeesTwice} of them from two plants or more, and {mix.Visitors.Visitors} kinds of visitors in "
                + $"all.{more} {VisitorRecords.Caveat}");
        yield return Picture.Of(VisitorChart.Draw("Who comes to these plants", rows, report.Plan.Request.Season,
            Picture.DesignWidth(width), mix.Visitors.HalfMonths), width) with
        { SpaceBefore = 4 };
        yield return Prose.Small(set, width, VisitorWords.Key);
    }

    private static Table AreaTable(ConversionPlan plan, PlanWording words) => new(
        [new("Area", 40), new($"Ground, {(words.Customary ? "ft²" : "m²")}", 16, Right: true), new("Taxa", 10, Right: true),
            new("Seed as sold, g", 18, Right: true), new("Plugs", 12, Right: true)],
        [.. plan.Mix.Areas.Select(a => new Row([
            Cell.Of(a.Area.Name),
            Cell.Of(words.Area(a.Area.SquareMetres).Split('\u00A0')[0]),
            Cell.Of($"{a.Taxa.Count}"),
            Cell.Of(PlanWording.Grams(a.Taxa.Sum(t => t.BulkGrams))),
            Cell.Of($"{a.Taxa.Sum(t => t.Plugs):#,0}"),
        ]))], TableSpacing.Close);

    /// <summary>The cautions have a column only where there are any; the page on care says that a blank means nothing.</summary>
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
        cautions ? [Cell.Of(t.Taxon.Toxicity.Length > 0 ? t.Taxon.Toxicity : t.Taxon.Caution.Length > 0 ? "see Care and law"
            : "none found")] : [];

    private static Cell[] Cells(ConversionReport report, PlannedTaxon t, int i) =>
        [
            new Cell([new Run($"{i + 1} ", Faces.DataStrong), .. Plantings.Name(t.Taxon)]),
            new Cell([new Run(Wording.Window(t.Taxon), Faces.Data)], t.Taxon.Bloom is { } window
                ? SmallCharts.Window(window, t.Taxon.FlowerColour, report.Plan.Request.Season, null) : null),
            Cell.Of(Wording.HeightFigures(t.Grown, report.Units)),
            Cell.Of($"{Span(t.Taxon.Light.Order().Select(l => l == Light.FullSun ? "sun" : Wording.Of(l)))}; "
                + $"{Span(t.Taxon.Moisture.Order().Select(Wording.Of))}"),
            Cell.Of(Visitors(t.Taxon)),
            Cell.Of(RoleWords.Short(t.Traits.Role) + (t.Reasons.Count > 1 ? "; " + t.Reasons[1] : "")),
        ];

    private static string Visitors(CatalogueTaxon taxon) =>
        taxon.PollinatorGroups.Count == 0 && taxon.LifeForm is LifeForm.Grass or LifeForm.Sedge ? "wind carries its pollen"
            : Wording.Visitors(taxon.PollinatorGroups).Replace("long- and short-tongued bees", "bees", StringComparison.Ordinal);

    /// <summary>"dry to moist": a catalogue lists neighbours, so its ends say as much.</summary>
    private static string Span(IEnumerable<string> words)
    {
        var all = words.ToList();
        return all.Count == 0 ? "not known" : all.Count == 1 ? all[0] : $"{all[0]} to {all[^1]}";
    }
}
