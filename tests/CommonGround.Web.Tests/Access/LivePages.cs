using System.Reflection;
using CommonGround.Benchmarks;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Routing;

namespace CommonGround.Web.Tests.Access;

/// <summary>Every live page, and a client that sends it what it likes, as nobody's browser would.</summary>
internal static class LivePages
{
    public static IEnumerable<string> Templates => typeof(AccessTable).Assembly.GetTypes()
        .Where(t => t.GetCustomAttribute<ExcludeFromInteractiveRoutingAttribute>() is null)
        .SelectMany(t => t.GetCustomAttributes<RouteAttribute>()).Select(r => r.Template).Order(StringComparer.Ordinal);

    /// <summary>The address of a page, with somebody's new yard, sighting, case or plan where it is about one.</summary>
    public static async Task<string> FilledAsync(Site site, string template, CurrentUser household)
    {
        var path = "/" + template.TrimStart('/').Replace("{Slug}", "monarda-fistulosa", StringComparison.Ordinal);
        if (!path.Contains('{', StringComparison.Ordinal))
        {
            return path;
        }

        var yard = await site.RegisterAsync(household);
        if (path.StartsWith("/unwanted/", StringComparison.Ordinal))
        {
            var block = await site.InfestAsync(yard, household);
            path = path.Replace("{Block:long}", $"{block}", StringComparison.Ordinal);
        }

        return path.Replace("{Code}", yard.Code, StringComparison.Ordinal)
            .Replace("{Sighting:long}", path.Contains("{Sighting:long}", StringComparison.Ordinal)
            ? $"{await site.SightingAsync(yard, household)}" : "", StringComparison.Ordinal)
            .Replace("{Id:long}", path.Contains("{Id:long}", StringComparison.Ordinal) ? $"{await site.KeepPlanAsync(yard, household)}"
            : "", StringComparison.Ordinal);
    }

    /// <summary>Dispatches an event to everything that the page has drawn so far, or to the elements that another circuit had: what is
    /// typed first, then what is pressed, then the rest.</summary>
    public static async Task PressEverythingAsync(HubCircuit page, IEnumerable<KeyValuePair<ulong, string>>? handlers = null)
    {
        foreach (var (number, name) in (handlers ?? page.Handlers)
            .OrderBy(h => h.Value switch { "input" => 0, "click" or "submit" => 1, _ => 2 }).ThenBy(h => h.Key).ToList())
        {
            await page.SendEventAsync(number, name, name is "change" or "input"
                ? "{\"value\":\"1\"}" : "{\"type\":\"click\",\"detail\":1,\"button\":0,\"buttons\":0}");
        }
    }
}
