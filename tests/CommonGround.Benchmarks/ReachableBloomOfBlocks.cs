using BenchmarkDotNet.Attributes;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Sites;

namespace CommonGround.Benchmarks;

/// <summary>Target: reachable bloom of every block for one date in under 1 s.</summary>
public class ReachableBloomOfBlocks
{
    private CommunityMatrix matrix = default!;

    /// <summary>Inter-tegular span, mm: a small sweat bee and a bumble bee worker, as on the page on streets.</summary>
    [Params(1.6, 4.0)]
    public double SpanMillimetres { get; set; }

    [GlobalSetup]
    public async Task Fill() => matrix = (await CityDatabase.Instance.Queries.LoadAsync(City.Today, default)).Matrix;

    [Benchmark(Description = "Reachable bloom of 5,000 blocks")]
    public double[] OfAllBlocks() =>
        ReachableBloom.OfAllBlocks(matrix, HalfMonth.Of(City.Today), ForagingRange.TypicalHomingKilometres(SpanMillimetres) * 1000);
}
