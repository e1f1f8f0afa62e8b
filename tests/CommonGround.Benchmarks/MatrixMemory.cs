using System.Runtime.CompilerServices;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;

namespace CommonGround.Benchmarks;

/// <summary>How much memory the matrix of the whole city keeps.</summary>
internal static class MatrixMemory
{
    public static async Task PrintAsync()
    {
        var city = CityDatabase.Instance;
        // Once before, so that what the database layer keeps for itself is not counted.
        await LoadOnceAsync(city);
        var before = Kept();
        var loaded = await city.Queries.LoadAsync(City.Today, default);
        var matrix = Kept() - before;
        // The first roll-up makes the lists of yards by block and street, which stay.
        CommunityMeasures.OfBlocksWithoutPressure(loaded.Matrix, Season.Default);
        var used = Kept() - before;
        Console.WriteLine($"{loaded.Matrix.Yards.Sum(y => y.Presences.Length):n0} entries: {matrix / 1e6:0.0} MB loaded, {used / 1e6:0.0} "
            + $"MB with the lists of places");
        GC.KeepAlive(loaded);
    }

    // Apart, so that nothing of it stays within reach.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static async Task LoadOnceAsync(CityDatabase city) => await city.Queries.LoadAsync(City.Today, default);

    private static long Kept()
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        return GC.GetTotalMemory(forceFullCollection: true);
    }
}
