using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Operations;

/// <summary>Backs the site up by itself while it runs. A failure is logged and tried again; it never stops the site.</summary>
public sealed class BackupSchedule(SiteOptions options, TimeProvider time, ILogger<BackupSchedule> log) : BackgroundService
{
    /// <summary>A failed backup is tried again after this, or sooner where backups are made more often.</summary>
    private static readonly TimeSpan Again = TimeSpan.FromHours(1);
    private DateTimeOffset? tried;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        if (options.Backup.Every is null)
        {
            log.LogWarning("Backup:Every is 0: the site makes no backups by itself");
            return;
        }

        // The first minute belongs to the visitors.
        using var minute = new PeriodicTimer(TimeSpan.FromMinutes(1), time);
        try
        {
            while (await minute.WaitForNextTickAsync(stoppingToken))
            {
                await TurnAsync(stoppingToken);
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The site stops; what was half written has been removed.
        }
    }

    /// <summary>Makes a backup if one is due.</summary>
    /// <returns>Whether one was made.</returns>
    public async Task<bool> TurnAsync(CancellationToken cancel)
    {
        var now = time.GetUtcNow();
        try
        {
            if (!IsDue(now, BackupFolder.Newest(options.Backup.Folder)))
            {
                return false;
            }

            // Where several processes serve one database, one of them makes the backups.
            await using var duty = await Storage.StorageRegistration.TryTakeDutyAsync(options.Storage, "backups", cancel);
            if (duty is null || !IsDue(now, BackupFolder.Newest(options.Backup.Folder)))
            {
                return false;
            }

            tried = now;
            return await MakeAsync(now, cancel);
        }
        catch (Exception e) when (e is DataFolderException or IOException or UnauthorizedAccessException or System.Data.Common.DbException)
        {
            log.LogError(e, "The backup failed; the site goes on without it and tries again");
            return false;
        }
    }

    private bool IsDue(DateTimeOffset now, DateTimeOffset? last) => options.Backup.Every is { } every
        && (last is null || now - last >= every)
        && (tried is null || now - tried >= (every < Again ? every : Again));

    private async Task<bool> MakeAsync(DateTimeOffset now, CancellationToken cancel)
    {
        Directory.CreateDirectory(options.Backup.Folder);
        var path = Path.Combine(options.Backup.Folder, BackupFolder.NameOf(now));
        var count = await BackupArchive.WriteAsync(options, path, time, cancel);
        log.LogInformation("Backup {Archive} made and read back: {Files} files, {Bytes} bytes", Path.GetFileName(path), count,
            new FileInfo(path).Length);
        // Old ones go only now, with a good new one there.
        foreach (var old in options.Backup.Keep.Removable(BackupFolder.Moments(options.Backup.Folder)))
        {
            File.Delete(Path.Combine(options.Backup.Folder, BackupFolder.NameOf(old)));
            log.LogInformation("Backup {Archive} removed: newer ones stand for it", BackupFolder.NameOf(old));
        }

        return true;
    }
}
