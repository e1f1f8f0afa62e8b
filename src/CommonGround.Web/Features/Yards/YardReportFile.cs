using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;
using CommonGround.Web.Access;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Yards;

/// <summary>A yard's report as a PDF, for those who may see the yard.</summary>
public static class YardReportFile
{
    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/yards/{code}/report.pdf",
        async (string code, string? paper, HttpContext http, CurrentUserQueries viewers, YardReportQueries reports) =>
    {
        if (Paper(paper ?? "letter") is not { } size)
        {
            // The page of refused addresses says what is allowed.
            return Results.StatusCode(StatusCodes.Status400BadRequest);
        }

        var report = await reports.GetAsync(code, await viewers.ForAsync(http), http.RequestAborted);
        if (report is null)
        {
            return Results.NotFound();
        }

        using var pdf = new MemoryStream();
        YardReportDocument.Write(report, size, pdf);
        Operations.Metrics.Reports.Add(1);
        return Results.File(pdf.ToArray(), "application/pdf");
    }).InTurn().For(Permission.SeeYard);

    public static PaperSize? Paper(string word) => word switch { "letter" => PaperSize.Letter, "a4" => PaperSize.A4, _ => null };
}
