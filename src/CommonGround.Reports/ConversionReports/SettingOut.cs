using CommonGround.Planning.Conversion;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Where everything goes: plugs in drifts on a grid, seed pass by pass.</summary>
internal static class SettingOut
{
    /// <summary>Plugs, drift by drift where the bed is small enough to be drawn.</summary>
    public static IEnumerable<Flow> Plugs(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var (request, mix) = (report.Plan.Request, report.Plan.Mix);
        var plans = DriftPlan.Of(request, mix);
        foreach (var plan in plans)
        {
            var title = $"{Wording.Capital(plan.Area.Name)}, {words.Area(plan.Area.SquareMetres)}";
            yield return Prose.H3(set, width, plan.BandMetres is { } band
                ? $"{title}: plugs in a band {words.Height(band)} deep, the rest sown" : $"{title}: plug by plug");
            yield return Prose.Small(set, width, Caption(plan), keepWithNext: true);
            yield return Picture.Of(DriftChart.Draw(title, plan, mix.Numbered, report.Units == Units.UsCustomary,
                Picture.DesignWidth(width)), width) with
            { SpaceBefore = 4 };
        }

        if (plans.Count == 0 && mix.Taxa.Any(t => t.Plugs > 0))
        {
            yield return Prose.H3(set, width, "Plugs");
            yield return Prose.Body(set,
                width, $"{PlantingWords.Plugs(request, mix, words.Customary)} In groups of three to nine of a kind, low ones towards the "
                    + "walk; how many of each stands in the list.");
        }
    }

    private static string Caption(DriftPlan plan)
    {
        var assumed = plan.Assumed
            ? "Only the size of this area is known, so it is drawn as a rectangle twice as wide as deep: move the drifts to fit yours. "
            : "";
        return $"{assumed}Peg out the dotted lines with string, then set each plug on its dot, drift by drift, from the back forward. "
            + $"Numbers are those of the tables; after each name stands how many. {DriftChart.Textures}";
    }

    /// <summary>One line on the seed: how much goes where, the rest further on.</summary>
    public static IEnumerable<Flow> Sown(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var passes = SowingPass.Of(report.Plan.Request, report.Plan.Mix, words.Customary);
        if (passes.Count == 0) yield break;
        yield return Prose.H3(set, width, "Seed");
        yield return Prose.Body(set, width, $"{Wording.Capital(Wording.Count(passes.Sum(p => p.Taxa.Count), "kind", "kinds"))}, sown in "
            + $"{Wording.Count(passes.Count, "pass", "passes")} on bare soil: how, stands further on under “Seed, pass by pass”.");
    }

    /// <summary>How the seed is put out, pass by pass.</summary>
    public static IEnumerable<Flow> Seed(ConversionReport report, PlanWording words, Typesetter set, double width)
    {
        var mix = report.Plan.Mix;
        var passes = SowingPass.Of(report.Plan.Request, mix, words.Customary);
        if (passes.Count == 0) yield break;
        var numbers = mix.Numbered.Index().ToDictionary(t => t.Item.Taxon.ScientificName, t => t.Index + 1, StringComparer.Ordinal);
        yield return Prose.H2(set, width, "Seed, pass by pass");
        yield return new Table([new("Pass", 24), new("Kinds, by number", 36), new("Where and how", 76)],
            [.. passes.Select((p, i) => new Row([
                Cell.Of($"{i + 1}. {p.Name}", Faces.DataStrong),
                Cell.Of(string.Join(", ", p.Taxa.Select(t => numbers[t.Taxon.ScientificName]).Order())),
                Cell.Of(p.How),
            ]))], TableSpacing.Close).Lay(set, width) with
        { SpaceBefore = 4 };
    }
}
