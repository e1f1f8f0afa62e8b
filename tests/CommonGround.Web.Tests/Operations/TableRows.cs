using System.Globalization;
using CommonGround.Storage;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Operations;

/// <summary>Every row of every table as text, whatever tables there are.</summary>
internal static class TableRows
{
    public static async Task<SortedDictionary<string, List<string>>> OfAsync(StorageLocation location)
    {
        await using var db = await StorageRegistration.Open(location).In(1).CreateDbContextAsync();
        await db.Database.OpenConnectionAsync();
        var names = await TextsAsync(db, location.Provider == "sqlite"
            ? "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
            : "SELECT tablename FROM pg_tables WHERE schemaname = 'public'");
        names.Count.ShouldBeGreaterThan(12);
        var tables = new SortedDictionary<string, List<string>>(StringComparer.Ordinal);
        foreach (var name in names)
        {
            tables[name] = [.. (await TextsAsync(db, $"SELECT * FROM \"{name}\"")).Order(StringComparer.Ordinal)];
        }

        return tables;
    }

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
