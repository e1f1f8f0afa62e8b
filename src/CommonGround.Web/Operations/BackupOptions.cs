using System.Globalization;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Operations;

/// <summary>When the site backs itself up, where to, and what it keeps.</summary>
/// <param name="Every">Time between two backups; null: the site makes none by itself.</param>
/// <param name="Folder">Where the archives go.</param>
/// <param name="Keep">Which old ones stay.</param>
/// <param name="UpgradeBackup">A backup is written before the schema of a database with data changes.</param>
public sealed record BackupOptions(TimeSpan? Every, string Folder, BackupRetention Keep, bool UpgradeBackup)
{
    public static BackupOptions Default(string dataFolder) => new(TimeSpan.FromHours(24), Path.Combine(dataFolder, "backups"),
        BackupRetention.Default, true);

    public static BackupOptions From(IConfiguration configuration, string dataFolder)
    {
        var usual = Default(dataFolder);
        var every = usual.Every;
        if (configuration["Backup:Every"] is { Length: > 0 } written)
        {
            if (!double.TryParse(written, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var hours) || hours > 8760)
            {
                throw new DataFolderException($"Backup:Every '{written}' is not known: give hours, such as 24, up to 8760; 0 turns it "
                    + $"off.");
            }

            every = hours == 0 ? null : TimeSpan.FromHours(hours);
        }

        var folder = configuration["Backup:Folder"] is { Length: > 0 } named ? Path.GetFullPath(named) : usual.Folder;
        if (Path.GetRelativePath(dataFolder, folder).Split(Path.DirectorySeparatorChar)[0] is "." or "photos" or "logs")
        {
            throw new DataFolderException($"Backup:Folder '{folder}' lies among what is backed up: name a folder of its own, best on "
                + $"another disk.");
        }

        return new(every, folder, BackupRetention.Parse(configuration["Backup:Keep"]),
            configuration["Backup:UpgradeBackup"] is not "false");
    }
}
