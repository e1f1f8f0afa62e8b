using System.Text.Json;
using CommonGround.Planning.Conversion;
using Microsoft.Extensions.Caching.Memory;

namespace CommonGround.Web.Features.Conversion;

/// <summary>What more or less money buys, as it was last worked out: the plan's page and its report ask the same question one after the
/// other, and it takes several times as long as the plan.</summary>
public sealed class KeptCurves : IDisposable
{
    /// <summary>Curves that are kept, each some tens of kilobytes.</summary>
    private const int MostKept = 200;

    private readonly MemoryCache kept = new(new MemoryCacheOptions { SizeLimit = MostKept });

    /// <summary>The curve of a request on a ground; worked out anew once anything stored has changed since.</summary>
    public IReadOnlyList<TradeOff> Of(PlanGround ground, ConversionRequest request, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(ground);
        var key = (ground.Facts.Id, ground.Facts.Version, ground.Stamp, ground.Figures.Matrix.AsOf, JsonSerializer.Serialize(request));
        if (kept.TryGetValue(key, out IReadOnlyList<TradeOff>? known) && known is not null)
        {
            return known;
        }

        var curve = TradeOffCurve.Of(request, ground.Surroundings, ground.Prices, cancel: cancel);
        kept.Set(key, curve, new MemoryCacheEntryOptions { Size = 1, SlidingExpiration = TimeSpan.FromMinutes(30) });
        return curve;
    }

    public void Dispose() => kept.Dispose();
}
