using CommonGround.Storage.Operations;
using Microsoft.Data.Sqlite;

namespace CommonGround.Web.Hosting;

/// <summary>What stands in the way of a start, each in one sentence for the person at the terminal: what was found, where, and the way
/// back.</summary>
internal static class StartingFaults
{
    /// <summary>A database that was emptied must not be taken for a new one.</summary>
    /// <exception cref="DataFolderException">It was.</exception>
    public static void CheckBefore(SiteOptions options)
    {
        if (options.Storage.Provider != "sqlite")
        {
            return;
        }

        var file = new FileInfo(FileOf(options));
        if (file is { Exists: true, Length: 0 } && !(new FileInfo(file.FullName + "-wal") is { Exists: true, Length: > 0 }))
        {
            throw new DataFolderException($"The database {file.FullName} has zero bytes: something emptied it, or a first start was cut "
                + $"short. {WayBack(options)} If nothing was ever recorded here, delete that file and start again.");
        }

        if (!file.Exists && Remains(options) is { } remains)
        {
            throw remains;
        }
    }

    /// <summary>The demo, in which everybody is an organiser, never opens where a group's files lie without their record.</summary>
    /// <returns>What to say of such files; null where there are none, or no demo is to be opened.</returns>
    public static DataFolderException? Remains(SiteOptions options)
    {
        if (!options.Demo)
        {
            return null;
        }

        (string What, string Folder)[] kinds =
        [
            ("photos", options.PhotoFolder), ("backups", options.Backup.Folder), ("backups", Path.Combine(options.DataFolder, "backups")),
            ("letters", Path.Combine(options.DataFolder, "outbox")), ("keys", Path.Combine(options.DataFolder, "keys")),
        ];
        var found = kinds.DistinctBy(k => k.Folder).Select(k => (k.What, k.Folder, Number: Directory.Exists(k.Folder)
            ? Directory.EnumerateFiles(k.Folder, "*", SearchOption.AllDirectories).Count() : 0))
            .Where(k => k.Number > 0).Select(k => $"{k.What} ({k.Number} in {k.Folder})").ToList();
        return found.Count == 0 ? null
            : new DataFolderException($"The data folder {options.DataFolder} has no record, but {string.Join(" and ", found)}: a group "
            + $"was kept here, so the demo is not opened over it. {WayBack(options)} For a new group, start with no-demo and an empty "
            + $"folder.");
    }

    /// <summary>Whether a failure has its reason outside of the program.</summary>
    public static bool Knows(Exception failure) => failure is not DataFolderException && StorageFailure.Of(failure) is not null;

    /// <summary>A database that cannot be opened, in words.</summary>
    public static DataFolderException InWords(Exception failure, SiteOptions options)
    {
        var where = options.Storage.Provider == "sqlite" ? FileOf(options) : "that Database:Connection names";
        return new DataFolderException(StorageFailure.Of(failure)?.Kind switch
        {
            StorageFailureKind.Damaged => $"The database {where} is damaged or is no database. {WayBack(options)} Keep the damaged file "
                + $"until all is well.",
            StorageFailureKind.ReadOnly => $"The database {where} may only be read. Give the user that runs the program the right to "
                + $"write to it and to its folder, then start again.",
            StorageFailureKind.Full => $"The disk that holds the database {where} is full. Make room, then start again; nothing is lost.",
            StorageFailureKind.Busy => $"The database {where} is held by another program. End that one, or wait for it, then start again.",
            _ => options.Storage.Provider == "sqlite"
                ? $"The database {where} cannot be opened. Check that the folder is there and that the user that runs the program may "
                + $"write to it."
                : $"The database {where} does not answer. Start it or correct Database:Connection, then start again.",
        }, failure);
    }

    private static string FileOf(SiteOptions options) =>
        Path.GetFullPath(new SqliteConnectionStringBuilder(options.Storage.ConnectionString).DataSource);

    private static string WayBack(SiteOptions options)
    {
        var newest = Directory.Exists(options.Backup.Folder)
            ? Directory.EnumerateFiles(options.Backup.Folder, "*.zip").MaxBy(File.GetLastWriteTimeUtc) : null;
        return $"To bring the record back, run 'restore {newest ?? "ARCHIVE"} --data NEWFOLDER' and start the site with data=NEWFOLDER.";
    }
}
