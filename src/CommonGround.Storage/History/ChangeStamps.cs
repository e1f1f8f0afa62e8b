using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.History;

/// <summary>Reads and moves the numbers by which every process sees that something changed.</summary>
public static class ChangeStamps
{
    /// <summary>Number of the neighbourhood's newest change; 0 before the first.</summary>
    public static async Task<long> ReadAsync(NeighbourhoodDatabase database, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(database);
        await using var db = await database.CreateDbContextAsync(cancel);
        return await ReadAsync(db, cancel);
    }

    /// <summary>The same from a context that is reading already.</summary>
    public static Task<long> ReadAsync(CommonGroundDb db, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(db);
        return db.ChangeStamps.Select(s => s.LastChange).FirstOrDefaultAsync(cancel);
    }

    /// <summary>Number of the newest change to the list of neighbourhoods.</summary>
    public static async Task<long> ReadNeighbourhoodsAsync(IDbContextFactory<CommonGroundDb> database, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(database);
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.SiteCounters.Where(c => c.Name == SiteCounter.Neighbourhoods).Select(c => c.Value).FirstOrDefaultAsync(cancel);
    }

    /// <summary>The number of a program that starts on this database: no other start ever gets it.</summary>
    public static async Task<long> NextProgramAsync(CommonGroundDb db, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(db);
        return await CountAsync(db, SiteCounter.Programs, cancel);
    }

    /// <summary>Moves a neighbourhood's stamp and locks it until the transaction ends.</summary>
    internal static async Task<long> MoveAsync(CommonGroundDb db, int neighbourhoodId, CancellationToken cancel) =>
        (await db.Database.SqlQuery<long>(
        $"""
        INSERT INTO "ChangeStamps" ("NeighbourhoodId", "LastChange") VALUES ({neighbourhoodId}, 1)
        ON CONFLICT ("NeighbourhoodId") DO UPDATE SET "LastChange" = "ChangeStamps"."LastChange" + 1 RETURNING "LastChange" AS "Value"
        """).ToListAsync(cancel))[0];

    internal static async Task<long> CountAsync(CommonGroundDb db, string counter, CancellationToken cancel) =>
        (await db.Database.SqlQuery<long>(
        $"""
        INSERT INTO "SiteCounters" ("Name", "Value") VALUES ({counter}, 1)
        ON CONFLICT ("Name") DO UPDATE SET "Value" = "SiteCounters"."Value" + 1 RETURNING "Value"
        """).ToListAsync(cancel))[0];
}
