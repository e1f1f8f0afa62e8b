using System.Collections.Concurrent;

namespace CommonGround.Storage.History;

/// <summary>Tells this process that a neighbourhood's record changed: by its own saves at once, by those of other processes where the
/// database passes them on.</summary>
/// <remarks>Only a hint to look again. What is true is always the <see cref="ChangeStamp"/>.</remarks>
public sealed class ChangeFeed
{
    private readonly ConcurrentDictionary<Subscription, Action<int>> listeners = [];

    /// <summary>Calls back with a neighbourhood's number, on any thread, until disposed.</summary>
    public IDisposable Subscribe(Action<int> changed)
    {
        ArgumentNullException.ThrowIfNull(changed);
        var subscription = new Subscription(this);
        listeners[subscription] = changed;
        return subscription;
    }

    public void Tell(int neighbourhoodId)
    {
        foreach (var listener in listeners.Values)
        {
            listener(neighbourhoodId);
        }
    }

    private sealed class Subscription(ChangeFeed feed) : IDisposable
    {
        public void Dispose() => feed.listeners.TryRemove(this, out _);
    }
}
