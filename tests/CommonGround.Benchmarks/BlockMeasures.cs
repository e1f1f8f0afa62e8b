using BenchmarkDotNet.Attributes;
using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;

namespace CommonGround.Benchmarks;

/// <summary>Target: all measures of all blocks no slower than DuckDB's single roll-up, and five times faster than SQLite's.</summary>
public class BlockMeasures
{
    private CommunityMatrix matrix = default!;
    private PlantingTables tables = default!;

    [GlobalSetup]
    public async Task Fill()
    {
        matrix = (await CityDatabase.Instance.Queries.LoadAsync(City.Today, default)).Matrix;
        tables = new PlantingTables(CityDatabase.Instance.Folder, matrix);
        double richness = MeasuresOfAllBlocks().Sum(m => m.Richness);
        // A race between different answers says nothing.
        if (richness != tables.Duck(PlantingTables.Rich) || richness != tables.Sqlite(PlantingTables.Rich))
        {
            throw new InvalidOperationException("The matrix and the databases do not count the same taxa.");
        }
    }

    [GlobalCleanup]
    public void Close() => tables.Dispose();

    [Benchmark(Baseline = true, Description = "All measures of 5,000 blocks, in memory")]
    public IReadOnlyList<SiteMeasures> MeasuresOfAllBlocks() => CommunityMeasures.OfBlocksWithoutPressure(matrix, Season.Default);

    [Benchmark(Description = "Invasive pressure on 5,000 blocks")]
    public IReadOnlyList<double> Pressure() => InvasivePressure.OfAllBlocks(matrix, PressureConvention.Default);

    [Benchmark(Description = "DuckDB roll-up, one COUNT(DISTINCT)")]
    public double DuckPlain() => tables.Duck(PlantingTables.Plain);

    [Benchmark(Description = "DuckDB roll-up, three COUNT(DISTINCT)")]
    public double DuckRich() => tables.Duck(PlantingTables.Rich);

    [Benchmark(Description = "SQLite roll-up, one COUNT(DISTINCT), flat table")]
    public double SqlitePlain() => tables.Sqlite(PlantingTables.Plain);

    [Benchmark(Description = "SQLite roll-up, three COUNT(DISTINCT), flat table")]
    public double SqliteRich() => tables.Sqlite(PlantingTables.Rich);

    [Benchmark(Description = "SQLite roll-up, one COUNT(DISTINCT), own tables")]
    public double SqliteOwnTables() => PlantingTables.Sqlite(CityDatabase.Instance.ConnectionString, PlantingTables.OwnTables);
}
