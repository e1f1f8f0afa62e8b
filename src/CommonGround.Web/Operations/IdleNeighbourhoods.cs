using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Operations;

/// <summary>Keeps memory to what is in use, and once an hour takes a new number for the rows this program makes.</summary>
internal sealed partial class IdleNeighbourhoods(IServiceProvider services, IConfiguration configuration, TimeProvider time,
    ILogger<IdleNeighbourhoods> log) : BackgroundService
{
    /// <summary>A neighbourhood nobody looked at for so long leaves memory.</summary>
    public static readonly TimeSpan Idle = TimeSpan.FromMinutes(15);

    /// <summary>Yard and taxon pairs held in all; one takes about 24 bytes and its share of the figures.</summary>
    public const long MostCells = 5_000_000;

    private static readonly TimeSpan Renewal = TimeSpan.FromHours(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        var opened = services.GetRequiredService<OpenedSite>();
        var most = configuration.GetValue("Memory:MostCells", MostCells);
        var renewed = time.GetUtcNow();
        using var minute = new PeriodicTimer(TimeSpan.FromMinutes(1), time);
        try
        {
            while (await minute.WaitForNextTickAsync(stoppingToken))
            {
                opened.Neighbourhoods.ForgetIdle(Idle, most);
                if (time.GetUtcNow() - renewed >= Renewal && await RenewedAsync(opened, stoppingToken))
                {
                    renewed = time.GetUtcNow();
                }
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The site stops.
        }
    }

    private async Task<bool> RenewedAsync(OpenedSite opened, CancellationToken cancel)
    {
        try
        {
            await using var db = await opened.Database.CreateDbContextAsync(cancel);
            RowIds.UseProgram(await ChangeStamps.NextProgramAsync(db, cancel));
            return true;
        }
        catch (System.Data.Common.DbException e)
        {
            NotRenewed(e.Message);
            return false;
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "No new number for this program just now ({Why}); it goes on with the one it has")]
    private partial void NotRenewed(string why);
}
