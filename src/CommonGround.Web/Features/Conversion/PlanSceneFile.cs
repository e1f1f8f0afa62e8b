using System.Globalization;
using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Phenology;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Features.Conversion;

/// <summary>What a picture of a plan is asked for.</summary>
/// <param name="Area">Number of the area, the largest is 0.</param>
/// <param name="Half">Half-month, 0–23.</param>
/// <param name="Year">1 to 3.</param>
/// <param name="Wide">Px.</param>
/// <param name="Look">light, dark, or as the device likes it.</param>
/// <param name="Story">The house behind it; none where it is left out.</param>
/// <param name="Door">Where its door is.</param>
/// <param name="Steps">Steps to the door, 0–6.</param>
/// <param name="Walk">How one comes to the door.</param>
internal sealed record SceneAsked(int Area, int Half, int Year, int Wide, string? Look, Story? Story, Drawings.Scenes.Door? Door,
    int? Steps, FrontWalk? Walk)
{
    public bool IsWhole => Half is >= 0 and < HalfMonth.Count && Year is >= 1 and <= 3 && Wide is 520 or 1100
        && Steps is null or >= 0 and <= 6;

    public HouseFront? House => Story is { } story ? new HouseFront(story, Door ?? Drawings.Scenes.Door.Middle, Steps ?? 2, Walk
        ?? FrontWalk.Straight) : null;
}

/// <summary>Pictures of a plan that somebody is still changing, at the number of their own open page, which nobody can guess.</summary>
internal static class PlanSceneFile
{
    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/plans/scene/{page:guid}.svg",
        async (Guid page, [AsParameters] SceneAsked asked, HttpContext http, CurrentUserQueries viewers, PlanPreviews previews,
            Likenesses likenesses) =>
    {
        if (!asked.IsWhole)
        {
            return Results.StatusCode(StatusCodes.Status400BadRequest);
        }

        if (previews.FindBeds(page) is not { } shown || asked.Area < 0 || asked.Area >= shown.Beds.Count)
        {
            return Results.NotFound();
        }

        var currentUser = await viewers.ForAsync(http);
        var key = string.Create(CultureInfo.InvariantCulture, $"{shown.Version}|{asked with { Look = null }}|{currentUser.Customary}");
        return Results.Text(likenesses.Svg(key, asked.Look, () => BedScene.Of(shown.Beds[asked.Area], asked.Half, asked.Year, asked.House,
            asked.Wide, title: null,
            new SceneLengths(currentUser.Customary, currentUser.Units.LengthWords))), "image/svg+xml");
    }).For(Permission.RecordInYard);
}
