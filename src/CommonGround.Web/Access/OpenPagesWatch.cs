using System.Data.Common;

namespace CommonGround.Web.Access;

/// <summary>Looks the open pages over every half minute: closes those whose reader lost their session or role through another process, and
/// in the demo those left alone.</summary>
public sealed partial class OpenPagesWatch(OpenPages open, TimeProvider time, ILogger<OpenPagesWatch> log) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(30);

    /// <summary>One look at all of them.</summary>
    public async Task LookAsync()
    {
        var now = time.GetUtcNow();
        foreach (var page in open.All)
        {
            try
            {
                if (page.Page is null)
                {
                    if (now - page.OpenedAt > Every)
                    {
                        page.Connection.Abort(); // Connected, and never began a page.
                    }
                }
                else if (page.Session is null && now - page.LastHeard > open.Idle)
                {
                    page.Page.Close("/left-alone");
                    page.LastHeard = now - open.Idle;
                    await page.Page.LookAsync();
                }
                else
                {
                    await page.Page.LookAsync();
                }
            }
            catch (Exception e) when (e is DbException or InvalidOperationException or ObjectDisposedException)
            {
                // The database is away, or the page went while it was looked at: the next look sees.
                NotLooked(e.Message);
            }
        }
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Every, time);
        try
        {
            while (await timer.WaitForNextTickAsync(stoppingToken))
            {
                await LookAsync();
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The site stops.
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "An open page could not be looked at ({Why}); the next look is in half a minute")]
    private partial void NotLooked(string why);
}
