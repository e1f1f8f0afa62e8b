using Microsoft.Data.Sqlite;

namespace CommonGround.Benchmarks;

/// <summary>One prepared insert, used for many rows.</summary>
internal sealed class RowInsert : IDisposable
{
    private readonly SqliteCommand command;

    public RowInsert(SqliteConnection connection, string table, params string[] columns)
    {
        command = connection.CreateCommand();
#pragma warning disable CA2100 // Only names written in this project get here.
        command.CommandText = $"INSERT INTO \"{table}\" ({string.Join(", ", columns.Select(c => $"\"{c}\""))}) VALUES "
            + $"({string.Join(", ", columns.Select((_, i) => $"$p{i}"))})";
#pragma warning restore CA2100
        foreach (var i in Enumerable.Range(0, columns.Length))
        {
            command.Parameters.Add(new SqliteParameter { ParameterName = $"$p{i}" });
        }
    }

    public void Add(params object[] values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            command.Parameters[i].Value = values[i];
        }

        command.ExecuteNonQuery();
    }

    public void Dispose() => command.Dispose();
}
