using System.Collections.Concurrent;

namespace CommonGround.Web.Features.Membership;

/// <summary>Tells open pages that a session was ended or a role changed, so that they do not go on showing what is no longer
/// theirs.</summary>
public sealed class SessionEvents
{
    private readonly ConcurrentDictionary<object, Action<Guid?, long?>> listeners = new();

    /// <summary>Calls <paramref name="lost"/> with the session or the member whose standing changed.</summary>
    public void Listen(object who, Action<Guid?, long?> lost) => listeners[who] = lost;

    public void Forget(object who) => listeners.TryRemove(who, out _);

    public void Changed(Guid? session, long? member)
    {
        foreach (var lost in listeners.Values)
        {
            lost(session, member);
        }
    }
}

/// <summary>What a browser calls itself, in two words.</summary>
public static class Devices
{
    private static readonly (string Sign, string Word)[] Browsers = [("Edg/", "Edge"), ("Firefox/", "Firefox"), ("Chrome/", "Chrome"),
        ("Safari/", "Safari")];
    private static readonly (string Sign, string Word)[] Systems = [("iPhone", "iPhone"), ("iPad", "iPad"), ("Android", "Android"),
        ("Windows", "Windows"), ("Mac OS", "Mac"), ("Linux", "Linux")];

    public static string Name(string userAgent)
    {
        var browser = Browsers.FirstOrDefault(b => userAgent.Contains(b.Sign, StringComparison.Ordinal)).Word ?? "a browser";
        var system = Systems.FirstOrDefault(s => userAgent.Contains(s.Sign, StringComparison.Ordinal)).Word;
        return system is null ? browser : $"{browser} on {system}";
    }
}
