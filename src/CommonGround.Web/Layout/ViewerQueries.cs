using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Layout;

/// <summary>
/// Who a request stands for. In the demo anyone may look as visitor, member or organiser. A real group has no sign-in yet, so only the
/// machine itself may write: a request that came over the network, directly or through a proxy, is a visitor's.
/// </summary>
public sealed class ViewerQueries(IDbContextFactory<CommonGroundDb> database, CurrentNeighbourhood neighbourhood)
{
    public const string ActCookie = "cg-act";
    public const string ThemeCookie = "cg-theme";
    public const string UnitsCookie = "cg-units";

    public async Task<Viewer> ForAsync(HttpContext http)
    {
        var customary = http.Request.Cookies[UnitsCookie] == "us";
        var role = neighbourhood.IsDemo ? Acted(http.Request.Cookies[ActCookie])
            : FromThisMachine(http) ? Role.Organiser
            : Role.Visitor;
        if (role != Role.Member)
        {
            return new Viewer(role, null, role == Role.Organiser ? "an organiser" : "a visitor", customary);
        }

        await using var db = await database.CreateDbContextAsync(http.RequestAborted);
        var member = await db.Members.Where(m => m.NeighbourhoodId == neighbourhood.Id && m.Role == Role.Member)
            .OrderBy(m => m.Id).Select(m => new { m.Id, m.Name }).FirstOrDefaultAsync(http.RequestAborted);
        return new Viewer(Role.Member, member?.Id, member?.Name ?? "a member", customary);
    }

    private static Role Acted(string? cookie) => cookie switch
    {
        "visitor" => Role.Visitor,
        "member" => Role.Member,
        _ => Role.Organiser,
    };

    private static bool FromThisMachine(HttpContext http) =>
        http.Connection.RemoteIpAddress is { } address && System.Net.IPAddress.IsLoopback(address)
        && !http.Request.Headers.ContainsKey("X-Forwarded-For") && !http.Request.Headers.ContainsKey("Forwarded");
}
