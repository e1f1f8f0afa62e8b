using CommonGround.Ecology.Sites;

namespace CommonGround.Web.Features.Community;

/// <summary>Keeps today's community matrix in memory. The only cache of it: a committed write calls <see cref="YardChangedAsync"/> or <see cref="Drop"/>.</summary>
[System.Diagnostics.CodeAnalysis.SuppressMessage("Design", "CA1001", Justification = "It lives as long as the program; a semaphore whose wait handle nobody asks for holds nothing to free.")]
public sealed class LiveCommunity(CommunityQueries queries, GroupClock clock)
{
    private readonly SemaphoreSlim gate = new(1, 1);
    private readonly Lock keeping = new();
    private LoadedCommunity? current;
    private int drops;
    private (CommunityMatrix Of, Figures All, Figures Shared)? figures;

    /// <summary>The measures as somebody may see them: organisers all yards, others those that share.</summary>
    public async Task<Figures> FiguresAsync(bool organiser, CancellationToken cancel = default)
    {
        var loaded = await LoadedAsync(cancel);
        var matrix = loaded.Matrix;
        var made = figures;
        if (made is null || made.Value.Of != matrix)
        {
            made = (matrix, loaded.Figures(sharedOnly: false), loaded.Figures(sharedOnly: true));
            figures = made;
        }

        return organiser ? made.Value.All : made.Value.Shared;
    }

    public async Task<CommunityMatrix> NowAsync(CancellationToken cancel = default) => (await LoadedAsync(cancel)).Matrix;

    public async Task<LoadedCommunity> LoadedAsync(CancellationToken cancel = default)
    {
        var loaded = current;
        if (loaded is not null && loaded.Matrix.AsOf == clock.Today)
        {
            return loaded;
        }

        await gate.WaitAsync(cancel);
        try
        {
            loaded = current;
            if (loaded is null || loaded.Matrix.AsOf != clock.Today)
            {
                var before = Volatile.Read(ref drops);
                loaded = await queries.LoadAsync(clock.Today, cancel);
                Keep(loaded, before);
            }

            return loaded;
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>Puts one yard's new row in place; nothing else is read again.</summary>
    public async Task YardChangedAsync(long yardId, CancellationToken cancel = default)
    {
        await gate.WaitAsync(cancel);
        try
        {
            var before = Volatile.Read(ref drops);
            if (current is not { } now)
            {
                return;
            }

            var row = now.Matrix.PositionOf(yardId) is null ? null : await queries.LoadYardAsync(now, yardId, cancel);
            Keep(row is null ? null : now with { Matrix = now.Matrix.With(row) }, before);
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>Forgets the matrix after a write that touches more than one yard's plantings; the next reader builds it anew.</summary>
    public void Drop()
    {
        lock (keeping)
        {
            drops++;
            current = null;
        }
    }

    /// <summary>Keeps what was read, unless a write overtook the reading: then the next reader reads anew.</summary>
    private void Keep(LoadedCommunity? read, int dropsBefore)
    {
        lock (keeping)
        {
            current = drops == dropsBefore ? read : null;
        }
    }
}
