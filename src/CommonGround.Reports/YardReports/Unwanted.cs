using System.Globalization;
using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;

namespace CommonGround.Reports.YardReports;

/// <summary>Unwanted plants in the yard and when they are usually controlled.</summary>
internal static class Unwanted
{
    public static IReadOnlyList<Flow> Flows(YardReport report, Typesetter set, double width)
    {
        var flows = new List<Flow> { Prose.H2(set, width, report.Infestations.Count == 0 ? "Unwanted plants: none recorded"
            : $"Unwanted plants: {Wording.Count(report.Infestations.Count)}") };
        var pressure = report.Measures.InvasivePressureSquareMetres is { } p
            ? $"Pressure on this yard from all that is recorded near it: {p:0.0} m²-equivalents, by weights the group has set."
            : $"Pressure from what grows near: {Wording.Undefined}, not worked out for this report.";
        if (report.Infestations.Count == 0)
        {
            flows.Add(Prose.Body(set,
                width, $"Nobody has recorded an unwanted plant in this yard as of {Wording.Date(report.AsOf)}; that is not proof that "
                    + $"there is none. {pressure}"));
            return flows;
        }

        flows.Add(Prose.Small(set,
            width, $"{pressure} The months of control are common practice; the label, local advice and the law come first.",
                keepWithNext: true));
        flows.Add(new Table(
            [new("Plant", 44), new($"Area, {Wording.AreaUnit(report.Units)}", 11, Right: true), new("Cover, %", 10, Right: true),
                new("Seen on", 20), new("Usual control", 24), new("Seed lives", 16)],
            [.. report.Infestations.Select(i => new Row([
                new Cell(Plantings.Name(i.Taxon, sayIntroduced: false)),
                Cell.Of(Wording.AreaFigure(i.AreaSquareMetres, report.Units)),
                Cell.Of(i.CoverPercent.ToString("0", CultureInfo.InvariantCulture)),
                Cell.Of(Wording.Date(i.ObservedOn)),
                Cell.Of(i.Taxon is { ControlStart: { } from, ControlEnd: { } to } ? HalfMonthWords.RunShort(from, to) : "not known"),
                Cell.Of(i.Taxon.SeedbankHalfLifeYears is { } years
                    ? $"half gone in {years.ToString("0.#", CultureInfo.InvariantCulture)} y" : "not known"),
            ]))]).Lay(set, width) with
        { SpaceBefore = 4 });
        return flows;
    }
}
