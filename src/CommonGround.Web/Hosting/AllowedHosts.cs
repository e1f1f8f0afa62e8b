using System.Net;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Membership;

namespace CommonGround.Web.Hosting;

/// <summary>Under which names the site answers: that of <c>Site:Address</c>, those of its neighbourhoods, those it listens on, and the
/// machine's own. Another one gets 400, so that no link and no cookie is made for a name somebody else chose.</summary>
internal sealed class AllowedHosts(IConfiguration settings, MailSettings mail)
{
    private readonly HashSet<string> names = new(StringComparer.OrdinalIgnoreCase) { mail.Site.Host, "localhost" };

    /// <summary>Without an address of its own the site is meant for one machine or one network, where it is called by number; a number
    /// cannot be pointed elsewhere.</summary>
    private readonly bool byNumber = settings["Site:Address"] is null;

    public void Use(WebApplication app, Task<OpenedSite> opening)
    {
        foreach (var url in app.Urls.Append(settings["urls"] ?? "").SelectMany(u => u.Split(';')))
        {
            if (Uri.TryCreate(url, UriKind.Absolute, out var listening))
            {
                names.Add(listening.Host);
            }
        }

        app.Use(async (http, next) =>
        {
            if (await IsOursAsync(http.Request.Host.Host, opening, http.RequestAborted))
            {
                await next(http);
                return;
            }

            http.Response.StatusCode = StatusCodes.Status400BadRequest;
            http.Response.ContentType = "text/plain; charset=utf-8";
            await http.Response
                .WriteAsync($"This site does not answer under the name you asked for. Its address is {mail.Site}. Whoever runs it can set "
                + $"another one with Site:Address, or the address of a neighbourhood on the group's page.", http.RequestAborted);
        });
    }

    private async Task<bool> IsOursAsync(string host, Task<OpenedSite> opening, CancellationToken cancel)
    {
        if (names.Contains(host) || (IPAddress.TryParse(host.Trim('[', ']'), out var number) && (byNumber || IPAddress.IsLoopback(number))))
        {
            return true;
        }

        var neighbourhoods = (await opening).Neighbourhoods;
        if (Answers(neighbourhoods, host))
        {
            return true;
        }

        // Perhaps another process of the site has just given a neighbourhood this address.
        await neighbourhoods.FollowAsync(cancel);
        return Answers(neighbourhoods, host);
    }

    private static bool Answers(Neighbourhoods all, string host) =>
        all.All.Any(p => p.Host.Length > 0 && p.Host.Equals(host, StringComparison.OrdinalIgnoreCase));
}
