using System.Data.Common;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using DuckDB.NET.Data;
using Microsoft.Data.Sqlite;

namespace CommonGround.Benchmarks;

/// <summary>The rows of a matrix as one flat table each in DuckDB and SQLite, in the order of blocks: the kindest layout for a
/// roll-up.</summary>
internal sealed class PlantingTables : IDisposable
{
    private const string Table = "CREATE TABLE plantings (yard BIGINT, block INTEGER, taxon INTEGER, cover DOUBLE, native INTEGER)";

    /// <summary>What a database can say of a block in one statement; the program's measures say all this and some sixty figures
    /// more.</summary>
    public const string Rich = """
        SELECT block, COUNT(DISTINCT yard), COUNT(DISTINCT taxon), COUNT(DISTINCT CASE WHEN native = 1 THEN taxon END),
               SUM(cover), SUM(CASE WHEN native = 1 THEN cover ELSE 0 END)
        FROM plantings GROUP BY block
        """;

    /// <summary>The least that deserves the name: one COUNT(DISTINCT).</summary>
    public const string Plain = "SELECT block, COUNT(DISTINCT taxon), SUM(cover), COUNT(*) FROM plantings GROUP BY block";

    /// <summary>The plain one over the program's own tables.</summary>
    public const string OwnTables = """
        SELECT y."BlockId", COUNT(DISTINCT s."TaxonId"), SUM(s."CoverSquareMetres"), COUNT(*)
        FROM "Sightings" s JOIN "Yards" y ON y."NeighbourhoodId" = s."NeighbourhoodId" AND y."Id" = s."YardId"
        WHERE s."NeighbourhoodId" = 1 GROUP BY y."BlockId"
        """;

    private readonly DuckDBConnection duck;
    private readonly SqliteConnection sqlite;

    public PlantingTables(string folder, CommunityMatrix matrix)
    {
        var name = Guid.NewGuid().ToString("N");
        duck = new DuckDBConnection($"DataSource={Path.Combine(folder, name + ".duckdb")}");
        sqlite = new SqliteConnection($"Data Source={Path.Combine(folder, name + ".db")}");
        duck.Open();
        sqlite.Open();
        Execute(duck, Table);
        Execute(sqlite, Table);
        using var appender = duck.CreateAppender("plantings");
        using var transaction = sqlite.BeginTransaction();
        using var insert = new RowInsert(sqlite, "plantings", "yard", "block", "taxon", "cover", "native");
        foreach (var yard in matrix.Yards.OrderBy(y => y.Block))
        {
            foreach (var p in yard.Presences)
            {
                var native = matrix.Taxa[p.Taxon].Nativity == Nativity.Native ? 1 : 0;
                appender.CreateRow().AppendValue(yard.YardId).AppendValue(yard.Block).AppendValue(p.Taxon).AppendValue(p.CoverSquareMetres)
                    .AppendValue(native).EndRow();
                insert.Add(yard.YardId, yard.Block, p.Taxon, p.CoverSquareMetres, native);
            }
        }

        transaction.Commit();
    }

    public double Duck(string sql) => Read(duck, sql);

    public double Sqlite(string sql) => Read(sqlite, sql);

    public static double Sqlite(string connectionString, string sql)
    {
        using var connection = new SqliteConnection(connectionString);
        connection.Open();
        return Read(connection, sql);
    }

    public void Dispose()
    {
        duck.Dispose();
        sqlite.Dispose();
    }

    /// <summary>Reads every row and column, and adds up the third so that the answers can be compared.</summary>
    private static double Read(DbConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // Only the statements above get here.
        command.CommandText = sql;
#pragma warning restore CA2100
        using var rows = command.ExecuteReader();
        var values = new object[rows.FieldCount];
        double sum = 0;
        while (rows.Read())
        {
            rows.GetValues(values);
            sum += Convert.ToDouble(values[2]);
        }

        return sum;
    }

    private static void Execute(DbConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // Only the statements above get here.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }
}
