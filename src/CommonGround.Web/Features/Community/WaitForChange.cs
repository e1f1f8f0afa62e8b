using System.Collections.Concurrent;
using System.Globalization;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Hosting;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Features.Community;

/// <summary>
/// How an open reading page learns that something was stored: it asks what is new since its own stamp, and the answer waits until there is
/// something, or not longer than a proxy lets it. It costs a waiting request, no circuit.
/// </summary>
public sealed class WaitForChange(ChangeFeed feed, SessionEvents standings, IConfiguration settings, IHostApplicationLifetime lifetime)
{
    /// <summary>Proxies end what says nothing for a minute.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(50);

    /// <summary>Many readers load anew one after the other, not all in the same moment.</summary>
    private const int MillisecondsApart = 5;

    private readonly ConcurrentDictionary<string, int> waiting = new(StringComparer.Ordinal);
    private readonly int most = settings.GetValue("Limits:Readers", 5000),
        mostOfAnAddress = settings.GetValue("Limits:ReadersPerAddress", 200);
    private int all;

    /// <summary>Requests that wait now.</summary>
    public int Waiting => all;

    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/changes",
        (long? since, HttpContext http, WaitForChange changes) => changes.AnswerAsync(since, http)).For(Permission.SeePublic);

    private async Task<IResult> AnswerAsync(long? since, HttpContext http)
    {
        var address = SiteSecurity.Address(http);
        var mine = waiting.AddOrUpdate(address, 1, (_, n) => n + 1);
        var number = Interlocked.Increment(ref all);
        try
        {
            return mine > mostOfAnAddress || number > most ? Results.StatusCode(StatusCodes.Status429TooManyRequests)
                : await NewsAsync(since, http);
        }
        finally
        {
            Interlocked.Decrement(ref all);
            if (waiting.AddOrUpdate(address, 0, (_, n) => n - 1) == 0)
            {
                waiting.TryRemove(new(address, 0));
            }
        }
    }

    /// <summary>The newest stamp as soon as it is another than theirs, or as their session or role ends; else, after a while, no
    /// content.</summary>
    private async Task<IResult> NewsAsync(long? since, HttpContext http)
    {
        var database = http.RequestServices.GetRequiredService<NeighbourhoodDatabase>();
        var here = http.RequestServices.GetRequiredService<CurrentNeighbourhood>().Id;
        var currentUser = await http.RequestServices.GetRequiredService<CurrentUserQueries>().ForAsync(http);
        var told = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        // Listening begins before the stamp is read, so nothing falls between.
        using var listening = feed.Subscribe(id =>
        {
            if (id == here)
            {
                told.TrySetResult();
            }
        });
        standings.Listen(told, (session, member) =>
        {
            if ((session is not null && session == currentUser.SessionId) || (member is not null && member == currentUser.MemberId))
            {
                told.TrySetResult();
            }
        });
        try
        {
            var stamp = await ChangeStamps.ReadAsync(database, http.RequestAborted);
            if (stamp != since)
            {
                return Stamp(stamp);
            }

            using var end = CancellationTokenSource.CreateLinkedTokenSource(http.RequestAborted, lifetime.ApplicationStopping);
            if (await Task.WhenAny(told.Task, Task.Delay(Longest, end.Token)) != told.Task)
            {
                return Results.NoContent();
            }

            await Task.Delay(Random.Shared.Next(0, (Waiting * MillisecondsApart) + 1), end.Token)
                .ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            return end.IsCancellationRequested ? Results.NoContent() : Stamp(await ChangeStamps.ReadAsync(database, http.RequestAborted));
        }
        finally
        {
            standings.Forget(told);
        }
    }

    private static IResult Stamp(long stamp) => Results.Text(stamp.ToString(CultureInfo.InvariantCulture));
}
