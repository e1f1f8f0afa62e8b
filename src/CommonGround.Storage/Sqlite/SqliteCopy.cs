using CommonGround.Storage.Operations;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Sqlite;

/// <summary>SQLite's online backup: one reader's view of the file, copied page by page while writers go on in the write-ahead
/// log.</summary>
/// <remarks>Source: https://www.sqlite.org/backup.html</remarks>
internal sealed class SqliteCopy(StorageLocation location) : DatabaseCopy(location)
{
    public override string FileName => "commonground.db";

    public override string Product => "SQLite";

    private string File => new SqliteConnectionStringBuilder(Location.ConnectionString).DataSource;

    public override Task<bool> IsEmptyAsync(CancellationToken cancel) => Task.FromResult(!System.IO.File.Exists(File));

    public override async Task WriteAsync(string file, CancellationToken cancel)
    {
        try
        {
            await using var from = new SqliteConnection($"Data Source={File};Pooling=False");
            await using var to = new SqliteConnection($"Data Source={file};Pooling=False");
            await from.OpenAsync(cancel);
            await to.OpenAsync(cancel);
            from.BackupDatabase(to);
            // One file that stands by itself in the archive.
            await RowsAsync(to, "PRAGMA journal_mode=DELETE", cancel);
        }
        catch (SqliteException e)
        {
            throw new DatabaseCopyException($"The database could not be copied ({e.Message})", e);
        }
    }

    public override async Task<IReadOnlyList<string>> FaultsOfAsync(string file, CancellationToken cancel)
    {
        try
        {
            await using var connection = new SqliteConnection($"Data Source={file};Mode=ReadOnly;Pooling=False");
            await connection.OpenAsync(cancel);
            var found = await RowsAsync(connection, "PRAGMA integrity_check", cancel);
            var loose = await RowsAsync(connection, "PRAGMA foreign_key_check", cancel);
            return [.. found.Select(r => r[0]).Where(r => r != "ok"), .. loose.Select(Loose).Distinct()];
        }
        catch (SqliteException e)
        {
            return [e.Message];
        }
    }

    public override async Task RestoreAsync(string file, CancellationToken cancel)
    {
        await using (var connection = new SqliteConnection($"Data Source={file};Pooling=False"))
        {
            // As the program keeps it: a reader that may not write cannot turn the log on later.
            await connection.OpenAsync(cancel);
            await RowsAsync(connection, "PRAGMA journal_mode=WAL", cancel);
        }

        System.IO.File.Move(file, File, overwrite: false);
    }

    public override async Task<IReadOnlyList<string>> FaultsAsync(CommonGroundDb db, CancellationToken cancel)
    {
        try
        {
            await db.Database.OpenConnectionAsync(cancel);
            var connection = db.Database.GetDbConnection();
            var found = await RowsAsync(connection, "PRAGMA integrity_check", cancel);
            var loose = await RowsAsync(connection, "PRAGMA foreign_key_check", cancel);
            return [.. found.Select(r => r[0]).Where(r => r != "ok"), .. loose.Select(Loose).Distinct()];
        }
        catch (SqliteException e)
        {
            return [e.Message];
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    private static string Loose(string[] row) => $"a row of {row[0]} points to a row of {row[2]} that is gone";
}
