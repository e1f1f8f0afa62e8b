using System.Diagnostics;

namespace CommonGround.Web.Features.Plants;

/// <summary>Measures, soon after the start and a little at a time, how much each plant's drawing is stretched: otherwise the first large
/// bed that somebody opens waits for all of its plants.</summary>
internal sealed class WarmLikenesses(Likenesses likenesses, TimeProvider time) : BackgroundService
{
    /// <summary>The first pages come first.</summary>
    private static readonly TimeSpan AfterStart = TimeSpan.FromSeconds(10);

    /// <summary>It rests so many times as long as it works: a fifth of one processor.</summary>
    private const int Rest = 4;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Delay(AfterStart, time, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        foreach (var plant in likenesses.All)
        {
            if (stoppingToken.IsCancellationRequested)
            {
                return;
            }

            var began = Stopwatch.GetTimestamp();
            plant.Prepare();
            await Task.Delay(Stopwatch.GetElapsedTime(began) * Rest, time, stoppingToken)
                .ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }
}
