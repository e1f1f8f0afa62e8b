using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.ConversionReports;

/// <summary>Writes the report of one conversion plan as a tagged PDF: four to seven pages for an ordinary plan, more for very many
/// taxa.</summary>
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
            PlantingPages.Flows(report, words, set, width),
            ShoppingList.Flows(report, words, set, width),
            WhatItComesTo.Flows(report, words, set, width),
            WorkAndYears.Flows(report, words, set, width),
            CautionsAndSources.Flows(report, words, set, width),
        ];
        const int First = 2;
        var choices = 1 << (parts.Count - First);
        return Enumerable.Range(0, choices)
            .Select(mask => (Mask: mask, Flows: Joined(parts, mask << First)))
            .Select(c => (c.Flows, Pages: Pagination.Pages(Pagination.Place(c.Flows, sheet.TextHeight)),
            Starts: System.Numerics.BitOperations.PopCount((uint)c.Mask)))
            .OrderBy(c => c.Pages).ThenByDescending(c => c.Starts)
            .First().Flows;
    }

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
