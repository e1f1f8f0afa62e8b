using CommonGround.Web.Features.Membership;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server.Circuits;

namespace CommonGround.Web.Access;

/// <summary>
/// Watches over one live page, so that ended means ended for reading too. When the page begins, and before anything it is told is passed on
/// to it, its reader's session and role are compared with the database; the connection has to be that session's own. Where they differ, the
/// page shows nothing more and is closed.
/// </summary>
public sealed class LivePage(IServiceProvider services, SessionEvents standings, TimeProvider time) : CircuitHandler, IDisposable
{
    /// <summary>A press is several messages: within this time one look serves them all. What ends in this process is heard of at once
    /// anyway.</summary>
    private static readonly TimeSpan OneLook = TimeSpan.FromMilliseconds(200);

    private CurrentUser? currentUser;
    private OpenPage? connection;
    private long looked;
    private bool closed, cleared;

    /// <summary>Called once when the page is over, with where its reader is to go.</summary>
    public Action<string>? Closed { get; set; }

    /// <summary>Begins for the reader the page was made for.</summary>
    /// <returns>False where that is not who connected, or not any more: then nothing may be shown.</returns>
    public async Task<bool> BeginAsync(CurrentUser claimed)
    {
        ArgumentNullException.ThrowIfNull(claimed);
        currentUser = claimed;
        standings.Listen(this, Heard);
        return await StandsAsync();
    }

    public override Task OnConnectionUpAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        connection = OpenPages.Current;
        if (connection is not null)
        {
            connection.Page = this;
        }

        return Task.CompletedTask;
    }

    public override Func<CircuitInboundActivityContext, Task> CreateInboundActivityHandler(
        Func<CircuitInboundActivityContext, Task> next) => async context =>
    {
        if (currentUser is null || cleared || (!closed && await StandsAsync()))
        {
            await next(context);
        }
    };

    /// <summary>Looks again now, whether or not the browser said anything.</summary>
    public async Task LookAsync()
    {
        if (currentUser is not null && !closed)
        {
            looked = 0;
            await StandsAsync();
        }
        else if (closed)
        {
            connection?.Connection.Abort();
        }
    }

    /// <summary>Takes the page's content away and sends its reader on.</summary>
    public void Close(string to)
    {
        if (!closed)
        {
            closed = true;
            Closed?.Invoke(to);
        }
    }

    /// <summary>Nothing of the page is left that could be told anything: what its browser answers now does no harm.</summary>
    public void Clear() => cleared = true;

    public void Dispose() => standings.Forget(this);

    private async Task<bool> StandsAsync()
    {
        if (!closed && (looked == 0 || time.GetElapsedTime(looked) > OneLook))
        {
            var user = (await services.GetRequiredService<AuthenticationStateProvider>().GetAuthenticationStateAsync()).User;
            var stands = CurrentUserQueries.SessionOf(user) == currentUser!.SessionId
                && await services.GetRequiredService<Standing>().HoldsAsync(currentUser);
            looked = time.GetTimestamp();
            if (!stands)
            {
                CloseHere();
            }
        }

        return !closed;
    }

    private void Heard(Guid? session, long? member)
    {
        if (currentUser is not null && ((session is not null && session == currentUser.SessionId)
            || (member is not null && member == currentUser.MemberId)))
        {
            CloseHere();
        }
    }

    // The same address once more: the door says what is open to them now.
    private void CloseHere() => Close(services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().Uri);
}
