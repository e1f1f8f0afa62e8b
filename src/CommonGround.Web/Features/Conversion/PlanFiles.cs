using System.Text;
using CommonGround.Reports.ConversionReports;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Conversion;

/// <summary>A kept plan as files: its report and its shopping list, for those who may see the yard.</summary>
public static class PlanFiles
{
    public static void Map(IEndpointRouteBuilder root)
    {
        var app = root.MapGroup("").For(Permission.RecordInYard);
        app.MapGet("/plans/{plan:long}/report.pdf", async (long plan, string? paper, HttpContext http, CurrentUserQueries viewers,
            ConversionReportQueries reports) =>
        {
            if (YardReportFile.Paper(paper ?? "letter") is not { } size)
            {
                // The page of refused addresses says what is allowed.
                return Results.StatusCode(StatusCodes.Status400BadRequest);
            }

            try
            {
                var address = $"{http.Request.Scheme}://{http.Request.Host}/plans/{plan}";
                if (await reports.OfPlanAsync(plan, await viewers.ForAsync(http), address, http.RequestAborted) is not { } report)
                {
                    return Results.NotFound();
                }

                using var pdf = new MemoryStream();
                ConversionReportDocument.Write(report, size, pdf);
                Operations.Metrics.Reports.Add(1);
                // The plan's own page shows it in a frame; nobody else's may.
                http.Response.Headers.ContentSecurityPolicy = "default-src 'none'; frame-ancestors 'self'";
                return Results.File(pdf.ToArray(), "application/pdf");
            }
            catch (PlanRefusedException e)
            {
                return Results.Text("This plan no longer holds: " + e.Message, statusCode: StatusCodes.Status409Conflict);
            }
        }).InTurn();
        app.MapGet("/plans/preview/{page:guid}", (Guid page, HttpContext http, PlanPreviews previews) =>
        {
            if (previews.Find(page) is not { } pdf)
            {
                return Results.NotFound();
            }

            http.Response.Headers.ContentSecurityPolicy = "default-src 'none'; frame-ancestors 'self'";
            http.Response.Headers.CacheControl = "no-store";
            return Results.File(pdf, "application/pdf");
        });
        app.MapGet("/plans/{plan:long}/shopping.csv", (long plan, HttpContext http, CurrentUserQueries viewers,
            ConversionReportQueries reports) =>
            ListAsync(plan, http, viewers, reports, sheet => Results.File(Encoding.UTF8.GetBytes(sheet.ToCsv()),
                "text/csv; charset=utf-8", $"shopping-{plan}.csv")));
        app.MapGet("/plans/{plan:long}/shopping.xlsx", (long plan, HttpContext http, CurrentUserQueries viewers,
            ConversionReportQueries reports) => ListAsync(plan, http, viewers, reports, sheet =>
        {
            using var file = new MemoryStream();
            sheet.WriteXlsx(file);
            return Results.File(file.ToArray(),
                "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", $"shopping-{plan}.xlsx");
        }));
    }

    private static async Task<IResult> ListAsync(long id, HttpContext http, CurrentUserQueries viewers, ConversionReportQueries reports,
        Func<Interchange.Spreadsheets.Sheet, IResult> write)
    {
        try
        {
            var plan = await reports.PlanAsync(id, await viewers.ForAsync(http), http.RequestAborted);
            return plan is null ? Results.NotFound() : write(ShoppingFile.Of(plan));
        }
        catch (PlanRefusedException e)
        {
            return Results.Text("This plan no longer holds: " + e.Message, statusCode: StatusCodes.Status409Conflict);
        }
    }
}
