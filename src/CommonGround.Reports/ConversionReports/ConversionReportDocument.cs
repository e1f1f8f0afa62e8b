using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Writes the report of one conversion plan as a tagged PDF: first what a household asks, then how it was worked
/// out. Nine to fourteen pages for an ordinary plan, more for very many kinds.</summary>
/// <remarks>Safe to call from several threads at once; nothing is kept between calls but the fonts' bytes.</remarks>
public static class ConversionReportDocument
{
    /// <summary>Writes the PDF.</summary>
    /// <param name="report">What to say.</param>
    /// <param name="paper">Letter or A4.</param>
    /// <param name="to">Written forward only and left open.</param>
    public static void Write(ConversionReport report, PaperSize paper, Stream to)
    {
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(to);
        var sheet = Sheet.Of(paper);
        using var set = new Typesetter();
        TaggedDocument.Write(to, sheet, MastheadOf(report), set, Flows(report, set, sheet));
    }

    /// <summary>All of the report, top to bottom. A part begins a page of its own where that costs none.</summary>
    internal static IReadOnlyList<Flow> Flows(ConversionReport report, Typesetter set, Sheet sheet)
    {
        var words = new PlanWording(report);
        var width = sheet.TextWidth;
        IReadOnlyList<IReadOnlyList<Flow>> parts =
        [
            Cover.Flows(report, words, set, sheet),
            StartsPage(WhatItTakes.Flows(report, words, set, width)),
            Worries.Flows(report, words, set, width),
            WhoComes.Flows(report, set, width),
            TearOff.Flows(report, words, set, sheet),
            HangingCalendar.Flows(report, set, sheet),
            StartsPage(PlantingPages.Flows(report, words, set, width)),
            AmountsTable.Flows(report, words, set, width),
            InFigures.Flows(report, words, set, width),
            YearByYear.Flows(report, set, width),
            CautionsAndSources.Flows(report, words, set, width),
        ];
        // A part begins a page of its own where that costs none; each is asked once, from the front.
        var starts = 0;
        foreach (var part in Enumerable.Range(2, parts.Count - 2).Where(p => parts[p].Count > 0))
        {
            var with = starts | (1 << part);
            if (Pages(parts, with, sheet) <= Pages(parts, starts, sheet)) starts = with;
        }

        return Joined(parts, starts);
    }

    private static int Pages(IReadOnlyList<IReadOnlyList<Flow>> parts, int starts, Sheet sheet) =>
        Pagination.Pages(Pagination.Place(Joined(parts, starts), sheet.TextHeight));

    private static IReadOnlyList<Flow> StartsPage(IReadOnlyList<Flow> flows) => [flows[0] with { StartsPage = true }, .. flows.Skip(1)];

    private static List<Flow> Joined(IReadOnlyList<IReadOnlyList<Flow>> parts, int startsPage) =>
        [.. parts.SelectMany((part, i) => (startsPage >> i & 1) == 1 ? part.Select((f, j) => j == 0 ? f with { StartsPage = true } : f)
            : part)];

    private static Masthead MastheadOf(ConversionReport report) => new(
        $"Conversion plan · yard {report.YardCode} · {Wording.Date(report.AsOf)}",
        report.Neighbourhood,
        (report.Demo ? "Invented demo data: no such yard exists."
            : $"Made for the household of yard {report.YardCode} from its own records.")
        + (report.Plan.Money.PricesInvented && !report.NoPrices ? " All prices are invented." : ""));
}
