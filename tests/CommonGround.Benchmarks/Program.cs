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
            case ["many", "sqlite", var there]:
                await ManyNeighbourhoods.PrintAsync(CommonGround.Storage.StorageLocation
                    .SqliteFile(Path.Combine(Directory.CreateDirectory(there!).FullName, "many.db")));
                break;
            case ["many", "postgres"]:
                await OnPostgresAsync(connection => ManyNeighbourhoods.PrintAsync(new CommonGround.Storage.StorageLocation("postgres",
                    connection)));
                break;
            case ["circuits", var count, var ours, .. var other]:
                await OpenCircuits.PrintAsync(Path.GetFullPath(ours), other is [var theirs] ? Path.GetFullPath(theirs) : null,
                    int.Parse(count!, System.Globalization.CultureInfo.InvariantCulture));
                break;
            case ["soak", var minutes, var here]:
                await Soak.PrintAsync(Path.GetFullPath(here!), int.Parse(minutes!, System.Globalization.CultureInfo.InvariantCulture));
                break;
            case ["import", "sqlite", var there]:
                await ImportLock.PrintAsync(
                    "sqlite", $"Data Source={Path.Combine(Directory.CreateDirectory(there!).FullName, "import.db")}");
                break;
            case ["import", "postgres"]:
                await OnPostgresAsync(connection => ImportLock.PrintAsync("postgres", connection));
                break;
            case ["plan-report", var yard]:
                await PlanReportFromPage.PrintAsync(yard!);
                break;
            case ["memory"]:
                await MatrixMemory.PrintAsync();
                break;
            default:
                BenchmarkSwitcher.FromAssembly(typeof(EntryPoint).Assembly).Run(args, Short());
                break;
        }
    }

    /// <summary>With an empty database of a server of its own, which syncs to disk.</summary>
    private static async Task OnPostgresAsync(Func<string, Task> measure)
    {
        var cluster = new CommonGround.Storage.Tests.PostgresCluster(durable: true);
        await cluster.StartAsync();
        try
        {
            await measure(cluster.NewDatabase().Replace("Pooling=false", "Pooling=true", StringComparison.Ordinal));
        }
        finally
        {
            Npgsql.NpgsqlConnection.ClearAllPools();
            await cluster.StopAsync();
        }
    }

    /// <summary>In this process, so that the city is built once; a whole run takes minutes.</summary>
    private static ManualConfig Short() => DefaultConfig.Instance
        .WithArtifactsPath(Path.Combine(AppContext.BaseDirectory, "results"))
        .AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance))
        .AddDiagnoser(MemoryDiagnoser.Default);
}
