using System.IO.Compression;
using System.Security.Cryptography;
using CommonGround.Storage;
using CommonGround.Storage.Operations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Operations;

/// <summary>Brings a backup back into a data folder and database that hold nothing yet.</summary>
public static class RestoreArchive
{
    /// <summary>Nothing is written before the whole archive has been read and found sound; the database comes last, so a restore that was
    /// cut short can be run again.</summary>
    /// <returns>How many files were restored.</returns>
    /// <exception cref="DataFolderException">The archive or the target is not fit; the message says why.</exception>
    public static async Task<int> ReadAsync(SiteOptions options, string path, CancellationToken cancel)
    {
        var copy = DatabaseCopy.Of(options.Storage);
        if (!await copy.IsEmptyAsync(cancel))
        {
            throw new DataFolderException($"{(copy.Product == "SQLite" ? options.DataFolder : "The PostgreSQL database")} already holds a "
                + $"database. Restore into an empty one, so that nothing is overwritten.");
        }

        await using var stream = File.OpenRead(path);
        try
        {
            await using var zip = new ZipArchive(stream, ZipArchiveMode.Read);
            var contents = await BackupContents.ReadAsync(zip, path, cancel);
            RefuseOutside(contents, options, path);
            await contents.VerifyAsync(zip, path, cancel);
            RefuseStrange(contents, copy, path);
            await RefuseOverwriteAsync(contents, options, cancel);
            foreach (var name in contents.Files.Keys.Where(n => n != copy.FileName))
            {
                await PlaceAsync(zip.GetEntry(name)!, options.PlaceOf(name), cancel);
            }

            await RestoreDatabaseAsync(zip.GetEntry(copy.FileName)!, copy, contents, options, path, cancel);
            return contents.Files.Count;
        }
        catch (InvalidDataException e)
        {
            throw new DataFolderException($"{path} is damaged or is not a backup archive. Nothing was restored.", e);
        }
        catch (DatabaseCopyException e)
        {
            throw new DataFolderException($"The database could not be brought back. {e.Message}", e);
        }
    }

    private static void RefuseOutside(BackupContents contents, SiteOptions options, string path)
    {
        bool Below(string file, string folder) => file.StartsWith(Path.GetFullPath(folder) + Path.DirectorySeparatorChar,
            StringComparison.Ordinal);
        bool Inside(string name) => Below(options.PlaceOf(name), name.StartsWith(SiteOptions.PhotosPrefix, StringComparison.Ordinal)
            ? options.PhotoFolder : options.DataFolder);
        if (contents.Files.Keys.FirstOrDefault(name => !Inside(name)) is { } outside)
        {
            throw new DataFolderException($"{path} names a file outside the data folder ({outside}). Nothing was restored.");
        }
    }

    private static void RefuseStrange(BackupContents contents, DatabaseCopy copy, string path)
    {
        if (!contents.Files.ContainsKey(copy.FileName))
        {
            throw new DataFolderException($"{path} holds a {contents.Database} database, but Database:Provider says {copy.Product}. "
                + $"Restore it with the provider it was made with. Nothing was restored.");
        }

        if (contents.Schema is { } schema && !copy.Knows(schema))
        {
            throw new DataFolderException($"{path} was made by a newer version of the program ({contents.Program}; its database has the "
                + $"change '{schema}'). Restore it with that version or a newer one. Nothing was restored.");
        }
    }

    /// <summary>A file that is there already stays only where it is the same one: left by a restore that was cut short.</summary>
    private static async Task RefuseOverwriteAsync(BackupContents contents, SiteOptions options, CancellationToken cancel)
    {
        foreach (var (name, sum) in contents.Files)
        {
            var there = options.PlaceOf(name);
            if (File.Exists(there))
            {
                await using var stream = File.OpenRead(there);
                if (Convert.ToHexString(await SHA256.HashDataAsync(stream, cancel)) != sum)
                {
                    throw new DataFolderException($"{options.DataFolder} already holds another {name}. Restore into an empty folder, so "
                        + $"that nothing is overwritten. Nothing was restored.");
                }
            }
        }
    }

    private static async Task RestoreDatabaseAsync(ZipArchiveEntry entry, DatabaseCopy copy, BackupContents contents, SiteOptions options,
        string path, CancellationToken cancel)
    {
        var waiting = Path.Combine(options.DataFolder, entry.Name + ".part");
        try
        {
            await BackupArchive.ExtractAsync(entry, waiting, cancel);
            if (contents.Schema is null && await DatabaseCopy.Of(StorageLocation.SqliteFile(waiting)).SchemaAsync(cancel) is { } schema
                && !copy.Knows(schema))
            {
                throw new DataFolderException($"{path} was made by a newer version of the program (its database has the change "
                    + $"'{schema}'). Restore it with that version or a newer one.");
            }

            await copy.RestoreAsync(waiting, cancel);
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            foreach (var left in new[] { "", "-wal", "-shm" })
            {
                File.Delete(waiting + left);
            }
        }
    }

    private static async Task PlaceAsync(ZipArchiveEntry entry, string to, CancellationToken cancel)
    {
        await BackupArchive.ExtractAsync(entry, to + ".part", cancel);
        File.Move(to + ".part", to, overwrite: true);
    }
}
