using System.Data;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Saving;

/// <summary>How long a write waits for the writes of others before it is refused.</summary>
public static class StoragePatience
{
    public const int Seconds = 5;

    /// <summary>An upgrade of the tables may take minutes: whoever starts beside it waits. Ends with the open connection.</summary>
    public static async Task UnboundedAsync(CommonGroundDb db, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(db);
        // A database that is only about to be made has no open connection yet, and nobody else's lock.
        if (db.Database.IsNpgsql() && db.Database.GetDbConnection().State == ConnectionState.Open)
        {
            await db.Database.ExecuteSqlRawAsync("SET lock_timeout = 0", cancel);
        }
    }
}
