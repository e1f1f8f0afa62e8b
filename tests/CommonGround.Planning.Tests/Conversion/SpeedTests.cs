using System.Diagnostics;
using CommonGround.Planning.Conversion;
using CommonGround.Ecology.Taxa;
namespace CommonGround.Planning.Tests.Conversion;
public class SpeedTests
{
    [Fact]
    public void Scratch()
    {
        foreach (var (n, r) in new (string, ConversionRequest)[] { ("sun132", QuarryFlora.Request(132)), ("dry60", QuarryFlora.Request(60, moisture: Moisture.Dry) with { SoilTexture = SoilTexture.Sand }), ("wet200", QuarryFlora.Request(200, moisture: Moisture.Wet)), ("shade80", QuarryFlora.Request(80, Light.Shade)), ("part12", QuarryFlora.Request(12, Light.PartShade)), ("part132", QuarryFlora.Request(132, Light.PartShade)), ("tiny", QuarryFlora.Request(2)), ("5000", QuarryFlora.Request(5000) with { Method = Method.Seed }), ("kerb", QuarryFlora.Request(20) with { TallestMetres = 0.6, Kerb = true }), ("b150", QuarryFlora.Request(132) with { Budget = 150 }), ("6", QuarryFlora.Request(6)), ("b30", QuarryFlora.Request(132) with { Budget = 30 }), ("b1", QuarryFlora.Request(40) with { Budget = 1 }), ("swale", QuarryFlora.Request(40, moisture: Moisture.Moist)) })
        {
            foreach (var e in new[] { Effort.Quick, Effort.Full })
            {
                var w = Stopwatch.StartNew();
                var o = QuarryFlora.Solve(r, e);
                Console.WriteLine($"{n} {w.ElapsedMilliseconds} ms {(o.Mix is { } m ? $"{m.Taxa.Count} taxa {m.Cost:0} best {m.Quality.Best} bound {m.Quality.Bound} obj {m.Quality.Objective} gap {m.Quality.Gap:P2} {m.Quality.ProvenBest} bees {m.Quality.Support}/{m.Quality.BeesPossible} {string.Join(" ", m.Advice)}" : string.Join(" | ", o.None!.Conflict.Concat(o.None.Relaxed)))}");
            }
        }
    }
}
