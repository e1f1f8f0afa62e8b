using System.Globalization;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Operations;

/// <summary>A backup that is written before the schema of a database with data changes, so that there is always a way back.</summary>
public static class UpgradeBackup
{
    /// <param name="schema">The last change that the database has had.</param>
    /// <exception cref="DataFolderException">It could not be written; nothing was changed.</exception>
    public static async Task WriteAsync(SiteOptions options, string schema, TimeProvider time, CancellationToken cancel)
    {
        if (!options.Backup.UpgradeBackup)
        {
            return;
        }

        var moment = time.GetUtcNow().UtcDateTime.ToString("yyyy-MM-dd'T'HHmmss'Z'", CultureInfo.InvariantCulture);
        var path = Path.Combine(options.DataFolder, "backups", $"before-upgrade-{schema}-{moment}.zip");
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            await BackupArchive.WriteAsync(options, path, time, cancel);
        }
        catch (Exception e) when (e is DataFolderException or IOException or UnauthorizedAccessException)
        {
            throw new DataFolderException($"This version changes the database, and the backup that comes first failed. {e.Message} "
                + $"Nothing was changed. Correct that, or make a backup yourself and start once with Backup:UpgradeBackup=false.", e);
        }
    }
}
