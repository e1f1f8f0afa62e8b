using System.Globalization;
using System.Security.Cryptography;
using CommonGround.Interchange.Photos;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;

namespace CommonGround.Web.Features.Photos;

/// <summary>The files of photos, below the data folder; named by us, so that a name tells nothing and leads nowhere else. Smaller copies
/// lie beside their photo, and go with it.</summary>
public sealed class PhotoFolder(SiteOptions options)
{
    private string Folder => options.PhotoFolder;

    /// <summary>Lays a photo and its smaller copies down, whole and on the disk, before anybody is told its name.</summary>
    public async Task<string> WriteAsync(CleanPhoto photo, int year, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(photo);
        var name = string.Create(
            CultureInfo.InvariantCulture, $"{year:0000}/{Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16))}{CleanPhoto.Extension}");
        Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(Folder, name))!);
        foreach (var smaller in photo.Smaller)
        {
            await WriteFileAsync(NameOf(name, smaller.LongerSide), smaller.Bytes, cancel);
        }

        await WriteFileAsync(name, photo.Bytes, cancel);
        return name;
    }

    /// <summary>Opens a stored file; null when it is not there.</summary>
    /// <param name="longerSide">The smaller copy of this size, where there is one; else the photo itself.</param>
    public FileStream? Open(string name, int? longerSide = null)
    {
        var path = Path.Combine(Folder, longerSide is { } side && CleanPhoto.SmallerSides.Contains(side)
            && File.Exists(Path.Combine(Folder, NameOf(name, side))) ? NameOf(name, side) : name);
        return File.Exists(path) ? new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete) : null;
    }

    public void Delete(string name)
    {
        foreach (var path in CleanPhoto.SmallerSides.Select(side => NameOf(name, side)).Prepend(name).Select(n => Path.Combine(Folder, n))
            .Where(File.Exists))
        {
            File.Delete(path);
        }
    }

    /// <summary>The photo that a file belongs to: of a smaller copy the photo's name, else its own.</summary>
    public static string PhotoOf(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        foreach (var end in CleanPhoto.SmallerSides.Select(side => NameOf("", side)))
        {
            if (name.EndsWith(end + CleanPhoto.Extension, StringComparison.Ordinal))
            {
                return name[..^(end.Length + CleanPhoto.Extension.Length)] + CleanPhoto.Extension;
            }
        }

        return name;
    }

    private async Task WriteFileAsync(string name, byte[] bytes, CancellationToken cancel)
    {
        var path = Path.Combine(Folder, name);
        var part = path + ".part";
        await using (var file = new FileStream(part, FileMode.CreateNew))
        {
            await file.WriteAsync(bytes, cancel);
            file.Flush(flushToDisk: true);
        }

        File.Move(part, path);
    }

    private static string NameOf(string name, int side) =>
        string.Create(CultureInfo.InvariantCulture, $"{Path.ChangeExtension(name, null)}-{side}{Path.GetExtension(name)}");
}
