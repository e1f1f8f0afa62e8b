using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage;

/// <summary>Tells the query planner how the rows are spread. Without it SQLite reads a whole neighbourhood through an index, row by row,
/// ten times slower than the table.</summary>
public static class Statistics
{
    /// <summary>Renews what the planner knows, where rows have come or gone tenfold since. PostgreSQL does this by itself.</summary>
    /// <remarks>SQLite's own advice (sqlite.org/lang_analyze.html): optimise after the database is opened and after much has changed;
    /// 0x10002 looks at every table.</remarks>
    public static async Task RenewAsync(CommonGroundDb db, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(db);
        if (!db.Database.IsSqlite())
        {
            return;
        }

        await db.Database.ExecuteSqlRawAsync("PRAGMA optimize=0x10002", cancel);
        // Open connections keep what they knew; the next ones read it anew.
        SqliteConnection.ClearPool((SqliteConnection)db.Database.GetDbConnection());
    }
}
