using CommonGround.Storage.History;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Saving;

/// <summary>
/// The one door through which everything is written. A write looks the record over, checks, and puts into the context what is to be stored;
/// the door stores it whole or not at all and answers in words. Whoever was overtaken looks again, so that what is said is true: the second
/// look finds what the other has stored.
/// </summary>
public static class Door
{
    /// <summary>Looks at the record before somebody who keeps being overtaken is told so.</summary>
    private const int Looks = 3;

    /// <summary>One write: everything that <paramref name="prepare"/> put into the context, under one note.</summary>
    /// <param name="prepare">Looks, checks and fills the context. Asked again with a fresh one when somebody was faster, so it alters
    /// nothing outside it.</param>
    /// <param name="overtaken">What is said when somebody is faster each time; by default that somebody else saved at the same
    /// place.</param>
    public static async Task<Saved> WriteAsync(this IDbContextFactory<CommonGroundDb> database, Func<CommonGroundDb, Task<Intent>> prepare,
        Problem? overtaken, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(database);
        ArgumentNullException.ThrowIfNull(prepare);
        return await LookAsync(
            async () =>
            {
                await using var db = await database.CreateDbContextAsync(cancel);
                var intent = await prepare(db);
                return intent.Problems.Count > 0 ? new Saved(null, intent.Problems)
                    : new Saved(intent.Note is null ? 0 : await db.SaveAsync(intent.Note, cancel), []);
            }, overtaken);
    }

    /// <summary>One write: everything that <paramref name="prepare"/> put into the context, under one note.</summary>
    public static Task<Saved> WriteAsync(this IDbContextFactory<CommonGroundDb> database, Func<CommonGroundDb, Task<Intent>> prepare,
        CancellationToken cancel = default) => WriteAsync(database, prepare, null, cancel);

    /// <summary>
    /// One write of very many rows. All looking and checking is done before the lock; under it, only whether that still holds is asked and
    /// the rows are stored, new sightings in bulk.
    /// </summary>
    /// <param name="prepare">Looks, checks and fills the context; it holds no lock meanwhile, so others go on saving.</param>
    /// <param name="holds">Asked under the lock, with the same context: whether what was looked at still holds. If not, it is looked at
    /// again.</param>
    public static Task<Saved> WriteInBulkAsync(this IDbContextFactory<CommonGroundDb> database, Func<CommonGroundDb, Task<Intent>> prepare,
        Func<CommonGroundDb, Task<bool>> holds, Problem? overtaken, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(database);
        ArgumentNullException.ThrowIfNull(prepare);
        ArgumentNullException.ThrowIfNull(holds);
        return LookAsync(
            async () =>
            {
                await using var db = await database.CreateDbContextAsync(cancel);
                db.ChangeTracker.AutoDetectChangesEnabled = false;
                var intent = await prepare(db);
                return intent.Problems.Count > 0 ? new Saved(null, intent.Problems)
                    : new Saved(intent.Note is null ? 0 : await db.SaveInBulkAsync(intent.Note, () => holds(db), cancel), []);
            }, overtaken);
    }

    /// <summary>Several changes that hold together, each under a note of its own: all are stored or none.</summary>
    /// <param name="write">Fills the context and calls <c>save</c> for each change; any problem it answers takes everything back.</param>
    public static async Task<Saved> WriteTogetherAsync(this IDbContextFactory<CommonGroundDb> database,
        Func<CommonGroundDb, Func<ChangeNote, Task>, Task<IReadOnlyList<Problem>>> write, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(database);
        ArgumentNullException.ThrowIfNull(write);
        return await LookAsync(
            async () =>
            {
                await using var db = await database.CreateDbContextAsync(cancel);
                await using var transaction = await db.Database.BeginTransactionAsync(cancel);
                long last = 0;
                var problems = await write(db, async note => last = await db.SaveAsync(note, cancel));
                if (problems.Count == 0)
                {
                    await transaction.CommitAsync(cancel);
                }

                return new Saved(problems.Count == 0 ? last : null, problems);
            }, null);
    }

    /// <summary>Writes rows that have no history: sessions, what is worked out from the record, what is erased from history.</summary>
    public static Task<Saved> WriteUnnotedAsync(this IDbContextFactory<CommonGroundDb> database, Func<CommonGroundDb, Task> fill,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(database);
        ArgumentNullException.ThrowIfNull(fill);
        return LookAsync(
            async () =>
            {
                await using var db = await database.CreateDbContextAsync(cancel);
                await using var transaction = await db.Database.BeginTransactionAsync(cancel);
                await fill(db);
                await db.SaveChangesAsync(cancel);
                await transaction.CommitAsync(cancel);
                return new Saved(0, []);
            }, null);
    }

    /// <summary>Something that writes by another way, such as the framework's accounts: what the database refuses is said in the same
    /// words.</summary>
    public static async Task<IReadOnlyList<Problem>> TryAsync(Func<Task<IReadOnlyList<Problem>>> act)
    {
        ArgumentNullException.ThrowIfNull(act);
        try
        {
            return await act();
        }
        catch (Exception e) when (Refusal.Of(e) is { } refusal)
        {
            return [refusal.Problem];
        }
    }

    private static async Task<Saved> LookAsync(Func<Task<Saved>> write, Problem? overtaken)
    {
        for (var look = 1; ; look++)
        {
            try
            {
                return await write();
            }
            catch (Exception e) when (Refusal.Of(e) is { } refusal)
            {
                if (refusal.Kind != RefusalKind.Overtaken)
                {
                    return new Saved(null, [refusal.Problem], refusal.Kind == RefusalKind.StorageFailed);
                }

                if (look == Looks)
                {
                    return new Saved(null, [overtaken ?? refusal.Problem]);
                }
            }
        }
    }
}
