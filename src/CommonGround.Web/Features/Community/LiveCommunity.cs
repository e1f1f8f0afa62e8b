using CommonGround.Ecology.Sites;

namespace CommonGround.Web.Features.Community;

/// <summary>
/// Keeps today's community matrix of one neighbourhood in memory: the only cache of it. Before every answer the number of the newest change
/// is compared, so it never answers with what any process, a command included, has changed since.
/// </summary>
[System.Diagnostics.CodeAnalysis.SuppressMessage("Design", "CA1001",
    Justification = "It lives as long as the program; a semaphore whose wait handle nobody asks for holds nothing to free.")]
public sealed class LiveCommunity(CommunityQueries queries, GroupClock clock, TimeProvider time)
{
    private readonly SemaphoreSlim gate = new(1, 1);
    private volatile LoadedCommunity? current;
    private volatile MadeFigures? figures;
    private long lastUsed;

    /// <summary>When somebody last asked; <see cref="DateTimeOffset.MinValue"/> before the first.</summary>
    public DateTimeOffset LastUsed => new(Interlocked.Read(ref lastUsed), TimeSpan.Zero);

    /// <summary>Yard and taxon pairs held in memory; 0 when nothing is.</summary>
    public long CellsHeld => current?.Matrix.Yards.Sum(y => (long)y.Presences.Length) ?? 0;

    /// <summary>The measures as somebody may see them: organisers all yards, others those that share.</summary>
    public async Task<Figures> FiguresAsync(bool organiser, CancellationToken cancel = default)
    {
        var loaded = await LoadedAsync(cancel);
        var made = figures;
        if (made is null || made.Of != loaded)
        {
            made = new MadeFigures(loaded, loaded.Figures(sharedOnly: false), loaded.Figures(sharedOnly: true));
            figures = made;
        }

        return organiser ? made.All : made.Shared;
    }

    public async Task<CommunityMatrix> NowAsync(CancellationToken cancel = default) => (await LoadedAsync(cancel)).Matrix;

    public async Task<LoadedCommunity> LoadedAsync(CancellationToken cancel = default)
    {
        Interlocked.Exchange(ref lastUsed, time.GetUtcNow().UtcTicks);
        var stamp = await queries.StampAsync(cancel);
        if (current is { } now && Stands(now, stamp))
        {
            return now;
        }

        await gate.WaitAsync(cancel);
        try
        {
            // Whoever waited here may find it brought up to date already.
            stamp = await queries.StampAsync(cancel);
            if (current is { } held && Stands(held, stamp))
            {
                return held;
            }

            var read = await BroughtUpAsync(current, cancel);
            current = read;
            return read;
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>Gives the memory back; the next reader reads anew.</summary>
    public void Forget() => (current, figures) = (null, null);

    private bool Stands(LoadedCommunity held, long stamp) => held.Stamp == stamp && held.Matrix.AsOf == clock.Today;

    /// <summary>Where only a few yards changed, only they are read again.</summary>
    private async Task<LoadedCommunity> BroughtUpAsync(LoadedCommunity? held, CancellationToken cancel)
    {
        var followed = held is not null && held.Matrix.AsOf == clock.Today ? await queries.FollowAsync(held, cancel) : null;
        return followed ?? await queries.LoadAsync(clock.Today, cancel);
    }

    private sealed record MadeFigures(LoadedCommunity Of, Figures All, Figures Shared);
}
