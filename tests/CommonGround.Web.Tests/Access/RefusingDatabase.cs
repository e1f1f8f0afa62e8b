using System.Diagnostics;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace CommonGround.Web.Tests.Access;

/// <summary>A way in which a database refuses to be written, each with SQLite's own answer.</summary>
public enum Refuses { Locked, Full, ReadOnly }

/// <summary>Makes every connection of one database file refuse writes until disposed. It listens to what the data library tells of its
/// connections; the product knows nothing of it.</summary>
internal sealed class RefusingDatabase : IDisposable, IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>
{
    private readonly string file;
    private readonly Refuses how;
    private readonly SqliteConnection? holder;
    private readonly IDisposable all;
    private readonly List<IDisposable> heard = [];
    private volatile bool over;

    private RefusingDatabase(string file, Refuses how)
    {
        (this.file, this.how) = (Path.GetFullPath(file), how);
        if (how == Refuses.Locked)
        {
            holder = new SqliteConnection($"Data Source={file};Pooling=False");
            holder.Open();
            Run(holder, "BEGIN IMMEDIATE");
        }

        all = DiagnosticListener.AllListeners.Subscribe(this);
    }

    public static RefusingDatabase Begin(string file, Refuses how) => new(file, how);

    public void Dispose()
    {
        over = true;
        heard.ForEach(h => h.Dispose());
        all.Dispose();
        holder?.Dispose();
        // What was made to refuse is never handed on.
        SqliteConnection.ClearAllPools();
    }

    public void OnNext(DiagnosticListener value)
    {
        if (value.Name == "Microsoft.EntityFrameworkCore")
        {
            heard.Add(value.Subscribe(this, name => name == RelationalEventId.ConnectionOpened.Name));
        }
    }

    public void OnNext(KeyValuePair<string, object?> value)
    {
        if (over || value.Value is not ConnectionEndEventData { Connection: SqliteConnection connection }
            || Path.GetFullPath(connection.DataSource) != file)
        {
            return;
        }

        switch (how)
        {
            case Refuses.Locked:
                // As little patience as can be had: a second, so that twenty writes do not take two minutes.
                connection.DefaultTimeout = 1;
                Run(connection, "PRAGMA busy_timeout = 1");
                break;
            case Refuses.ReadOnly:
                // SQLITE_READONLY: https://www.sqlite.org/pragma.html#pragma_query_only
                Run(connection, "PRAGMA query_only = ON");
                break;
            default:
                // SQLITE_FULL, as soon as a row of any table that is written first is to be stored.
                connection.CreateFunction("no_room", () => (long)(ReferenceEquals(this, this)
                    ? throw new SqliteException("database or disk is full", 13) : 0));
                foreach (var table in new[] { "Changes", "Accounts", "Sessions", "PublishedYards" })
                {
                    Run(connection, $"CREATE TEMP TRIGGER IF NOT EXISTS \"full_{table}\" BEFORE INSERT ON main.\"{table}\" BEGIN SELECT "
                        + $"no_room(); END");
                    Run(connection, $"CREATE TEMP TRIGGER IF NOT EXISTS \"fuller_{table}\" BEFORE UPDATE ON main.\"{table}\" BEGIN SELECT "
                        + $"no_room(); END");
                }

                break;
        }
    }

    public void OnCompleted() { }

    public void OnError(Exception error) { }

    private static void Run(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
