using System.Data.Common;
using BenchmarkDotNet.Attributes;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;

namespace CommonGround.Benchmarks;

/// <summary>Target 1: every measure of every block (reach and pressure apart) against one roll-up with distinct counts in DuckDB and in SQLite.</summary>
public class BlockMeasures
{
    private const string RollUp = "SELECT block, COUNT(DISTINCT taxon), COUNT(DISTINCT yard), SUM(cover), COUNT(DISTINCT CASE WHEN native THEN taxon END) FROM plantings GROUP BY block";
    private CommunityMatrix matrix = default!;

    [GlobalSetup]
    public void Setup()
    {
        matrix = Town.Instance.Matrix;
        Rows(Town.Instance.Duck).ShouldBe(Town.Blocks);
    }

    [Benchmark(Baseline = true)]
    public int DuckDbRollUp() => Rows(Town.Instance.Duck);

    [Benchmark]
    public int AllMeasuresOfAllBlocks() => CommunityMeasures.OfBlocksWithoutPressure(matrix, Season.Default).Count;

    [Benchmark]
    public int SqliteRollUp() => Rows(Town.Instance.Flat);

    private static int Rows(DbConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = RollUp;
        using var reader = command.ExecuteReader();
        var rows = 0;
        while (reader.Read())
        {
            rows++;
        }

        return rows;
    }
}

internal static class Expectations
{
    public static void ShouldBe(this int actual, int expected)
    {
        if (actual != expected)
        {
            throw new InvalidOperationException($"{actual} rows, expected {expected}: the compared query does not do the same work.");
        }
    }
}
