namespace CommonGround.Benchmarks;

internal static class Benchmarks
{
    private static void Main(string[] args) => BenchmarkDotNet.Running.BenchmarkSwitcher.FromAssembly(typeof(Benchmarks).Assembly).Run(args);
}
