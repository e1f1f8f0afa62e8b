using System.Globalization;
using CommonGround.Storage;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Operations;

/// <summary>Every row of every table as text, whatever tables there are.</summary>
internal static class TableRows
{
    /// <param name="location">The database.</param>
    /// <param name="columns">The columns wanted of each table; all of them where a table is not named.</param>
    public static async Task<SortedDictionary<string, List<string>>> OfAsync(
        StorageLocation location, IReadOnlyDictionary<string, string>? columns = null)
    {
        await using var db = await StorageRegistration.Open(location).In(1).CreateDbContextAsync();
        await db.Database.OpenConnectionAsync();
        var names = await NamesAsync(db);
        names.Count.ShouldBeGreaterThan(12);
        var tables = new SortedDictionary<string, List<string>>(StringComparer.Ordinal);
        foreach (var name in names)
        {
            tables[name] = [.. (await TextsAsync(db, $"SELECT {columns?.GetValueOrDefault(name) ?? "*"} FROM \"{name}\"")).Order(
                StringComparer.Ordinal)];
        }

        return tables;
    }

    /// <summary>The columns of every table, ready to be asked for again.</summary>
    public static async Task<Dictionary<string, string>> ColumnsAsync(StorageLocation location)
    {
        await using var db = await StorageRegistration.Open(location).In(1).CreateDbContextAsync();
        await db.Database.OpenConnectionAsync();
        var columns = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var name in await NamesAsync(db))
        {
            await using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = $"SELECT * FROM \"{name}\"";
            await using var reader = await command.ExecuteReaderAsync();
            columns[name] = string.Join(", ", Enumerable.Range(0, reader.FieldCount).Select(i => $"\"{reader.GetName(i)}\""));
        }

        return columns;
    }

    /// <summary>What the database was told to keep, in its own words: tables, columns, rules, indexes and triggers.</summary>
    public static async Task<List<string>> SchemaAsync(StorageLocation location)
    {
        await using var db = await StorageRegistration.Open(location).In(1).CreateDbContextAsync();
        await db.Database.OpenConnectionAsync();
        return location.Provider == "sqlite"
            ? await TextsAsync(db, "SELECT name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%' ORDER BY name")
            : [.. await TextsAsync(db, """
                SELECT table_name, column_name, data_type, is_nullable, character_maximum_length FROM information_schema.columns
                WHERE table_schema = 'public' ORDER BY 1, 2
                """),
                .. await TextsAsync(db, "SELECT indexdef FROM pg_indexes WHERE schemaname = 'public' ORDER BY 1"),
                .. await TextsAsync(db, """
                    SELECT conrelid::regclass::text, pg_get_constraintdef(oid) FROM pg_constraint WHERE connamespace = 'public'::regnamespace ORDER BY 1, 2
                    """),
                .. await TextsAsync(db, "SELECT pg_get_triggerdef(oid) FROM pg_trigger WHERE NOT tgisinternal ORDER BY 1")];
    }

    private static Task<List<string>> NamesAsync(CommonGroundDb db) => TextsAsync(db, db.Database.IsSqlite()
        ? "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        : "SELECT tablename FROM pg_tables WHERE schemaname = 'public'");

    private static async Task<List<string>> TextsAsync(CommonGroundDb db, string sql)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = sql;
        await using var reader = await command.ExecuteReaderAsync();
        var rows = new List<string>();
        while (await reader.ReadAsync())
        {
            rows.Add(string.Join('\u001f', Enumerable.Range(0, reader.FieldCount).Select(i => reader.GetValue(i) switch
            {
                double d => d.ToString("R", CultureInfo.InvariantCulture),
                byte[] b => Convert.ToHexString(b),
                DateTime t => t.ToString("O", CultureInfo.InvariantCulture),
                var other => Convert.ToString(other, CultureInfo.InvariantCulture),
            })));
        }

        return rows;
    }
}
