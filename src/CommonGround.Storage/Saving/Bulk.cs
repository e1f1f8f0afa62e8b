using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace CommonGround.Storage.Saving;

/// <summary>Stores many new rows of one kind in the time the database itself needs: prepared inserts on SQLite, COPY on PostgreSQL, inside
/// the caller's transaction.</summary>
/// <remarks>Sources: https://www.sqlite.org/faq.html#q19, https://www.postgresql.org/docs/current/populate.html</remarks>
internal static class Bulk
{
    public static async Task InsertAsync<T>(CommonGroundDb db, IReadOnlyList<T> rows, CancellationToken cancel)
        where T : class
    {
        if (rows.Count == 0)
        {
            return;
        }

        var type = db.Model.FindEntityType(typeof(T))!;
        var table = StoreObjectIdentifier.Table(type.GetTableName()!, type.GetSchema());
        var columns = type.GetProperties().Select(p => new Column(p, p.GetColumnName(table)!)).ToArray();
        var into = $"\"{type.GetTableName()}\" ({string.Join(", ", columns.Select(c => $"\"{c.Name}\""))})";
        if (db.Database.GetDbConnection() is NpgsqlConnection postgres)
        {
            await CopyAsync(postgres, into, columns, rows, cancel);
        }
        else
        {
            await PreparedAsync(db.Database.GetDbConnection(), db.Database.CurrentTransaction!.GetDbTransaction(), into, columns, rows,
                cancel);
        }
    }

    private static async Task CopyAsync<T>(NpgsqlConnection connection, string into, Column[] columns, IReadOnlyList<T> rows,
        CancellationToken cancel)
        where T : class
    {
        await using var writer = await connection.BeginBinaryImportAsync($"COPY {into} FROM STDIN (FORMAT BINARY)", cancel);
        foreach (var row in rows)
        {
            await writer.StartRowAsync(cancel);
            foreach (var column in columns)
            {
                if (column.Value(row) is { } value)
                {
                    await writer.WriteAsync(value, column.StoreType, cancel);
                }
                else
                {
                    await writer.WriteNullAsync(cancel);
                }
            }
        }

        await writer.CompleteAsync(cancel);
    }

    private static async Task PreparedAsync<T>(DbConnection connection, DbTransaction transaction, string into, Column[] columns,
        IReadOnlyList<T> rows, CancellationToken cancel)
        where T : class
    {
        await using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = $"INSERT INTO {into} VALUES ({string.Join(", ", columns.Select((_, i) => $"@p{i}"))})";
        var parameters = columns.Select((_, i) =>
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = $"@p{i}";
            command.Parameters.Add(parameter);
            return parameter;
        }).ToArray();
        await command.PrepareAsync(cancel);
        foreach (var row in rows)
        {
            cancel.ThrowIfCancellationRequested();
            for (var i = 0; i < columns.Length; i++)
            {
                parameters[i].Value = columns[i].Value(row) ?? DBNull.Value;
            }

            await command.ExecuteNonQueryAsync(cancel);
        }
    }

    /// <summary>One column: how to take its value from a row, as the provider stores it.</summary>
    private sealed class Column(IProperty property, string name)
    {
        private readonly Func<object?, object?>? toStored = property.GetTypeMapping().Converter?.ConvertToProvider;
        private readonly System.Reflection.PropertyInfo read = property.PropertyInfo
            ?? throw new InvalidOperationException($"{property.Name} has no property to read.");

        public string Name => name;

        /// <summary>Without the length: COPY takes the bare name.</summary>
        public string StoreType { get; } = property.GetRelationalTypeMapping().StoreTypeNameBase;

        public object? Value(object row) => read.GetValue(row) is { } value ? toStored is null ? value : toStored(value) : null;
    }
}
