using System.Diagnostics;
using System.IO.Compression;
using System.Security.Cryptography;
using CommonGround.Storage.Operations;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Operations;

/// <summary>One archive of everything that cannot be made again: a consistent copy of the database, photos, and a list with a checksum of
/// each.</summary>
/// <remarks>The keys in the database are secrets: only the owner may read the file.</remarks>
public static class BackupArchive
{
    private const string Unfinished = ".part", Workshop = ".work";

    /// <summary>Writes the archive under another name, reads it back, and only then gives it its own.</summary>
    /// <returns>How many files it holds.</returns>
    /// <exception cref="DataFolderException">It could not be written; the message says why. Nothing is left behind.</exception>
    public static async Task<int> WriteAsync(SiteOptions options, string path, TimeProvider time, CancellationToken cancel)
    {
        var started = Stopwatch.GetTimestamp();
        try
        {
            var count = await MakeAsync(options, path, time, cancel);
            Metrics.BackupSeconds.Record(Stopwatch.GetElapsedTime(started).TotalSeconds);
            return count;
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            Metrics.BackupFailures.Add(1);
            throw e is DatabaseCopyException ? new DataFolderException(e.Message, e) : e is IOException or UnauthorizedAccessException
                ? new DataFolderException($"The backup {path} could not be written: {e.Message}", e) : e;
        }
    }

    private static async Task<int> MakeAsync(SiteOptions options, string path, TimeProvider time, CancellationToken cancel)
    {
        var copy = DatabaseCopy.Of(options.Storage);
        if (await copy.IsEmptyAsync(cancel))
        {
            throw new DataFolderException($"There is no database in {options.DataFolder}: nothing to back up.");
        }

        // Beside the archive, where there is room for it; the system's folder for passing files may lie in memory.
        var work = MakeWorkshop(path);
        var partial = path + Unfinished;
        try
        {
            var database = Path.Combine(work, copy.FileName);
            var contents = new BackupContents(ProgramVersion.Text, await copy.SchemaAsync(cancel), time.GetUtcNow(), copy.Product,
                new(StringComparer.Ordinal));
            await copy.WriteAsync(database, cancel);
            await WriteZipAsync(partial, contents, Photos(options.PhotoFolder).Prepend((copy.FileName, database)), cancel);
            File.Delete(database);
            await ProveAsync(partial, copy, database, cancel);
            File.Move(partial, path, overwrite: true);
            return contents.Files.Count;
        }
        finally
        {
            File.Delete(partial);
            Directory.Delete(work, recursive: true);
        }
    }

    /// <summary>Reads an archive back: every checksum, and the database as one that can be opened.</summary>
    private static async Task ProveAsync(string path, DatabaseCopy copy, string database, CancellationToken cancel)
    {
        await using var stream = File.OpenRead(path);
        await using var zip = new ZipArchive(stream, ZipArchiveMode.Read);
        var contents = await BackupContents.ReadAsync(zip, path, cancel);
        await contents.VerifyAsync(zip, path, cancel);
        await ExtractAsync(zip.GetEntry(copy.FileName)!, database, cancel);
        if (await copy.FaultsOfAsync(database, cancel) is [var fault, ..])
        {
            throw new DataFolderException($"The copy of the database is not sound ({fault}), so the backup was not kept. Run the check "
                + $"command.");
        }
    }

    private static IEnumerable<(string Name, string File)> Photos(string folder) => Directory.Exists(folder)
        ? Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Where(f => !f.EndsWith(Unfinished, StringComparison.Ordinal))
            .Select(f => (SiteOptions.PhotosPrefix + Path.GetRelativePath(folder, f).Replace('\\', '/'), f))
        : [];

    private static async Task WriteZipAsync(string path, BackupContents contents, IEnumerable<(string Name, string File)> files,
        CancellationToken cancel)
    {
        await using var stream = Create(path);
        await using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, file) in files)
            {
                // One reading for both, so that the checksum is of what was stored. Pictures are packed already.
                await using var from = File.OpenRead(file);
                await using var to = await zip.CreateEntry(name, name.StartsWith(SiteOptions.PhotosPrefix, StringComparison.Ordinal)
                    ? CompressionLevel.NoCompression : CompressionLevel.Optimal).OpenAsync(cancel);
                using var hash = SHA256.Create();
                await using var both = new CryptoStream(to, hash, CryptoStreamMode.Write);
                await from.CopyToAsync(both, cancel);
                await both.FlushFinalBlockAsync(cancel);
                contents.Files[name] = Convert.ToHexString(hash.Hash!);
            }

            await contents.WriteAsync(zip, cancel);
        }

        stream.Flush(flushToDisk: true);
    }

    private static string MakeWorkshop(string path)
    {
        var work = path + Workshop;
        if (Directory.Exists(work))
        {
            Directory.Delete(work, recursive: true);
        }

        return OperatingSystem.IsWindows() ? Directory.CreateDirectory(work).FullName
            : Directory.CreateDirectory(work, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute).FullName;
    }

    internal static async Task ExtractAsync(ZipArchiveEntry entry, string to, CancellationToken cancel)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(to)!);
        await using var from = await entry.OpenAsync(cancel);
        await using var file = Create(to);
        await from.CopyToAsync(file, cancel);
        file.Flush(flushToDisk: true);
    }

    /// <summary>A file that only its owner may read.</summary>
    private static FileStream Create(string path)
    {
        var how = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write, Options = FileOptions.Asynchronous };
        if (!OperatingSystem.IsWindows())
        {
            how.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        return new FileStream(path, how);
    }
}
