using System.Globalization;
using System.Security.Claims;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Layout;

/// <summary>Who a request stands for: whoever is signed in, as what they are in this neighbourhood. In the demo anyone may look as one of
/// its demo accounts.</summary>
public sealed class CurrentUserQueries(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood)
{
    public const string ActCookie = "cg-act";
    public const string ThemeCookie = "cg-theme";
    public const string UnitsCookie = "cg-units";
    public const string PlaceCookie = "cg-place";
    private const string Kept = "viewer";

    public async Task<CurrentUser> ForAsync(HttpContext http)
    {
        ArgumentNullException.ThrowIfNull(http);
        if (http.Items[Kept] is CurrentUser known)
        {
            return known;
        }

        var currentUser = await MakeAsync(http);
        http.Items[Kept] = currentUser;
        return currentUser;
    }

    private async Task<CurrentUser> MakeAsync(HttpContext http)
    {
        var acted = neighbourhood.IsDemo ? Acted(http.Request.Cookies[ActCookie]) : (Role?)null;
        var account = acted is null ? AccountOf(http.User) : null;
        var stranger = new CurrentUser(Role.Visitor, null, "a visitor", Customary: http.Request.Cookies[UnitsCookie] != "metric")
        {
            NeighbourhoodId = neighbourhood.Id,
            AccountId = account,
            SessionId = account is null ? null : SessionOf(http.User),
            From = Network.Shorten(http.Connection.RemoteIpAddress),
        };
        if (acted == Role.Visitor || (acted is null && account is null))
        {
            return stranger;
        }

        await using var db = await database.CreateDbContextAsync(http.RequestAborted);
        var members = db.Members.AsQueryable();
        members = acted is null ? members.Where(m => m.AccountId == account) : members.Where(m => m.Role == acted);
        var member = await members.OrderBy(m => m.Id).Select(m => new { m.Id, m.Name, m.Role }).FirstOrDefaultAsync(http.RequestAborted);
        return member is null || member.Role == Role.Visitor ? stranger
            : stranger with { Role = member.Role, MemberId = member.Id, Name = member.Name };
    }

    public static long? AccountOf(ClaimsPrincipal user) =>
        long.TryParse(user.FindFirstValue(ClaimTypes.NameIdentifier), NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? id
            : null;

    public static Guid? SessionOf(ClaimsPrincipal user) => Guid.TryParse(user.FindFirstValue(SessionSignIn.SessionClaim), out var id) ? id
        : null;

    private static Role Acted(string? cookie) => cookie switch
    {
        "visitor" => Role.Visitor,
        "member" => Role.Member,
        "administrator" => Role.Administrator,
        _ => Role.Organiser,
    };
}
