using System.Threading.RateLimiting;

namespace CommonGround.Web.Shared;

/// <summary>
/// Plans and reports keep a processor busy for a while. A few are made at once, some wait in the order they came, and beyond that people
/// are asked to try again: pages stay quick whoever asks for what.
/// </summary>
public sealed class HeavyWork : IDisposable
{
    private readonly ConcurrencyLimiter limiter;

    /// <param name="configuration">The site's settings; null for a command, which has the machine to itself.</param>
    public HeavyWork(IConfiguration? configuration)
        : this(configuration?.GetValue<int?>("Limits:WorkAtOnce") ?? Math.Max(1, Environment.ProcessorCount - 1),
        configuration?.GetValue<int?>("Limits:WorkWaiting") ?? 40)
    {
    }

    /// <param name="atOnce">Made at the same time, at least 1.</param>
    /// <param name="waiting">Waiting behind them before people are sent away.</param>
    public HeavyWork(int atOnce, int waiting) =>
        limiter = new ConcurrencyLimiter(new ConcurrencyLimiterOptions
        {
            PermitLimit = atOnce,
            QueueLimit = waiting,
            QueueProcessingOrder = QueueProcessingOrder.OldestFirst
        });

    /// <summary>How many wait for their turn.</summary>
    public int Waiting => (int)(limiter.GetStatistics()?.CurrentQueuedCount ?? 0);

    /// <exception cref="TooBusyException">Too many wait already; nothing was done.</exception>
    public async Task<T> RunAsync<T>(Func<T> work, CancellationToken cancel = default)
    {
        using var turn = await limiter.AcquireAsync(1, cancel);
        return turn.IsAcquired ? await Task.Run(work, cancel) : throw new TooBusyException();
    }

    /// <exception cref="TooBusyException">Too many wait already; nothing was done.</exception>
    public async Task<T> InTurnAsync<T>(Func<Task<T>> work, CancellationToken cancel = default)
    {
        using var turn = await limiter.AcquireAsync(1, cancel);
        return turn.IsAcquired ? await Task.Run(work, cancel) : throw new TooBusyException();
    }

    public void Dispose() => limiter.Dispose();
}

internal static class HeavyWorkEndpoints
{
    /// <summary>The answer is made when its turn comes; where too many wait, the reader is asked to come again.</summary>
    public static RouteHandlerBuilder InTurn(this RouteHandlerBuilder endpoint) => endpoint.AddEndpointFilter(async (context, next) =>
    {
        var http = context.HttpContext;
        try
        {
            return await http.RequestServices.GetRequiredService<HeavyWork>().InTurnAsync(() => next(context).AsTask(),
                http.RequestAborted);
        }
        catch (TooBusyException e)
        {
            http.Response.Headers.RetryAfter = "30";
            return Results.Text(e.Message, statusCode: StatusCodes.Status503ServiceUnavailable);
        }
    });
}

/// <summary>More people asked for plans and reports than can wait for them. The message is for whoever asked.</summary>
public sealed class TooBusyException : Exception
{
    public TooBusyException() : base("Many people are asking for plans and reports just now. Nothing is lost: try again in a minute.") { }

    public TooBusyException(string message) : base(message) { }

    public TooBusyException(string message, Exception inner) : base(message, inner) { }
}
