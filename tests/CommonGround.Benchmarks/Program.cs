using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;

namespace CommonGround.Benchmarks;

internal static class Program
{
    private static async Task Main(string[] args)
    {
        switch (args)
        {
            case ["first-page", var program]:
                await FirstPage.MeasureAsync(program);
                break;
            case ["memory"]:
                Memory();
                break;
            default:
                // One process, so that the town is built once; seven measured rounds after two of warm-up.
                var job = Job.Default.WithToolchain(InProcessEmitToolchain.Instance).WithStrategy(BenchmarkDotNet.Engines.RunStrategy.Monitoring).WithWarmupCount(2).WithIterationCount(7);
                var config = ManualConfig.Create(DefaultConfig.Instance).AddJob(job).AddColumn(StatisticColumn.Median, StatisticColumn.Min).WithOptions(ConfigOptions.DisableOptimizationsValidator);
                BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args, config);
                break;
        }
    }

    private static void Memory()
    {
        var queries = Town.Instance.Queries;
        GC.Collect(2, GCCollectionMode.Forced, blocking: true, compacting: true);
        var before = GC.GetTotalMemory(forceFullCollection: true);
        var loaded = queries.LoadAsync(Town.Instance.Clock.Today, default).GetAwaiter().GetResult();
        var after = GC.GetTotalMemory(forceFullCollection: true);
        Console.WriteLine($"Matrix of {loaded.Matrix.Yards.Sum(y => y.Presences.Length)} presences in {loaded.Matrix.Yards.Count} yards: {(after - before) / 1048576.0:0} MiB");
    }
}
