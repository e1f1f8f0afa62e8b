using CommonGround.Storage.Operations;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace CommonGround.Storage.Postgres;

/// <summary>PostgreSQL's own programs: pg_dump reads one snapshot, pg_restore brings it back in one transaction.</summary>
/// <remarks>Source: https://www.postgresql.org/docs/current/app-pgdump.html, app-pgrestore.html</remarks>
internal sealed class PostgresCopy(StorageLocation location) : DatabaseCopy(location)
{
    public override string FileName => "commonground.dump";

    public override string Product => "PostgreSQL";

    public override async Task<bool> IsEmptyAsync(CancellationToken cancel)
    {
        await using var db = await StorageRegistration.Open(Location).CreateDbContextAsync(cancel);
        var creator = db.GetService<IRelationalDatabaseCreator>();
        return !await creator.ExistsAsync(cancel) || !await creator.HasTablesAsync(cancel);
    }

    public override Task WriteAsync(string file, CancellationToken cancel) =>
        PostgresPrograms.RunAsync("pg_dump", Server, ["--format=custom", "--no-owner", "--no-privileges", $"--file={file}", .. Connection],
            cancel);

    public override async Task<IReadOnlyList<string>> FaultsOfAsync(string file, CancellationToken cancel)
    {
        try
        {
            // Without a database pg_restore writes the whole dump out as SQL: it has to read and unpack every row of it.
            await PostgresPrograms.RunAsync("pg_restore", Server, ["--file=-", file], cancel);
            return [];
        }
        catch (DatabaseCopyException e)
        {
            return [e.Message];
        }
    }

    public override async Task RestoreAsync(string file, CancellationToken cancel)
    {
        await using (var db = await StorageRegistration.Open(Location).CreateDbContextAsync(cancel))
        {
            var creator = db.GetService<IRelationalDatabaseCreator>();
            if (!await creator.ExistsAsync(cancel))
            {
                await creator.CreateAsync(cancel);
            }
        }

        await PostgresPrograms.RunAsync("pg_restore", Server, ["--single-transaction", "--exit-on-error", "--no-owner", "--no-privileges",
            .. Connection, file], cancel);
    }

    public override async Task<IReadOnlyList<string>> FaultsAsync(CommonGroundDb db, CancellationToken cancel)
    {
        var found = new List<string>();
        await db.Database.OpenConnectionAsync(cancel);
        try
        {
            var connection = db.Database.GetDbConnection();
            foreach (var table in await RowsAsync(connection,
                "SELECT quote_ident(tablename) FROM pg_tables WHERE schemaname = current_schema()", cancel))
            {
                // Every value of every row is read and unpacked, so that a damaged page shows.
                await AskAsync(connection, $"SELECT coalesce(sum(length(t::text)), 0) FROM {table[0]} t", _ => null, table[0], found,
                    cancel);
            }

            foreach (var rule in await RowsAsync(connection,
                "SELECT conrelid::regclass::text, conname, pg_get_expr(conbin, conrelid) FROM pg_constraint WHERE contype = 'c' AND "
                    + "conrelid <> 0 AND connamespace = current_schema()::regnamespace", cancel))
            {
                await AskAsync(connection, $"SELECT count(*) FROM {rule[0]} WHERE NOT ({rule[2]})", n => n == "0" ? null
                    : $"{n} rows of {rule[0]} break the rule {rule[1]}", rule[0], found, cancel);
            }

            found.AddRange(
                (await RowsAsync(connection,
                    "SELECT conrelid::regclass::text, conname FROM pg_constraint WHERE NOT convalidated AND connamespace = "
                        + "current_schema()::regnamespace", cancel)).Select(r => $"the rule {r[1]} of {r[0]} is not enforced on all rows"));
            found.AddRange(
                (await RowsAsync(connection,
                    "SELECT i.indexrelid::regclass::text FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid WHERE NOT i.indisvalid "
                        + "AND c.relnamespace = current_schema()::regnamespace", cancel)).Select(r => $"the index {r[0]} is not valid"));
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }

        return found;
    }

    private static async Task AskAsync(System.Data.Common.DbConnection connection, string sql, Func<string, string?> fault, string table,
        List<string> found, CancellationToken cancel)
    {
        try
        {
            if (fault((await RowsAsync(connection, sql, cancel))[0][0]) is { } wrong)
            {
                found.Add(wrong);
            }
        }
        catch (PostgresException e)
        {
            found.Add($"{table} cannot be read whole: {e.MessageText}");
        }
    }

    private NpgsqlConnectionStringBuilder Server => new(Location.ConnectionString);

    private string[] Connection =>
        [$"--host={Server.Host}", $"--port={Server.Port}", $"--username={Server.Username ?? Environment.UserName}", $"--dbname={Server.Database ?? Server.Username}", "--no-password"];
}
