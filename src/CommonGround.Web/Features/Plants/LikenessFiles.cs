using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Plants;

/// <summary>Pictures of a plant, each at an address of its own (docs/decisions/0021): small in lists, four times of its year, its
/// marks.</summary>
public static class LikenessFiles
{
    /// <remarks>Not counted against a reader's requests: a list of plants asks for sixty at once, all of them from memory.</remarks>
    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/plants/{slug}/drawn/{picture}.svg",
        async (string slug, string picture, string? v, string? look, string? feet, HttpContext http, LiveCommunity live,
            Likenesses likenesses) =>
        {
            var loaded = await live.LoadedAsync(http.RequestAborted);
            if (loaded.Matrix.Taxa.FirstOrDefault(t => PlantLink.Slug(t.ScientificName) == slug) is not { } taxon)
            {
                return Results.NotFound();
            }

            var plant = likenesses.Of(taxon);
            if (Draw(plant, picture, feet == "1") is not { } draw)
            {
                return Results.NotFound();
            }

            // Another hash than today's is an old page's: it gets today's picture, and keeps it no longer than itself.
            if (v == likenesses.HashOf(plant))
            {
                http.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
            }

            return Results.Text(likenesses.Svg($"{slug}|{likenesses.HashOf(plant)}|{picture}|{feet == "1"}", look, draw), "image/svg+xml");
        }).DisableRateLimiting().For(Permission.SeePublic);

    private static Func<Picture>? Draw(Likeness plant, string picture, bool feet)
    {
        if (picture == "likeness")
        {
            return () => Portrait.Small(plant);
        }

        if (Portrait.Moments(plant).FirstOrDefault(m => m.Key == picture) is { } moment)
        {
            return () => Portrait.At(plant, moment, feet, SceneWords.Of(plant, moment.Half, 3));
        }

        return picture.StartsWith("mark-", StringComparison.Ordinal) && Portrait.Marks(plant).Contains(picture[5..])
            ? () => Portrait.Mark(plant, picture[5..], picture[5..]) : null;
    }
}
