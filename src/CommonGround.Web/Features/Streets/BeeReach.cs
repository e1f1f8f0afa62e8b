using CommonGround.Ecology.Pollinators;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Features.Streets;

/// <summary>Reachable bloom for a small and a large bee.</summary>
public static class BeeReach
{
    /// <summary>Inter-tegular spans, mm: a small sweat bee and a bumble bee worker. Round values from memory; the range follows from them
    /// by Greenleaf et al. 2007.</summary>
    public static readonly (string Name, double SpanMillimetres)[] Bees = [("Small sweat bee", 1.6), ("Bumble bee worker", 4.0)];

    public static IReadOnlyList<(string Name, double Metres, double SquareMetres)> From(Figures figures, int block, int half)
    {
        var site = figures.Matrix.Blocks[block];
        return [.. Bees.Select(b =>
        {
            var metres = ForagingRange.TypicalHomingKilometres(b.SpanMillimetres) * 1000;
            return (b.Name, metres, figures.Told(ReachableBloom.At(figures.Matrix, site.Latitude, site.Longitude, half, metres)));
        })];
    }
}
