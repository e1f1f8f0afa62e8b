using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Operations;

/// <summary>The list inside a backup: what made it, when, of what, and a checksum of each file.</summary>
/// <param name="Program">Version of the program.</param>
/// <param name="Schema">Last change of the schema that the database has had; null in backups of the first versions, which did not say
/// it.</param>
/// <param name="Moment">UTC.</param>
/// <param name="Database">SQLite or PostgreSQL.</param>
/// <param name="Files">Name within the archive → SHA-256, hexadecimal.</param>
public sealed record BackupContents(string Program, string? Schema, DateTimeOffset Moment, string Database,
    SortedDictionary<string, string> Files)
{
    public const string ListName = "contents.json";
    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    public async Task WriteAsync(ZipArchive zip, CancellationToken cancel)
    {
        await using var list = await zip.CreateEntry(ListName).OpenAsync(cancel);
        await JsonSerializer.SerializeAsync(list, this, Form, cancel);
    }

    /// <exception cref="DataFolderException">The archive is not one of this program's, or its list cannot be read.</exception>
    public static async Task<BackupContents> ReadAsync(ZipArchive zip, string path, CancellationToken cancel)
    {
        var entry = zip.GetEntry(ListName)
            ?? throw new DataFolderException($"{path} is not a backup of this program: it has no {ListName}.");
        await using var stream = await entry.OpenAsync(cancel);
        try
        {
            using var list = await JsonDocument.ParseAsync(stream, cancellationToken: cancel);
            // The first versions wrote the checksums and nothing else.
            var contents = list.RootElement.TryGetProperty("files", out _) ? list.RootElement.Deserialize<BackupContents>(Form)
                : new BackupContents("", null, default, "SQLite", list.RootElement.Deserialize<SortedDictionary<string, string>>()!);
            return contents?.Files.Keys.Any(n => n.StartsWith("commonground.", StringComparison.Ordinal)) == true ? contents
                : throw new DataFolderException($"{path} is not a backup of this program: it holds no database.");
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            throw new DataFolderException($"{path} is not a backup of this program: its {ListName} cannot be read.", e);
        }
    }

    /// <summary>Reads every file of the archive and compares its checksum.</summary>
    /// <exception cref="DataFolderException">A file is missing or damaged.</exception>
    public async Task VerifyAsync(ZipArchive zip, string path, CancellationToken cancel)
    {
        foreach (var (name, sum) in Files)
        {
            var entry = zip.GetEntry(name)
                ?? throw new DataFolderException($"{path} is incomplete: {name} is missing. Nothing was restored.");
            await using var stream = await entry.OpenAsync(cancel);
            if (Convert.ToHexString(await SHA256.HashDataAsync(stream, cancel)) != sum)
            {
                throw new DataFolderException($"{path} is damaged: the checksum of {name} does not agree. Nothing was restored.");
            }
        }
    }
}
