using CommonGround.Reports.Tours;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Tours;

/// <summary>A tour on paper: the leaflet for whoever has its address, the steward's sheet for organisers.</summary>
public static class TourFiles
{
    /// <summary>A tour's page.</summary>
    public static string Address(string key) => "/tours/" + key;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/tours/{key}/leaflet.pdf", (string key, string? paper, HttpContext http, CurrentUserQueries viewers,
            TourQueries tours) => PdfAsync(key, paper, http, viewers, tours, forSteward: false)).InTurn().For(Permission.SeePublic);
        app.MapGet("/tours/{key}/steward.pdf", (string key, string? paper, HttpContext http, CurrentUserQueries viewers,
            TourQueries tours) => PdfAsync(key, paper, http, viewers, tours, forSteward: true)).InTurn().For(Permission.Organise);
    }

    private static async Task<IResult> PdfAsync(string key, string? paper, HttpContext http, CurrentUserQueries viewers,
        TourQueries tours, bool forSteward)
    {
        if (YardReportFile.Paper(paper ?? "letter") is not { } size)
        {
            return Results.StatusCode(StatusCodes.Status400BadRequest);
        }

        var address = $"{http.Request.Scheme}://{http.Request.Host}{Address(key.ToUpperInvariant())}";
        if (await tours.GetAsync(key, address, await viewers.ForAsync(http), forSteward, http.RequestAborted) is not { } tour)
        {
            return Results.NotFound();
        }

        using var pdf = new MemoryStream();
        if (forSteward)
        {
            StewardSheet.Write(tour, size, pdf);
        }
        else
        {
            TourLeaflet.Write(tour, size, pdf);
        }

        return Results.File(pdf.ToArray(), "application/pdf");
    }
}
