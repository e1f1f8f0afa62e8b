using System.Globalization;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Layout;

namespace CommonGround.Reports.YardReports;

/// <summary>What grows in the yard, bed by bed, and how it has changed.</summary>
internal static class Plantings
{
    public static IReadOnlyList<Flow> Flows(YardReport report, Typesetter set, double width, TableSpacing spacing)
    {
        var planted = report.Beds.Where(b => b.Plantings.Count > 0).ToList();
        var flows = new List<Flow>();
        if (planted.Count == 0)
        {
            // The lead has said that nothing is recorded: only the ground is left to tell.
            flows.Add(Prose.Small(set, width, Ground(report)) with { SpaceBefore = 12 });
        }
        else
        {
            flows.Add(Prose.H2(set,
                width, $"What grows here: {Wording.Count(Kinds(report), "kind", "kinds")} in "
                    + $"{Wording.Count(planted.Count, "bed", "beds")}"));
            flows.Add(Prose.Small(set, width, Ground(report), keepWithNext: true));
            flows.Add(new Table(Columns(report.Units), [.. planted.SelectMany(b => Rows(b, report.Units))], spacing).Lay(set, width));
            flows.Add(Prose.Small(set, width, Quality(report)) with { SpaceBefore = 8 });
        }

        if (report.History.Count > 1)
        {
            flows.Add(Prose.H3(set, width, "Season by season") with { SpaceBefore = 10 });
            flows.Add(Seasons(report).Lay(set, width) with { SpaceBefore = 2 });
        }

        return flows;
    }

    private static int Kinds(YardReport report) => report.Beds.SelectMany(b => b.Plantings).Select(p => p.Taxon.ScientificName)
        .Distinct(StringComparer.Ordinal).Count();

    /// <summary>The ground in words: yard, lawn, light, moisture and soil, each only where somebody has said.</summary>
    private static string Ground(YardReport report)
    {
        var lawn = report.LawnSquareMetres is { } l ? $"lawn {Wording.Area(l, report.Units)}" : "lawn not measured";
        var site = Wording.Listed([
            report.Light is { } light ? Wording.Of(light) : "light not noted",
            report.Moisture is { } moisture ? $"{Wording.Of(moisture)} ground" : "moisture not noted",
            report.SoilGroup is { } soil ? $"soil group {soil}" : "soil group not noted"]);
        var empty = report.Beds.Where(b => b.Plantings.Count == 0).Select(b => b.Name).ToList();
        var bare = empty.Count > 0 ? $" Nothing is recorded in {Wording.Listed(empty)}." : "";
        return $"Yard {Wording.Area(report.YardSquareMetres, report.Units)}, {lawn}; {site}. {report.Street.Name}, {report.Block}, as of "
            + $"{Wording.Date(report.AsOf)}.{bare}";
    }

    private static IReadOnlyList<Column> Columns(Units units) =>
    [
        new("Plant", 47),
        new($"Cover, {Wording.AreaUnit(units)}", 10.5, Right: true),
        new("In flower", 18),
        new($"Height, {Wording.HeightUnit(units)}", 11.5),
        new("Origin", 11),
        new("How sure", 11),
        new("C", 4, Right: true),
    ];

    private static IEnumerable<Row> Rows(ReportBed bed, Units units)
    {
        var area = bed.AreaSquareMetres is { } a ? $"  {Wording.Area(a, units)}" : "  area not measured";
        yield return new Row([new Cell([new Run(Wording.Capital(bed.Name), Faces.DataStrong), new Run(area, Faces.Data.In(Ink.Second))])]);
        foreach (var planting in bed.Plantings)
        {
            var taxon = planting.Taxon;
            var tentative = planting.Certainty == Certainty.Tentative;
            yield return new Row([
                new Cell(Name(taxon, planting.Qualifier)),
                Cell.Of(Wording.AreaFigure(planting.CoverSquareMetres, units) + (planting.CoverDerived ? "*" : "")),
                Cell.Of(Wording.Window(taxon)),
                Cell.Of(Wording.HeightFigures(taxon, units)),
                Cell.Of(Wording.Of(planting.Origin)),
                Cell.Of(Wording.Of(planting.Certainty), tentative ? Faces.DataStrong : Faces.Data),
                Cell.Of(taxon.C?.ToString("0.#", CultureInfo.InvariantCulture) ?? Wording.Undefined),
            ]);
        }
    }

    /// <summary>Common name, then the scientific name in italic; introduced plants say so.</summary>
    internal static IReadOnlyList<Run> Name(CatalogueTaxon taxon, string qualifier = "", bool sayIntroduced = true)
    {
        var runs = new List<Run>();
        if (taxon.CommonNames.Count > 0)
        {
            runs.Add(new Run(taxon.DisplayName + " ", Faces.Data));
        }

        runs.Add(new Run(Wording.Latin(taxon.ScientificName, qualifier), Faces.Latin, Unbroken: true));
        if (sayIntroduced && taxon.Nativity == Nativity.Introduced)
        {
            runs.Add(new Run(", introduced", Faces.Data.In(Ink.Second)));
        }

        return runs;
    }

    private static string Quality(YardReport report)
    {
        var measures = report.Measures;
        var meanC = measures.MeanC is { } c
            ? $"Mean C {Wording.Measure(c)} with introduced plants as 0, {Wording.Measure(measures.NativeMeanC)} for native ones alone; 0 "
            + $"grows anywhere, 10 only on old undisturbed ground."
            : $"Mean C {Wording.Undefined}: no plant here has a C value.";
        var table = report.Table.Length > 0 && measures.MeanC is not null ? $" C is from the table of {report.Table}." : "";
        var without = measures.WithoutC > 0
            ? $" {Wording.Capital(Wording.Count(measures.WithoutC, "plant has", "plants have"))} no C value and "
            + $"{(measures.WithoutC == 1 ? "is" : "are")} left out." : "";
        var derived = report.Beds.SelectMany(b => b.Plantings).Any(p => p.CoverDerived) ? " * is from a count and the usual spacing." : "";
        return $"{meanC}{table}{without}{derived} {Wording.Undefined} is not known, or no C for an introduced plant.";
    }

    private static Table Seasons(YardReport report) => new(
        [new("As of", 18), new("Native species", 12, Right: true), new("Season covered", 14, Right: true),
            new("Late season", 12, Right: true), new($"Cover, {Wording.AreaUnit(report.Units)}", 12, Right: true),
                new("Mean C", 10, Right: true)],
        [.. report.History.Select(s => new Row([
            Cell.Of(Wording.Date(s.AsOf)),
            Cell.Of($"{s.Measures.NativeRichness}"),
            Cell.Of($"{Wording.Covered(s.Measures.Bloom, report.Season, report.Season.First)} of "
                + $"{report.Season.Last - report.Season.First + 1}"),
            Cell.Of($"{Wording.Covered(s.Measures.Bloom, report.Season, report.Season.LateFrom)} of "
                + $"{report.Season.Last - report.Season.LateFrom + 1}"),
            Cell.Of(Wording.AreaFigure(s.CoverSquareMetres, report.Units)),
            Cell.Of(Wording.Measure(s.Measures.MeanC)),
        ]))]);
}
