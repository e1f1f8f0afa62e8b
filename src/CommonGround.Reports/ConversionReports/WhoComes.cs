using CommonGround.Ecology.Pollinators;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Who comes to the planting, by the names people use, and when.</summary>
internal static class WhoComes
{
    private const int MostNames = 14, MostPlants = 4;

    public static IReadOnlyList<Flow> Flows(ConversionReport report, Typesetter set, double width)
    {
        var (mix, site) = (report.Plan.Mix, report.Plan.YardVisitors);
        var rows = mix.Numbered.Where(t => t.Taxon.Bloom is not null && !t.Traits.IsGrass)
            .Select(t => new VisitedRow(t.Taxon.DisplayName, t.Taxon.Bloom!.Value, t.Taxon.FlowerColour, t.VisitorKinds)).ToList();
        List<Flow> flows = [];
        if (mix.Visitors.Visitors > 0)
        {
            var more = site is { NewBees.Count: > 0 }
                ? $" {Wording.Capital(Wording.Count(site.NewBees.Count))} of these kinds have nothing in your yard now." : "";
            flows.Add(Prose.Section(set, width,
                $"Who comes: {Wording.Count(mix.Visitors.Bees, "kind of wild bee", "kinds of wild bees")}"));
            flows.Add(Prose.Body(set, width,
                $"The plants feed {mix.Visitors.Visitors} kinds of visitors in all.{more} {VisitorRecords.Caveat}"));
        }

        if (report.Visitors.Count > 0)
        {
            flows.Add(new Table([new("Visitor", 34), new("Kinds", 9, Right: true), new("Most on", 96)],
                [.. report.Visitors.Take(MostNames).Select(v => new Row([Cell.Of(Wording.Capital(v.Name), Faces.DataStrong),
                    Cell.Of($"{v.Kinds}"), Cell.Of(string.Join(", ", v.Plants.Take(MostPlants))
                        + (v.Plants.Count > MostPlants ? $" and {v.Plants.Count - MostPlants} more" : ""))]))],
                TableSpacing.Close).Lay(set, width));
        }

        if (rows.Count > 0 && mix.Visitors.Visitors > 0)
        {
            flows.Add(Prose.H2(set, width, "Plant by plant through the year"));
            flows.Add(Picture.Of(VisitorChart.Draw("Who comes to these plants", VisitorChart.Most(rows, VisitorWords.MostDrawn),
                report.Plan.Request.Season, Picture.DesignWidth(width), mix.Visitors.HalfMonths), width) with
            { SpaceBefore = 4 });
            flows.Add(Prose.Small(set, width, $"{VisitorWords.Drawn(rows.Count)}{VisitorWords.Key}"));
        }

        return flows;
    }

    /// <summary>Who comes to one plant, in a cell: never a bare "not known".</summary>
    public static string To(Planning.Conversion.PlannedTaxon taxon)
    {
        var groups = Wording.Visitors(taxon.Taxon.PollinatorGroups).Replace("long- and short-tongued bees", "bees",
            StringComparison.Ordinal);
        return taxon.Traits.IsGrass && taxon.Taxon.PollinatorGroups.Count == 0 ? "wind carries its pollen; birds take the seed"
            : taxon.VisitorBasis switch
            {
                VisitorBasis.Recorded when taxon.VisitorKinds.Count > 0 => string.Join(", ", taxon.VisitorKinds
                    .OrderByDescending(k => k.Value).Take(3).Select(k => $"{k.Key} ({k.Value})")),
                _ when taxon.Taxon.PollinatorGroups.Count > 0 => groups + Kin(taxon.VisitorBasis),
                VisitorBasis.FromGenus => "as its genus: bees and others (estimated)",
                VisitorBasis.FromFamily => "as its family: some bees (estimated)",
                _ => "nobody has written any down",
            };
    }

    private static string Kin(VisitorBasis basis) => basis switch
    {
        VisitorBasis.FromGenus => " (known of its genus)",
        VisitorBasis.FromFamily => " (known of its family)",
        _ => "",
    };
}
