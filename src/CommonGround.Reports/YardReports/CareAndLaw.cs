using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Layout;

namespace CommonGround.Reports.YardReports;

/// <summary>Plants that can hurt, and what law and good practice ask before anyone digs, sprays, burns or plants.</summary>
internal static class CareAndLaw
{
    public static IReadOnlyList<Flow> Flows(YardReport report, Typesetter set, double width)
    {
        var cautions = Cautions(report);
        var flows = new List<Flow>
        {
            Prose.Section(set, width, "Care and law"),
        };
        if (cautions.Count == 0)
        {
            flows.Add(Prose.Body(set, width,
                "The catalogue has no caution for the plants named in this report. That does not make them harmless: a blank means "
                    + "nothing was found."));
        }
        else
        {
            flows.Add(new Table([new("Handle with care", 23), new("Caution and look-alikes", 95)], cautions,
                new TableSpacing(10.5, 1.6)).Lay(set, width) with
            { SpaceBefore = 4 });
        }

        flows.Add(Notes.Lay(set, width, Rules(report)) with { SpaceBefore = 14 });
        return flows;
    }

    private static IReadOnlyList<Row> Cautions(YardReport report)
    {
        var named = report.Beds.SelectMany(b => b.Plantings).Select(p => (p.Taxon, Where: ""))
            .Concat(report.Infestations.Select(i => (i.Taxon, Where: " (unwanted)")))
            .Concat(report.Suggestions.Select(s => (s.Taxon, Where: " (suggested)")));
        // Plants that share a caution share its row; the gravest come first.
        return [.. named.Where(n => n.Taxon.Caution.Length > 0).DistinctBy(n => n.Taxon.ScientificName).GroupBy(n => n.Taxon.Caution)
            .OrderBy(g => Gravity(g.First().Taxon)).ThenBy(g => g.First().Taxon.DisplayName, StringComparer.Ordinal)
            .Select(g => new Row([Cell.Of(string.Join(", ", g.Select(n => n.Taxon.DisplayName + n.Where)), Faces.DataStrong.At(8.5)),
            Cell.Of(g.Key, Faces.Data.At(8.5))]))];
    }

    /// <summary>By what it does to whom: the deadly first, what is only taken for another last.</summary>
    internal static int Gravity(CatalogueTaxon taxon) => ToxicityGrades.Gravest(taxon) is { } harm ? (int)harm
        : Enum.GetValues<ToxicityClass>().Length;

    private static IReadOnlyList<Note> Rules(YardReport report)
    {
        var herbs = report.Beds.SelectMany(b => b.Plantings).Select(p => p.Taxon).Concat(report.Suggestions.Select(s => s.Taxon))
            .Where(t => t.LifeForm is not (LifeForm.Tree or LifeForm.Shrub or LifeForm.Vine)).Select(t => t.HeightMaxMetres).Max();
        var tallest = herbs is { } metres
            ? $" The tallest in this report, trees, shrubs and vines aside, may reach {Wording.Height(metres, report.Units)}." : "";
        return
        [
            new("Not for eating",
                "Nothing here says a plant is safe to eat. Where no caution is printed, none was found; that is not proof. Keep children "
                    + "and animals from plants you have not had checked.", Danger: true),
            new("Before you dig",
                "In the United States call 811 some working days before; elsewhere the utility locating service. Buried lines can lie "
                    + "close under the surface. Local rules say how long ahead."),
            new("Herbicide",
                "The label is the law, and some products and places need a licensed applicator. Read it before you buy, and ask before "
                    + "you treat near water or a boundary."),
            new("Height and tidiness rules", $"Many towns limit plant height, above all near the kerb and at corners.{tallest} Ask the "
                + $"code office first; a mown edge and a sign help."),
            new("Fire", "Do not burn a bed on your own. Burning needs a permit and a trained crew, and many towns forbid it."),
            new("Noxious weeds",
                "State and county law may require you to control or report some plants and forbid moving or planting them. Their list "
                    + "decides, not this report."),
        ];
    }
}
