using System.Data.Common;
using CommonGround.Storage;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Operations;

/// <summary>Hears of what other processes of the site store, so that open pages show it. Nothing rests on it: every answer compares the
/// stamp itself.</summary>
internal sealed partial class ChangeListening(SiteOptions options, IServiceProvider services, TimeProvider time,
    ILogger<ChangeListening> log) : BackgroundService
{
    private static readonly TimeSpan BeforeAgain = TimeSpan.FromSeconds(2);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        var opened = services.GetRequiredService<OpenedSite>();
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await using var db = StorageRegistration.Open(options.Storage).CreateDbContext();
                // What was stored before it listened may have been missed: everybody looks again once.
                await db.ListenAsync(opened.Feed, () => opened.Neighbourhoods.All.ToList()
                    .ForEach(p => opened.Feed.Tell(p.Neighbourhood.Id)), stoppingToken);
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e) when (e is DbException or IOException or InvalidOperationException)
            {
                NotHeard(e.Message);
                await Task.Delay(BeforeAgain, time, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    [LoggerMessage(Level = LogLevel.Warning,
        Message = "Changes of other processes are not heard of just now ({Why}); open pages show them when they are loaded again")]
    private partial void NotHeard(string why);
}
