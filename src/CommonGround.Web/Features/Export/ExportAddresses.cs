using System.Globalization;
using System.Text;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Features.Export;

/// <summary>The record as files from the page, as the command <c>export</c> writes them.</summary>
public static class ExportAddresses
{
    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/export/{format}", async (string format, string? exact,
        string? licence, string? contact, string? email, ExportFiles export, CurrentNeighbourhood here, GroupClock clock,
        HttpContext http) =>
    {
        var isExact = exact == "true";
        var name = $"{string.Concat(here.Name.Select(c => char.IsLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-'))}-"
            + clock.CalendarToday.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) + (isExact ? "-exact" : "");
        switch (format)
        {
            case "csv":
                return await FileAsync(to => export.WriteCsvZipAsync(to, isExact, http.RequestAborted), "application/zip",
                    name + "-csv.zip");
            case "xlsx":
                var rows = await export.RowsAsync(isExact, http.RequestAborted);
                return await FileAsync(
                    to =>
                    {
                        WorkbookExport.Write(to, rows);
                        return Task.CompletedTask;
                    }, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", name + ".xlsx");
            case "json":
                return Text(await export.JsonAsync(isExact, http.RequestAborted), "application/json", name + ".json");
            case "geojson":
                return Text(await export.GeoJsonAsync(isExact, http.RequestAborted), "application/geo+json", name + ".geojson");
            case "dwca" when Licence.Keyed(licence ?? "cc0") is { } chosen && !isExact:
                return await FileAsync(to => export.WriteArchiveAsync(to, chosen, Short(contact), Short(email), exact: false,
                    http.RequestAborted), "application/zip", name + "-dwca.zip");
            default:
                return Results.NotFound();
        }
    }).For(Permission.Organise);

    private static string Short(string? text) => (text ?? "").Trim() is var trimmed && trimmed.Length > 200 ? trimmed[..200] : trimmed;

    private static IResult Text(string text, string type, string name) => Results.File(Encoding.UTF8.GetBytes(text), type, name);

    private static async Task<IResult> FileAsync(Func<Stream, Task> write, string type, string name)
    {
        using var held = new MemoryStream();
        await write(held);
        return Results.File(held.ToArray(), type, name);
    }
}
