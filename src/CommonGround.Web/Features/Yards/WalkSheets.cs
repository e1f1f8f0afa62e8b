using CommonGround.Ecology.Taxa;
using CommonGround.Reports.WalkSheets;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Yards;

/// <summary>The last list of a yard as a sheet of paper; its rows stand in the order of the page where it is typed in.</summary>
public sealed class WalkSheets(YardQueries yards, Likenesses likenesses, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    private static readonly string[] Told = ["flower", "leaf"];

    /// <summary>Null when there is no such yard or the reader may not see it.</summary>
    public async Task<WalkSheet?> GetAsync(string code, CurrentUser currentUser, string address, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        return await yards.BedsAsync(code, currentUser, cancel) is not { } beds ? null : new WalkSheet
        {
            Neighbourhood = neighbourhood.Name,
            Demo = neighbourhood.IsDemo,
            YardCode = code,
            AsOf = clock.Today,
            Units = currentUser.Customary ? Reports.YardReports.Units.UsCustomary : Reports.YardReports.Units.Metric,
            EntryAddress = address,
            Beds = [.. beds.Select(b => new WalkBed(b.Name, [.. Rows(b).Select(p => Row(p, currentUser.Customary))]))],
        };
    }

    /// <summary>The rows of a bed, on paper and on the page: what counts, then what nobody has seen for long.</summary>
    public static IReadOnlyList<PlantingLine> Rows(BedView bed)
    {
        ArgumentNullException.ThrowIfNull(bed);
        return [.. bed.Plantings, .. bed.Unseen];
    }

    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/yards/{code}/walk-sheet.pdf",
        async (string code, string? paper, HttpContext http, CurrentUserQueries viewers, WalkSheets sheets) =>
    {
        if (YardReportFile.Paper(paper ?? "letter") is not { } size)
        {
            return Results.StatusCode(StatusCodes.Status400BadRequest);
        }

        var address = $"{http.Request.Scheme}://{http.Request.Host}/yards/{Uri.EscapeDataString(code)}/record/sheet";
        if (await sheets.GetAsync(code, await viewers.ForAsync(http), address, http.RequestAborted) is not { } sheet)
        {
            return Results.NotFound();
        }

        using var pdf = new MemoryStream();
        WalkSheetDocument.Write(sheet, size, pdf);
        return Results.File(pdf.ToArray(), "application/pdf");
    }).InTurn().For(Permission.SeeYard);

    private WalkRow Row(PlantingLine p, bool feet)
    {
        var row = likenesses.Of(p.Taxon).Characters;
        return new(p.Taxon, p.Patch.Length > 0 ? PlantWords.Patch(p.Patch) : "", p.Qualifier, p.CoverSquareMetres, p.GrowthStage is { } s
            ? PlantWords.Stage(s) : "", p.ObservedOn, p.Certainty,
            row is null ? [] : [.. Told.Select(mark => MarkWords.Of(row, mark, feet))]);
    }
}
