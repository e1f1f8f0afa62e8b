using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;

namespace CommonGround.Benchmarks;

internal static class EntryPoint
{
    private static async Task Main(string[] args)
    {
        switch (args)
        {
            case ["first-page", var site, .. var empty]:
                await FirstPage.PrintAsync(Path.GetFullPath(site), empty is [var folder] ? Path.GetFullPath(folder) : null);
                break;
            case ["import", var provider, var connection]:
                await ImportLock.PrintAsync(provider, connection);
                break;
            case ["memory"]:
                await MatrixMemory.PrintAsync();
                break;
            default:
                BenchmarkSwitcher.FromAssembly(typeof(EntryPoint).Assembly).Run(args, Short());
                break;
        }
    }

    /// <summary>In this process, so that the city is built once; a whole run takes minutes.</summary>
    private static ManualConfig Short() => DefaultConfig.Instance
        .WithArtifactsPath(Path.Combine(AppContext.BaseDirectory, "results"))
        .AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance))
        .AddDiagnoser(MemoryDiagnoser.Default);
}
