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

    /// <summary>All of the report, top to bottom: for the household, a sheet to take along, a calendar to hang, and how it was worked
    /// out. What a page of the first two leaves empty is ruled to be written on.</summary>
    internal static IReadOnlyList<Flow> Flows(ConversionReport report, Typesetter set, Sheet sheet)
    {
        var words = new PlanWording(report);
        var width = sheet.TextWidth;
        return
        [
            .. Filled(set, sheet, "Your questions to the group", Best(sheet,
                Cover.Flows(report, words, set, sheet),
                StartsPage(WhatItTakes.Flows(report, words, set, width)),
                Worries.Flows(report, set, width),
                Worries.Before(report, words, set, width),
                [.. WhoComes.Flows(report, set, width), .. CautionsAndSources.Plants(report, set, width)])),
            .. Filled(set, sheet, "Ordered: what, where and when", TearOff.Flows(report, words, set, sheet)),
            .. HangingCalendar.Flows(report, set, sheet),
            .. Best(sheet,
                StartsPage(PlantingPages.Flows(report, words, set, width)),
                AmountsTable.Flows(report, words, set, width),
                SettingOut.Seed(report, words, set, width).ToList(),
                InFigures.Flows(report, words, set, width),
                YearByYear.Flows(report, set, width),
                CautionsAndSources.Flows(report, words, set, width)),
        ];
    }

    private static IReadOnlyList<Flow> StartsPage(IReadOnlyList<Flow> flows) => [flows[0] with { StartsPage = true }, .. flows.Skip(1)];

    /// <summary>Parts under each other; those begin a page of their own that leave the fewest pages empty by a third, on the fewest
    /// pages.</summary>
    private static List<Flow> Best(Sheet sheet, params IReadOnlyList<IReadOnlyList<Flow>> parts)
    {
        parts = [.. parts.Where(p => p.Count > 0)];
        return Enumerable.Range(0, 1 << (parts.Count - 1)).Select(mask => (Mask: mask, Flows: Joined(parts, mask << 1)))
            .Select(c => (c.Flows, Ends: Ends(c.Flows, sheet), Starts: System.Numerics.BitOperations.PopCount((uint)c.Mask)))
            .OrderBy(c => c.Ends.SkipLast(1).Count(e => e < 2.0 / 3)).ThenBy(c => c.Ends.Count).ThenByDescending(c => c.Starts)
            .First().Flows;
    }

    /// <summary>How far down each page is used, 0–1.</summary>
    private static List<double> Ends(IReadOnlyList<Flow> flows, Sheet sheet) =>
        [.. Pagination.Place(flows, sheet.TextHeight).GroupBy(p => p.Page)
            .Select(g => g.Max(p => p.Y + p.Slice.Height) / sheet.TextHeight)];

    /// <summary>Lines to write on where the last page would be empty by a third.</summary>
    private static IReadOnlyList<Flow> Filled(Typesetter set, Sheet sheet, string heading, IReadOnlyList<Flow> flows)
    {
        var left = (1 - Ends(flows, sheet)[^1]) * sheet.TextHeight;
        return left < sheet.TextHeight / 4 ? flows
            : [.. flows, Prose.H2(set, sheet.TextWidth, heading), Ruled.Lines(sheet.TextWidth, left - 50)];
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
