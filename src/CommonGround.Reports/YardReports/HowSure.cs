using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Layout;

namespace CommonGround.Reports.YardReports;

/// <summary>How sure each kind of figure is, and where it comes from.</summary>
internal static class HowSure
{
    public static IReadOnlyList<Flow> Flows(YardReport report, Typesetter set, double width)
    {
        IReadOnlyList<(string What, string Words)> lines =
        [
            ("Names", Names(report)),
            ("Cover", Cover(report)),
            ("Flowering", Flowering(report)),
            ("C values", CValues(report)),
            ("Visitors",
                "The groups that published field lists name for each plant; your garden may see others. Kinds are counted from one "
                    + "county’s record of 1884–1916."),
            ("Gaps", $"Covered means {Wording.Count(report.Season.Norm)} or more native species in flower, the usual norm; grasses and "
                + $"sedges do not count."),
        ];
        return
        [
            Prose.H3(set, width, "How sure we are") with { SpaceBefore = 16 },
            Prose.List(set, width,
                [.. lines.Select(l => new[] { new Run(l.What + ": ", Faces.Small with { Family = Faces.SansSemi }),
                    new Run(l.Words, Faces.Small.In(Ink.Black)) })]),
        ];
    }

    private static IReadOnlyList<ReportPlanting> All(YardReport report) => [.. report.Beds.SelectMany(b => b.Plantings)];

    private static IReadOnlyList<CatalogueTaxon> Taxa(YardReport report) =>
        [.. All(report).Select(p => p.Taxon).Concat(report.Suggestions.Select(s => s.Taxon)).DistinctBy(t => t.ScientificName)];

    private static string Names(YardReport report)
    {
        var plantings = All(report);
        if (plantings.Count == 0)
        {
            return "No plant is recorded.";
        }

        var tentative = plantings.Where(p => p.Certainty == Certainty.Tentative).Select(p => p.Taxon.DisplayName)
            .Distinct(StringComparer.Ordinal).ToList();
        var probable = plantings.Count(p => p.Certainty == Certainty.Probable);
        var certain = plantings.Count(p => p.Certainty == Certainty.Certain);
        var doubt = tentative.Count == 0 ? "none tentative"
            : $"{plantings.Count - probable - certain} tentative "
            + $"({string.Join(", ", tentative.Take(4))}{(tentative.Count > 4 ? $" and {tentative.Count - 4} more" : "")})";
        return $"{Wording.Capital(Wording.Count(plantings.Count, "planting", "plantings"))}: {certain} certain, {probable} probable, "
            + $"{doubt}.";
    }

    private static string Cover(YardReport report)
    {
        var derived = All(report).Count(p => p.CoverDerived);
        var counted = derived > 0 ? $" {Wording.Capital(Wording.Count(derived))} {(derived == 1 ? "is" : "are")} from counts." : "";
        return $"Judged by eye on the last walk up to {Wording.Date(report.AsOf)}; two people seldom judge alike.{counted}";
    }

    private static string Flowering(YardReport report)
    {
        var places = Taxa(report).Where(t => t.Bloom is not null).Select(t => t.BloomPlace).Where(p => p.Length > 0)
            .Distinct(StringComparer.Ordinal).ToList();
        var place = places.Count == 0 ? "the catalogue’s place" : Wording.Listed(places);
        var unknown = All(report).Select(p => p.Taxon).DistinctBy(t => t.ScientificName).Count(t => t.Bloom is null
            && t.LifeForm is not (LifeForm.Grass or LifeForm.Sedge or LifeForm.Fern or LifeForm.Turf));
        var missing = unknown > 0
            ? $" {Wording.Capital(Wording.Count(unknown, "plant has", "plants have"))} no dates and {(unknown == 1 ? "is" : "are")} not "
            + $"counted." : "";
        if (report.BloomDates.Length > 0)
        {
            return $"{report.BloomDates} They are given by the half-month (source: {Sources(report, "bloom")}).{missing}";
        }

        return $"Averages for {place}, given by the half-month (source: {Sources(report, "bloom")}); a warm or cold spring moves them.{missing}";
    }

    private static string CValues(YardReport report)
    {
        var regions = Taxa(report).Where(t => t.C is not null).GroupBy(t => t.CRegion).OrderByDescending(g => g.Count())
            .Select(g => Wording.Capital(g.Key.Replace('_', ' '))).ToList();
        return report.Table.Length > 0 && regions.Count > 0
            ? $"By the table of {report.Table}. They rank how bound a plant is to undisturbed ground, not its worth."
            : regions.Count == 0
            ? "No plant here has one."
            : $"Set by botanists for a region: {Wording.Listed(regions)}. They rank how bound a plant is to undisturbed ground, not its "
            + $"worth.";
    }

    private static string Sources(YardReport report, string group)
    {
        var sources = Taxa(report).Select(t => t.Sources.GetValueOrDefault(group, "")).Where(s => s.Length > 0).GroupBy(s => s)
            .OrderByDescending(g => g.Count()).Select(g => g.Key).Take(2).ToList();
        return sources.Count == 0 ? "source not noted" : Wording.Listed(sources);
    }
}
