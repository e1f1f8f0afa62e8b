using System.Collections.Concurrent;

namespace CommonGround.Web.Features.Conversion;

/// <summary>Reports of plans that somebody is still changing, for the frame on their own page; each is gone with that page.</summary>
public sealed class PlanPreviews
{
    private readonly ConcurrentDictionary<Guid, byte[]> shown = new();

    /// <param name="page">A number of the page's own that nobody can guess.</param>
    public void Show(Guid page, byte[] pdf) => shown[page] = pdf;

    public void Forget(Guid page) => shown.TryRemove(page, out _);

    public byte[]? Find(Guid page) => shown.GetValueOrDefault(page);
}
