using CommonGround.Ecology.Phenology;
using CommonGround.Reports.Layout;

namespace CommonGround.Reports.YardReports;

/// <summary>Writes the report of one yard as a tagged PDF of two to six pages.</summary>
/// <remarks>Safe to call from several threads at once; nothing is kept between calls but the fonts' bytes.</remarks>
public static class YardReportDocument
{
    /// <summary>Writes the PDF.</summary>
    /// <param name="report">What to say.</param>
    /// <param name="paper">Letter or A4.</param>
    /// <param name="to">Written forward only and left open.</param>
    public static void Write(YardReport report, PaperSize paper, Stream to)
    {
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(to);
        var sheet = Sheet.Of(paper);
        using var set = new Typesetter();
        TaggedDocument.Write(to, sheet, MastheadOf(report), set, Flows(report, set, sheet));
    }

    /// <summary>All of the report, top to bottom; the rows of its long table stand closer where that saves a page.</summary>
    internal static IReadOnlyList<Flow> Flows(YardReport report, Typesetter set, Sheet sheet)
    {
        var open = Flows(report, set, sheet, TableSpacing.Open);
        var close = Flows(report, set, sheet, TableSpacing.Close);
        return PagesOf(close, sheet) < PagesOf(open, sheet) ? close : open;
    }

    private static int PagesOf(IReadOnlyList<Flow> flows, Sheet sheet) => Pagination.Pages(Pagination.Place(flows, sheet.TextHeight));

    private static IReadOnlyList<Flow> Flows(YardReport report, Typesetter set, Sheet sheet, TableSpacing spacing)
    {
        var now = HalfMonth.Of(report.AsOf);
        IReadOnlyList<Flow> figures =
        [
            .. Summary.Flows(report, set, sheet, now),
            .. Plantings.Flows(report, set, sheet.TextWidth, spacing),
            .. WhoIsFed.Flows(report, set, sheet.TextWidth),
            .. StreetGaps.Flows(report, set, sheet.TextWidth, now),
            .. Unwanted.Flows(report, set, sheet.TextWidth),
            .. HowSure.Flows(report, set, sheet.TextWidth),
        ];
        var care = CareAndLaw.Flows(report, set, sheet.TextWidth);
        IReadOnlyList<Flow> all = [.. figures, .. care];
        IReadOnlyList<Flow> careOnItsOwnPage = [.. figures, care[0] with { StartsPage = true }, .. care.Skip(1)];
        // Care and law is one thing to read: a page of its own where that costs none.
        return PagesOf(careOnItsOwnPage, sheet) == PagesOf(all, sheet) && PagesOf(figures, sheet) < PagesOf(all, sheet) ? careOnItsOwnPage
            : all;
    }

    private static Masthead MastheadOf(YardReport report) => new(
        $"Yard report · yard {report.YardCode} · {Wording.Date(report.AsOf)}",
        report.Neighbourhood,
        report.Demo
            ? "Invented demo data: no such yard exists. Flowering dates are estimates."
            : $"Made for the household of yard {report.YardCode} from its own records. Flowering dates are estimates.");
}
