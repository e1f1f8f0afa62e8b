using CommonGround.Web.Hosting;
using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Web.Features.History;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>Makes deletion real when its thirty days are over: history forgets what the rows held, photo files and accounts go.</summary>
public sealed partial class RetentionJob(IDbContextFactory<CommonGroundDb> database, Photos.PhotoFolder folder,
    Hosting.SiteOptions options, TimeProvider time, ILogger<RetentionJob> log) : BackgroundService
{
    /// <summary>As long as a note may wait on a phone.</summary>
    private const int DaysOfNotes = 400;

    /// <summary>Erases what is due; how many changes were.</summary>
    public async Task<int> RunAsync(CancellationToken cancel = default)
    {
        await using var duty = await StorageRegistration.TryTakeDutyAsync(options.Storage, "erasing", cancel);
        if (duty is null)
        {
            return 0; // Another process of the site is at it.
        }

        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await database.CreateDbContextAsync(cancel);
        var due = await db.Changes.AcrossNeighbourhoods().AsNoTracking().Where(c => c.EraseAtUtc <= now).ToListAsync(cancel);
        foreach (var change in due)
        {
            List<string> files = [];
            await WriteAsync(
                async there =>
                {
                    there.In(change.NeighbourhoodId);
                    files = await there.Changes.AnyAsync(c => c.UndoOfId == change.Id, cancel)
                        ? [] // Taken back in time: there is nothing to erase.
                        : await EraseAsync(there, change.Id, cancel);
                    await there.Changes.Where(c => c.Id == change.Id)
                        .ExecuteUpdateAsync(set => set.SetProperty(c => c.EraseAtUtc, (DateTime?)null), cancel);
                }, cancel);
            files.ForEach(folder.Delete);
        }

        await SweepPhotosAsync(db, now.AddDays(-UndoChange.Days), cancel);
        await EmptyNotesAsync(now, cancel);
        var asked = now.AddDays(-AccountDeletion.Days);
        await WriteAsync(there => there.Users.Where(a => a.DeletionAskedAtUtc <= asked).ExecuteDeleteAsync(cancel), cancel);
        return due.Count;
    }

    private async Task WriteAsync(Func<CommonGroundDb, Task> fill, CancellationToken cancel)
    {
        if (await database.WriteUnnotedAsync(fill, cancel) is { IsStored: false } refused)
        {
            throw new NotStoredException(refused.Problems[0]);
        }
    }

    /// <summary>What was received of walks is emptied once nobody can bring anything for the same day, or the yard is gone for good; that
    /// it was received stays.</summary>
    private Task EmptyNotesAsync(DateTime now, CancellationToken cancel)
    {
        var (old, gone) = (now.AddDays(-DaysOfNotes), now.AddDays(-AccountDeletion.Days));
        return WriteAsync(there => there.ReceivedNotes.AcrossNeighbourhoods().Where(n => n.Said != "" && (n.ReceivedAtUtc < old
                || (n.ReceivedAtUtc < gone && !there.Yards.AcrossNeighbourhoods()
                    .Any(y => y.NeighbourhoodId == n.NeighbourhoodId && y.Id == n.YardId))))
            .ExecuteUpdateAsync(set => set.SetProperty(n => n.Said, "").SetProperty(n => n.Left, "")
                .SetProperty(n => n.MemberId, (long?)null), cancel), cancel);
    }

    /// <summary>Files of photos that went in another way, by an undo for example, once nothing can bring them back.</summary>
    private async Task SweepPhotosAsync(CommonGroundDb db, DateTime before, CancellationToken cancel)
    {
        var gone = await db.ChangedRows.AcrossNeighbourhoods().AsNoTracking().Where(r => r.Kind == RowKinds.Photo
            && r.RowAction == Storage.History.RowAction.Removed && r.Before != null
            && db.Changes.Any(c => c.NeighbourhoodId == r.NeighbourhoodId && c.Id == r.ChangeId && c.AtUtc < before)).ToListAsync(cancel);
        foreach (var row in gone.Where(r => FileOf(r.Before!) is not null))
        {
            var name = FileOf(row.Before!)!;
            if (await db.Photos.AcrossNeighbourhoods().AnyAsync(p => p.FileName == name, cancel)
                || (await HeldAsync(db, before, cancel)).Contains(name))
            {
                continue; // Brought back since, or taken out again later.
            }

            await WriteAsync(there => there.In(row.NeighbourhoodId).ChangedRows.Where(r => r.ChangeId == row.ChangeId
                && r.Ordinal == row.Ordinal).ExecuteUpdateAsync(set => set.SetProperty(r => r.Before, (string?)null), cancel), cancel);
            folder.Delete(name);
        }
    }

    private static async Task<HashSet<string>> HeldAsync(CommonGroundDb db, DateTime before, CancellationToken cancel) =>
        [.. (await db.ChangedRows.AcrossNeighbourhoods().AsNoTracking().Where(r => r.Kind == RowKinds.Photo && r.Before != null
            && db.Changes.Any(c => c.NeighbourhoodId == r.NeighbourhoodId && c.Id == r.ChangeId && c.AtUtc >= before))
            .Select(r => r.Before!).ToListAsync(cancel)).Select(FileOf).OfType<string>()];

    private static string? FileOf(string columns)
    {
        using var document = System.Text.Json.JsonDocument.Parse(columns);
        return document.RootElement.TryGetProperty(RowKinds.FileName, out var name) ? name.GetString() : null;
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromHours(6), time);
        do
        {
            try
            {
                await RunAsync(stoppingToken);
            }
            catch (Exception e) when (e is NotStoredException or System.Data.Common.DbException
                or InvalidOperationException { InnerException: System.Data.Common.DbException } or IOException)
            {
                // A full disk or a database that is away: it is tried again in six hours, nothing is lost by waiting.
                NotErased(e);
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }

    /// <summary>Empties history of the yards, the notes and the member that a change took out; names of photo files to delete.</summary>
    private static async Task<List<string>> EraseAsync(CommonGroundDb db, long changeId, CancellationToken cancel)
    {
        var rows = await db.ChangedRows.AsNoTracking().Where(r => r.ChangeId == changeId).ToListAsync(cancel);
        var removed = rows.Where(r => r.Kind == RowKinds.Yard && r.RowAction == Storage.History.RowAction.Removed).Select(r => r.YardId)
            .ToList();
        var members = rows.Where(r => r.Kind == RowKinds.Member).Select(r => r.RowKey).ToList();
        // What a note said when it was written stands in the change of that day.
        var notes = rows.Where(r => r.Kind == RowKinds.PlantNote && r.RowAction == Storage.History.RowAction.Removed).Select(r => r.RowKey)
            .ToList();
        var photos = await db.ChangedRows.Where(r => r.Kind == RowKinds.Photo && (r.ChangeId == changeId || removed.Contains(r.YardId))
            && r.Before != null).Select(r => r.Before!).ToListAsync(cancel);
        await db.ChangedRows.Where(r => (r.ChangeId == changeId || removed.Contains(r.YardId)
            || (r.Kind == RowKinds.Member && members.Contains(r.RowKey)) || (r.Kind == RowKinds.PlantNote && notes.Contains(r.RowKey))))
            .ExecuteUpdateAsync(set => set.SetProperty(r => r.Before, (string?)null).SetProperty(r => r.After, (string?)null)
            .SetProperty(r => r.Hash, ""), cancel);
        return [.. photos.Select(FileOf).OfType<string>()];
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "What is due to be erased could not be; it is tried again in six hours")]
    private partial void NotErased(Exception e);
}
