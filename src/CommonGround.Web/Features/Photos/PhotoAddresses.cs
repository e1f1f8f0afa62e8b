using CommonGround.Interchange.Photos;
using CommonGround.Web.Access;

namespace CommonGround.Web.Features.Photos;

/// <summary>Where photos are fetched: of a yard by those who may see it, of a block by everyone while its household agrees.</summary>
public static class PhotoAddresses
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/yards/{code}/photos/{photo:long}", async (string code, long photo, int? side, PhotoQueries photos, PhotoFolder folder,
            HttpContext http) =>
            Send(await photos.FileOfYardAsync(code, photo, http.RequestAborted), side, folder, http)).For(Permission.SeeYard);
        app.MapGet("/photos/{photo:long}", async (long photo, int? side, PhotoQueries photos, PhotoFolder folder, HttpContext http) =>
            Send(await photos.SharedFileAsync(photo, http.RequestAborted), side, folder, http)).For(Permission.SeePublic);
    }

    /// <summary>What a page hands to narrow screens beside the photo: its smaller copies, by their longer side.</summary>
    public static string Sizes(string address) => string.Join(", ", CleanPhoto.SmallerSides.Select(side => $"{address}?side={side} {side}w")
        .Append($"{address} {CleanPhoto.StoredSide}w"));

    private static IResult Send(string? name, int? side, PhotoFolder folder, HttpContext http)
    {
        if (name is null || folder.Open(name, side) is not { } file)
        {
            return Results.NotFound();
        }

        // no-store and nosniff come with every answer.
        http.Response.Headers.ContentDisposition = "inline";
        return Results.Stream(file, CleanPhoto.TypeOf(Path.GetExtension(name)));
    }
}
