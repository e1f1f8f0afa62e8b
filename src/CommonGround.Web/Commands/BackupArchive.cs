using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.Data.Sqlite;

namespace CommonGround.Web.Commands;

/// <summary>One archive of everything in the data folder but the logs: a consistent copy of the database, photos, keys, and a list with a checksum of each.</summary>
internal static class BackupArchive
{
    private static readonly string[] KeptFolders = ["keys", "photos"];
    private const string ListName = "contents.json", DatabaseName = "commonground.db";

    public static async Task<int> WriteAsync(SiteOptions options, string path, CancellationToken cancel)
    {
        var source = DatabaseFile(options);
        if (!File.Exists(source))
        {
            throw new DataFolderException($"There is no database in {options.DataFolder}: nothing to back up.");
        }

        var folder = Directory.CreateTempSubdirectory("commonground-backup-");
        var partial = path + ".part";
        try
        {
            var copy = Path.Combine(folder.FullName, DatabaseName);
            await using (var from = new SqliteConnection($"Data Source={source};Pooling=False"))
            await using (var to = new SqliteConnection($"Data Source={copy};Pooling=False"))
            {
                await from.OpenAsync(cancel);
                await to.OpenAsync(cancel);
                from.BackupDatabase(to);
            }

            var files = new Dictionary<string, string>(StringComparer.Ordinal) { [DatabaseName] = copy };
            foreach (var kept in KeptFolders.Select(d => Path.Combine(options.DataFolder, d)).Where(Directory.Exists))
            {
                foreach (var file in Directory.EnumerateFiles(kept, "*", SearchOption.AllDirectories))
                {
                    files[Path.GetRelativePath(options.DataFolder, file).Replace('\\', '/')] = file;
                }
            }

            await WriteZipAsync(partial, files, cancel);
            File.Move(partial, path, overwrite: true);
            return files.Count;
        }
        finally
        {
            File.Delete(partial);
            folder.Delete(recursive: true);
        }
    }

    public static async Task<int> RestoreAsync(SiteOptions options, string path, CancellationToken cancel)
    {
        var target = DatabaseFile(options);
        if (File.Exists(target))
        {
            throw new DataFolderException($"{options.DataFolder} already holds a database. Restore into an empty folder, so that nothing is overwritten.");
        }

        await using var stream = File.OpenRead(path);
        using var zip = OpenZip(stream, path);
        try
        {
            var sums = await ListAsync(zip, path, cancel);
            var root = Path.GetFullPath(options.DataFolder) + Path.DirectorySeparatorChar;
            if (sums.Keys.FirstOrDefault(name => !Path.GetFullPath(Path.Combine(options.DataFolder, name)).StartsWith(root, StringComparison.Ordinal)) is { } outside)
            {
                throw new DataFolderException($"{path} names a file outside the data folder ({outside}). Nothing was restored.");
            }

            await VerifyAsync(zip, sums, path, cancel);
            // The database last: as long as it is missing the folder counts as empty and a restore can be run again.
            foreach (var name in sums.Keys.OrderBy(n => n == DatabaseName))
            {
                await ExtractAsync(zip.GetEntry(name)!, Path.Combine(options.DataFolder, name), cancel);
            }

            return sums.Count;
        }
        catch (InvalidDataException e)
        {
            throw new DataFolderException($"{path} is damaged: it cannot be unpacked. Nothing was restored.", e);
        }
    }

    private static async Task<Dictionary<string, string>> ListAsync(ZipArchive zip, string path, CancellationToken cancel)
    {
        var list = zip.GetEntry(ListName) ?? throw new DataFolderException($"{path} is not a backup of this program: it has no {ListName}.");
        await using var stream = await list.OpenAsync(cancel);
        try
        {
            var sums = await JsonSerializer.DeserializeAsync<Dictionary<string, string>>(stream, cancellationToken: cancel);
            return sums?.ContainsKey(DatabaseName) == true ? sums : throw new DataFolderException($"{path} is not a backup of this program: it holds no database.");
        }
        catch (JsonException e)
        {
            throw new DataFolderException($"{path} is not a backup of this program: its {ListName} cannot be read.", e);
        }
    }

    private static async Task ExtractAsync(ZipArchiveEntry entry, string to, CancellationToken cancel)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(to)!);
        await using (var from = await entry.OpenAsync(cancel))
        await using (var file = File.Create(to + ".part"))
        {
            await from.CopyToAsync(file, cancel);
        }

        File.Move(to + ".part", to, overwrite: true);
    }

    private static string DatabaseFile(SiteOptions options) => options.Storage.Provider == "sqlite"
        ? Path.Combine(options.DataFolder, DatabaseName)
        : throw new DataFolderException("This database is PostgreSQL: back it up and restore it with pg_dump and pg_restore, and copy the data folder beside it.");

    private static ZipArchive OpenZip(Stream stream, string path)
    {
        try
        {
            return new ZipArchive(stream, ZipArchiveMode.Read);
        }
        catch (InvalidDataException e)
        {
            throw new DataFolderException($"{path} is damaged or is not a backup archive.", e);
        }
    }

    private static async Task VerifyAsync(ZipArchive zip, Dictionary<string, string> sums, string path, CancellationToken cancel)
    {
        foreach (var (name, sum) in sums)
        {
            var entry = zip.GetEntry(name) ?? throw new DataFolderException($"{path} is incomplete: {name} is missing. Nothing was restored.");
            await using var stream = await entry.OpenAsync(cancel);
            if (Convert.ToHexString(await SHA256.HashDataAsync(stream, cancel)) != sum)
            {
                throw new DataFolderException($"{path} is damaged: the checksum of {name} does not agree. Nothing was restored.");
            }
        }
    }

    private static async Task WriteZipAsync(string path, Dictionary<string, string> files, CancellationToken cancel)
    {
        await using var stream = File.Create(path);
        using var zip = new ZipArchive(stream, ZipArchiveMode.Create);
        var sums = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var (name, file) in files)
        {
            await using var from = File.OpenRead(file);
            sums[name] = Convert.ToHexString(await SHA256.HashDataAsync(from, cancel));
            from.Position = 0;
            await using var to = await zip.CreateEntry(name).OpenAsync(cancel);
            await from.CopyToAsync(to, cancel);
        }

        await using var list = await zip.CreateEntry(ListName).OpenAsync(cancel);
        await JsonSerializer.SerializeAsync(list, sums, cancellationToken: cancel);
    }
}
