using BenchmarkDotNet.Attributes;
using CommonGround.Web.Features.Community;

namespace CommonGround.Benchmarks;

/// <summary>Target: the matrix of a million plantings built anew from SQLite in under 3 s.</summary>
public class Reload
{
    [GlobalSetup]
    public void Fill() => _ = CityDatabase.Instance;

    [Benchmark(Description = "Matrix rebuilt from SQLite")]
    public Task<LoadedCommunity> Load() => CityDatabase.Instance.Queries.LoadAsync(City.Today, default);
}
