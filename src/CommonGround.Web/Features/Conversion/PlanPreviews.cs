using System.Collections.Concurrent;
using CommonGround.Drawings.Scenes;

namespace CommonGround.Web.Features.Conversion;

/// <summary>The beds of an open page; the version is another with every change.</summary>
public sealed record ShownBeds(Guid Version, IReadOnlyList<Bed> Beds);

/// <summary>Reports and pictures of plans that somebody is still changing, for the frame on their own page; each is gone with that
/// page.</summary>
public sealed class PlanPreviews
{
    private readonly ConcurrentDictionary<Guid, byte[]> shown = new();
    private readonly ConcurrentDictionary<Guid, ShownBeds> drawn = new();

    /// <param name="page">A number of the page's own that nobody can guess.</param>
    public void Show(Guid page, byte[] pdf) => shown[page] = pdf;

    public void Forget(Guid page)
    {
        shown.TryRemove(page, out _);
        drawn.TryRemove(page, out _);
    }

    /// <summary>The beds that the page's pictures show.</summary>
    public void ShowBeds(Guid page, IReadOnlyList<Bed> beds) => drawn[page] = new ShownBeds(Guid.NewGuid(), beds);

    public ShownBeds? FindBeds(Guid page) => drawn.GetValueOrDefault(page);

    public byte[]? Find(Guid page) => shown.GetValueOrDefault(page);
}
