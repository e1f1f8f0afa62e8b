using System.Data.Common;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Operations;

/// <summary>The whole database as one file, written while others write, and brought back into an empty database. Each database has its own
/// way.</summary>
public abstract class DatabaseCopy(StorageLocation location)
{
    /// <summary>What a copy is called inside a backup; it tells which database it came from.</summary>
    public abstract string FileName { get; }

    /// <summary>The database's name, for messages.</summary>
    public abstract string Product { get; }

    protected StorageLocation Location => location;

    public static DatabaseCopy Of(StorageLocation location)
    {
        ArgumentNullException.ThrowIfNull(location);
        return location.Provider == "sqlite" ? new Sqlite.SqliteCopy(location) : new Postgres.PostgresCopy(location);
    }

    /// <summary>Whether there is nothing yet that a restore could overwrite.</summary>
    public abstract Task<bool> IsEmptyAsync(CancellationToken cancel);

    /// <summary>Writes a copy as of one moment. Writers go on meanwhile.</summary>
    /// <exception cref="DatabaseCopyException">It could not be made; the message says why.</exception>
    public abstract Task WriteAsync(string file, CancellationToken cancel);

    /// <summary>What is wrong with a copy; nothing when it can be relied on.</summary>
    public abstract Task<IReadOnlyList<string>> FaultsOfAsync(string file, CancellationToken cancel);

    /// <summary>Brings a copy back into the empty database, whole or not at all.</summary>
    /// <exception cref="DatabaseCopyException">It could not be brought back; the message says why.</exception>
    public abstract Task RestoreAsync(string file, CancellationToken cancel);

    /// <summary>What the database itself finds broken in its storage or rules.</summary>
    public abstract Task<IReadOnlyList<string>> FaultsAsync(CommonGroundDb db, CancellationToken cancel);

    /// <summary>The last change of the schema that this database has had; null when it has none.</summary>
    public async Task<string?> SchemaAsync(CancellationToken cancel)
    {
        await using var db = await StorageRegistration.Open(location).CreateDbContextAsync(cancel);
        await db.Database.OpenConnectionAsync(cancel);
        try
        {
            return (await RowsAsync(db.Database.GetDbConnection(), "SELECT max(\"MigrationId\") FROM \"__EFMigrationsHistory\"",
                cancel))[0][0] is { Length: > 0 } last ? last : null;
        }
        catch (DbException)
        {
            // No such table: nothing has made a schema here.
            return null;
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    /// <summary>Whether this program knows a change of the schema.</summary>
    public bool Knows(string schema)
    {
        using var db = StorageRegistration.Open(location).CreateDbContext();
        return db.Database.GetMigrations().Contains(schema);
    }

    /// <summary>Every row of an answer, its values as text.</summary>
    internal static async Task<List<string[]>> RowsAsync(DbConnection connection, string sql, CancellationToken cancel)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await using var reader = await command.ExecuteReaderAsync(cancel);
        var rows = new List<string[]>();
        while (await reader.ReadAsync(cancel))
        {
            rows.Add([.. Enumerable.Range(0, reader.FieldCount).Select(i => reader.IsDBNull(i) ? ""
                : Convert.ToString(reader.GetValue(i), System.Globalization.CultureInfo.InvariantCulture) ?? "")]);
        }

        return rows;
    }
}

/// <summary>A copy that could not be made or brought back; the message is for the person who looks after the site.</summary>
public sealed class DatabaseCopyException : Exception
{
    public DatabaseCopyException(string message) : base(message) { }

    public DatabaseCopyException(string message, Exception inner) : base(message, inner) { }

    public DatabaseCopyException() { }
}
