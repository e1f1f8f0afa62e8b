using CommonGround.Interchange.Photos;
using CommonGround.Web.Access;

namespace CommonGround.Web.Features.Photos;

/// <summary>Where photos are fetched: of a yard by those who may see it, of a block by everyone while its household agrees.</summary>
public static class PhotoAddresses
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/yards/{code}/photos/{photo:long}", async (string code, long photo, PhotoQueries photos, PhotoFolder folder, HttpContext http) =>
            Send(await photos.FileOfYardAsync(code, photo, http.RequestAborted), folder, http)).For(Permission.SeeYard);
        app.MapGet("/photos/{photo:long}", async (long photo, PhotoQueries photos, PhotoFolder folder, HttpContext http) =>
            Send(await photos.SharedFileAsync(photo, http.RequestAborted), folder, http)).For(Permission.SeePublic);
    }

    private static IResult Send(string? name, PhotoFolder folder, HttpContext http)
    {
        if (name is null || folder.Open(name) is not { } file)
        {
            return Results.NotFound();
        }

        // no-store and nosniff come with every answer.
        http.Response.Headers.ContentDisposition = "inline";
        return Results.Stream(file, CleanPhoto.TypeOf(Path.GetExtension(name)));
    }
}
