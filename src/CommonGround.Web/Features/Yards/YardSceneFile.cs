using System.Globalization;
using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Phenology;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Features.Yards;

/// <summary>A bed as it grows, drawn from its record for a half-month; only for those who may see the yard, and not kept by
/// browsers.</summary>
public static class YardSceneFile
{
    /// <summary>Widths in px that are drawn: for a desk, a phone and a list.</summary>
    public const int Desk = 1100, Phone = 520, Thumbnail = 240;

    /// <summary>The piece of a bed that so wide a picture shows, m.</summary>
    public static double LongestMetres(int wide) => wide switch { Desk => 24, Phone => 8, _ => 5 };

    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/yards/{code}/scene.svg",
        async (string code, long? bed, int? half, int? wide, string? look, HttpContext http, CurrentUserQueries viewers, YardQueries yards,
            Likenesses likenesses, GroupClock clock) =>
    {
        if (half is < 0 or >= HalfMonth.Count || wide is not (null or Desk or Phone or Thumbnail))
        {
            return Results.StatusCode(StatusCodes.Status400BadRequest);
        }

        var currentUser = await viewers.ForAsync(http);
        var beds = await yards.BedsAsync(code, currentUser, http.RequestAborted);
        var shown = bed is null ? beds?.MaxBy(b => b.Plantings.Sum(p => p.CoverSquareMetres)) : beds?.FirstOrDefault(b => b.Id == bed);
        if (beds is null || (bed is not null && shown is null))
        {
            return Results.NotFound();
        }

        if (shown is null || YardScene.Of(shown, clock.Today, likenesses.Of) is not { } scene)
        {
            // A yard without anything to draw yet.
            return Results.NoContent();
        }

        var (t, px) = (half ?? HalfMonth.Of(clock.Today), wide ?? Desk);
        return Results.Text(likenesses.Svg(Key(scene, t, px, currentUser.Customary, likenesses), look,
            () => BedScene.Of(scene.Piece(LongestMetres(px)), t, scene.Year, widthPx: px, title: null,
                lengths: new SceneLengths(currentUser.Customary, currentUser.Units.LengthWords))), "image/svg+xml");
    }).For(Permission.SeeYard);

    /// <summary>Where the picture is fetched.</summary>
    /// <param name="code">The yard.</param>
    /// <param name="bed">The bed; null for the one with the most cover.</param>
    /// <param name="half">Half-month, 0–23.</param>
    /// <param name="wide">One of the widths.</param>
    /// <param name="theme">system, light or dark.</param>
    public static string Address(string code, long? bed, int half, int wide, string theme) =>
        string.Create(
            CultureInfo.InvariantCulture, $"/yards/{code}/scene.svg?half={half}&wide={wide}{(bed is null ? "" : $"&bed={bed}")}{(theme is "light" or "dark" ? "&look=" + theme : "")}");

    /// <summary>All that is drawn: another record is another picture.</summary>
    private static string Key(YardScene scene, int half, int wide, bool feet, Likenesses likenesses) =>
        string.Create(CultureInfo.InvariantCulture,
        $"{likenesses.TableHash}|{scene.Bed.Seed}|{scene.Bed.AreaSquareMetres:0.##}|{scene.Year}|{half}|{wide}|{feet}|{string.Join(',', scene.Bed.Drifts.Select(d => $"{d.Plant.ScientificName} {d.Count} {(d.Plant.IsPlain ? likenesses.HashOf(d.Plant) : "")}"))}");
}
