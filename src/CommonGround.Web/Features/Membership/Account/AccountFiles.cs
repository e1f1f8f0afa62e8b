using System.Globalization;
using CommonGround.Storage.Accounts;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;

namespace CommonGround.Web.Features.Membership;

/// <summary>What accounts need besides pages: signing out, passkeys, one's data as a file, the choice of neighbourhood.</summary>
public static class AccountFiles
{
    public static void Map(IEndpointRouteBuilder app)
    {
        // The field is only there so that the framework asks for the form's hidden proof.
        app.MapPost("/sign-out", async ([FromForm] string? leave, SessionSignIn signIn) =>
        {
            await signIn.SignOutAsync();
            return Results.LocalRedirect("/");
        }).For(Permission.SeePublic);
        app.MapPost("/neighbourhood", ([FromForm] int id, Neighbourhoods all, HttpContext http) =>
        {
            if (all.Find(id) is null)
            {
                return Results.BadRequest("There is no such neighbourhood.");
            }

            http.Response.Cookies.Append(CurrentUserQueries.PlaceCookie, id.ToString(CultureInfo.InvariantCulture),
                new CookieOptions
                {
                    HttpOnly = true,
                    SameSite = SameSiteMode.Lax,
                    Secure = http.Request.IsHttps,
                    MaxAge = TimeSpan.FromDays(365),
                    IsEssential = true
                });
            return Results.LocalRedirect("/");
        }).For(Permission.SeePublic);
        app.MapGet("/account/data.zip", async (HttpContext http, PersonalData data, TimeProvider time) =>
        {
            // The demo's people have no accounts, and so no data of their own.
            if (CurrentUserQueries.AccountOf(http.User) is not { } account)
            {
                return Results.NotFound();
            }

            using var zip = new MemoryStream();
            await data.WriteAsync(account, zip, http.RequestAborted);
            return Results.File(zip.ToArray(), "application/zip", $"my-data-{time.GetUtcNow():yyyy-MM-dd}.zip");
        }).For(Permission.KeepAccount);
        MapPasskeys(app);
    }

    private static void MapPasskeys(IEndpointRouteBuilder app)
    {
        app.MapPost("/sign-in/passkey/options", async (HttpContext http, SessionSignIn signIn, IAntiforgery antiforgery) =>
            await antiforgery.IsRequestValidAsync(http) ? Results.Text(await signIn.MakePasskeyRequestOptionsAsync(null),
                "application/json") : Results.BadRequest()).For(Permission.SeePublic);
        app.MapPost("/sign-in/passkey", async ([FromForm] string? credential, [FromForm] string? back, SessionSignIn signIn,
            CurrentNeighbourhood neighbourhood) =>
        {
            var problems = await Door.TryAsync(async () =>
                neighbourhood.IsDemo || credential is null || !(await signIn.PasskeySignInAsync(credential)).Succeeded
                    ? [new("", "This passkey opens no account here.")] : []);
            return Results.LocalRedirect(problems.Count == 0 ? EntryPages.Back(back) : "/sign-in?passkey=no");
        }).For(Permission.SeePublic);
        app.MapPost("/account/passkeys/options", async (HttpContext http, SessionSignIn signIn, Accounts accounts,
            IAntiforgery antiforgery) =>
        {
            var account = (await accounts.GetUserAsync(http.User))!;
            return await antiforgery.IsRequestValidAsync(http)
                ? Results.Text(await signIn.MakePasskeyCreationOptionsAsync(
                new PasskeyUserEntity
                {
                    Id = account.Id.ToString(CultureInfo.InvariantCulture),
                    Name = account.UserName!,
                    DisplayName = account.Name
                }), "application/json")
                : Results.BadRequest();
        }).For(Permission.KeepAccount);
        app.MapPost("/account/passkeys", async ([FromForm] string? credential, [FromForm] string? name, HttpContext http,
            SessionSignIn signIn, Accounts accounts) =>
        {
            var problems = await Door.TryAsync(async () =>
            {
                var account = (await accounts.GetUserAsync(http.User))!;
                if (credential is null || await signIn.PerformPasskeyAttestationAsync(credential) is not { Succeeded: true } made)
                {
                    return [new("", "The device’s answer could not be checked.")];
                }

                made.Passkey.Name = name?.Trim() is { Length: > 0 } given ? given[..Math.Min(60, given.Length)] : "passkey";
                await accounts.AddOrUpdatePasskeyAsync(account, made.Passkey);
                return [];
            });
            return Results.LocalRedirect(problems.Count == 0 ? "/account#passkeys" : "/account?passkey=no#passkeys");
        }).For(Permission.KeepAccount);
    }
}
