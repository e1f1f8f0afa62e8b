using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.StaticAssets;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Access;

/// <summary>Asks the table before a page or endpoint is run: at the door for every request, and again when somebody moves between pages
/// without one.</summary>
public sealed class AccessCheck(NeighbourhoodDatabase database)
{
    /// <summary>Whether somebody may open what needs <paramref name="act"/>, with these values in its address.</summary>
    public async Task<bool> IsAllowedAsync(CurrentUser currentUser, Permission act, IEnumerable<KeyValuePair<string, object?>> values,
        CancellationToken cancel = default)
    {
        switch (AccessTable.Of(act, currentUser.Role))
        {
            case Scope.All: return true;
            case Scope.None: return act == Permission.KeepAccount && currentUser.AccountId is not null;
            default: return await OwnerAsync(values, cancel) is not { Found: true } yard || currentUser.May(act, yard.Owner);
        }
    }

    /// <summary>Whose yard an address is about: by the yard's code or the plan's number. Not found: about none, and the page shows one's
    /// own only.</summary>
    private async Task<(bool Found, long? Owner)> OwnerAsync(IEnumerable<KeyValuePair<string, object?>> values, CancellationToken cancel)
    {
        var named = values.ToDictionary(v => v.Key, v => v.Value?.ToString() ?? "", StringComparer.OrdinalIgnoreCase);
        await using var db = await database.CreateDbContextAsync(cancel);
        var yards = db.Yards.AsQueryable();
        // Of an address that names no yard the router gives an empty code.
        if (named.TryGetValue("code", out var code) && code.Length > 0)
        {
            yards = yards.Where(y => y.Code == code);
        }
        else if ((named.TryGetValue("plan", out var plan) || named.TryGetValue("id", out plan)) && long.TryParse(plan, out var number))
        {
            yards = yards.Where(y => db.Plans.Any(p => p.YardId == y.Id && p.Id == number));
        }
        else
        {
            return (false, null);
        }

        // One that is not there is answered like one that is somebody else's.
        return (true, await yards.Select(y => y.OwnerId).FirstOrDefaultAsync(cancel));
    }
}

/// <summary>The gate as a step of every request.</summary>
internal static class AccessCheckStep
{
    /// <summary>Says what an endpoint is for.</summary>
    public static TBuilder For<TBuilder>(this TBuilder endpoint, Permission act) where TBuilder : IEndpointConventionBuilder =>
        endpoint.WithMetadata(new RequiresAttribute(act));

    public static IApplicationBuilder UseAccessCheck(this IApplicationBuilder app) => app.Use(async (http, next) =>
    {
        var endpoint = http.GetEndpoint();
        if (endpoint is null || IsPlumbing(endpoint, http.Request.Path))
        {
            await next(http);
            return;
        }

        var act = endpoint.Metadata.GetMetadata<RequiresAttribute>()?.Permission;
        var currentUser = await http.RequestServices.GetRequiredService<CurrentUserQueries>().ForAsync(http);
        if (act is { } wanted && await http.RequestServices.GetRequiredService<AccessCheck>().IsAllowedAsync(currentUser, wanted,
            http.Request.RouteValues, http.RequestAborted))
        {
            await next(http);
            return;
        }

        var isPage = endpoint.Metadata.GetMetadata<Microsoft.AspNetCore.Components.Endpoints.ComponentTypeMetadata>() is not null;
        if (isPage && HttpMethods.IsGet(http.Request.Method) && currentUser.AccountId is null
            && !http.RequestServices.GetRequiredService<CurrentNeighbourhood>().IsDemo)
        {
            http.Response.Redirect("/sign-in?back=" + Uri.EscapeDataString(http.Request.Path + http.Request.QueryString));
            return;
        }

        http.RequestServices.GetRequiredService<ILogger<AccessCheck>>().LogWarning("Refused: {Permission} as {Role}, account {Account}",
            act, currentUser.Role, currentUser.AccountId);
        // Somebody else's yard is answered like one that is not there. A page says so itself, under 403: under 404 the framework would put
        // another in its place.
        http.Response.StatusCode = isPage || (act is { } known && AccessTable.Of(known, currentUser.Role) == Scope.None)
            ? StatusCodes.Status403Forbidden : StatusCodes.Status404NotFound;
        if (isPage && HttpMethods.IsGet(http.Request.Method))
        {
            // The page is made all the same: it shows the refusal instead of itself.
            await next(http);
        }
    });

    /// <summary>The framework's own files and the hub that pages talk through: what goes over it is checked where it is done.</summary>
    public static bool IsPlumbing(Endpoint endpoint, PathString path) =>
        endpoint.Metadata.GetMetadata<StaticAssetDescriptor>() is not null
            || path.StartsWithSegments("/_blazor", StringComparison.OrdinalIgnoreCase)
            || path.StartsWithSegments("/_framework", StringComparison.OrdinalIgnoreCase);
}
