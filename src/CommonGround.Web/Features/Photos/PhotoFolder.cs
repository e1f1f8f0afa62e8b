using System.Globalization;
using System.Security.Cryptography;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Features.Photos;

/// <summary>The files of photos, below the data folder; named by us, so that a name tells nothing and leads nowhere else.</summary>
public sealed class PhotoFolder(SiteOptions options)
{
    private string Folder => options.PhotoFolder;

    /// <summary>Lays a file down, whole and on the disk, before anybody is told its name.</summary>
    public async Task<string> WriteAsync(byte[] bytes, string extension, int year, CancellationToken cancel)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"{year:0000}/{Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16))}{extension}");
        var path = Path.Combine(Folder, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        var part = path + ".part";
        await using (var file = new FileStream(part, FileMode.CreateNew))
        {
            await file.WriteAsync(bytes, cancel);
            file.Flush(flushToDisk: true);
        }

        File.Move(part, path);
        return name;
    }

    /// <summary>Opens a stored file; null when it is not there.</summary>
    public FileStream? Open(string name)
    {
        var path = Path.Combine(Folder, name);
        return File.Exists(path) ? new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete) : null;
    }

    public void Delete(string name)
    {
        if (File.Exists(Path.Combine(Folder, name)))
        {
            File.Delete(Path.Combine(Folder, name));
        }
    }
}
