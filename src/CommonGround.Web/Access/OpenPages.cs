using System.Collections.Concurrent;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Hosting;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.SignalR;

namespace CommonGround.Web.Access;

/// <summary>
/// The connections of live pages: who holds them, and no more than the server carries. Whoever is not signed in gets none, except in the
/// demo, where one that lies idle is ended. Pages for reading need no connection and are not counted.
/// </summary>
public sealed class OpenPages : IHubFilter
{
    private static readonly AsyncLocal<OpenPage?> Asking = new();
    private readonly ConcurrentDictionary<string, OpenPage> pages = new(StringComparer.Ordinal);
    private readonly Lock counting = new();
    private readonly TimeProvider time;
    private readonly int most, mostOfAnAddress;

    public OpenPages(IConfiguration settings, TimeProvider time)
    {
        this.time = time;
        most = settings.GetValue("Limits:Circuits", 500);
        mostOfAnAddress = settings.GetValue("Limits:CircuitsPerAddress", 50);
        Idle = TimeSpan.FromMinutes(settings.GetValue("Limits:IdleMinutes", 20));
    }

    /// <summary>After how long without a word a page of nobody in particular is ended.</summary>
    public TimeSpan Idle { get; }

    /// <summary>The connection whose message is being answered.</summary>
    public static OpenPage? Current => Asking.Value;

    public IReadOnlyCollection<OpenPage> All => [.. pages.Values];

    /// <summary>Whether one more page would be too many, for all or for the address that asks.</summary>
    public bool IsFull(HttpContext http)
    {
        ArgumentNullException.ThrowIfNull(http);
        return IsFull(SiteSecurity.Address(http));
    }

    public async Task OnConnectedAsync(HubLifetimeContext context, Func<HubLifetimeContext, Task> next)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(next);
        if (context.Context.GetHttpContext() is not { } http || !TryOpen(context.Context, http))
        {
            context.Context.Abort();
            return;
        }

        await next(context);
    }

    public Task OnDisconnectedAsync(HubLifetimeContext context, Exception? exception, Func<HubLifetimeContext, Exception?, Task> next)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(next);
        pages.TryRemove(context.Context.ConnectionId, out _);
        return next(context, exception);
    }

    public async ValueTask<object?> InvokeMethodAsync(HubInvocationContext invocationContext,
        Func<HubInvocationContext, ValueTask<object?>> next)
    {
        ArgumentNullException.ThrowIfNull(invocationContext);
        ArgumentNullException.ThrowIfNull(next);
        if (!pages.TryGetValue(invocationContext.Context.ConnectionId, out var page))
        {
            invocationContext.Context.Abort();
            return null;
        }

        page.LastHeard = time.GetUtcNow();
        Asking.Value = page;
        return await next(invocationContext);
    }

    /// <summary>Ends the connections of a session.</summary>
    public void End(Guid session)
    {
        foreach (var page in pages.Values.Where(p => p.Session == session))
        {
            page.Connection.Abort();
        }
    }

    private bool IsFull(string address) => pages.Count >= most || pages.Values.Count(p => p.Address == address) >= mostOfAnAddress;

    private bool TryOpen(HubCallerContext connection, HttpContext http)
    {
        var (address, session) = (SiteSecurity.Address(http), CurrentUserQueries.SessionOf(http.User));
        if (session is null && !http.RequestServices.GetRequiredService<CurrentNeighbourhood>().IsDemo)
        {
            return false;
        }

        lock (counting)
        {
            return !IsFull(address) && pages.TryAdd(connection.ConnectionId, new OpenPage(connection, address, session, time.GetUtcNow()));
        }
    }
}

/// <summary>One connection of a live page.</summary>
/// <param name="Address">Whence, as the limits count it.</param>
/// <param name="Session">By which session its reader is signed in; null in the demo.</param>
public sealed record OpenPage(HubCallerContext Connection, string Address, Guid? Session, DateTimeOffset OpenedAt)
{
    /// <summary>When its browser last said something, be it that a page was drawn.</summary>
    public DateTimeOffset LastHeard { get; set; } = OpenedAt;

    /// <summary>The page upon it; null until one began.</summary>
    public LivePage? Page { get; set; }
}
