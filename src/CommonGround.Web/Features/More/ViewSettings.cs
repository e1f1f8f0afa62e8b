using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Mvc;

namespace CommonGround.Web.Features.More;

/// <summary>How somebody looks at the site: role in the demo, units, colours; each a cookie for a year.</summary>
public static class ViewSettings
{
    private static readonly Dictionary<string, (string Cookie, string[] Values)> Settings = new(StringComparer.Ordinal)
    {
        ["act"] = (CurrentUserQueries.ActCookie, ["visitor", "member", "organiser", "administrator"]),
        ["units"] = (CurrentUserQueries.UnitsCookie, ["metric", "us"]),
        ["theme"] = (CurrentUserQueries.ThemeCookie, ["system", "light", "dark", "outdoor"]),
    };

    public static void Map(IEndpointRouteBuilder app) => app.MapPost("/view/{name}",
        (string name, [FromForm] string value, HttpContext http, CurrentNeighbourhood neighbourhood) =>
    {
        if (!Settings.TryGetValue(name, out var setting) || !setting.Values.Contains(value, StringComparer.Ordinal)
            || (name == "act" && !neighbourhood.IsDemo))
        {
            return Results.BadRequest("There is no such choice.");
        }

        http.Response.Cookies.Append(setting.Cookie, value, new CookieOptions
        {
            HttpOnly = true,
            SameSite = SameSiteMode.Lax,
            Secure = http.Request.IsHttps,
            MaxAge = TimeSpan.FromDays(365),
            IsEssential = true
        });
        return Results.LocalRedirect("/more");
    }).For(Permission.SeePublic);
}
