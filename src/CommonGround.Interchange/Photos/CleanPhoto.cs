namespace CommonGround.Interchange.Photos;

public enum PhotoKind { Jpeg, Png, WebP }

/// <summary>
/// A photo with nothing in it but the picture. The container is taken apart and put together again from the parts that draw; the picture's own data is copied, never
/// decoded. Places, dates, cameras, names, comments, thumbnails and whatever hangs behind the picture's end are gone; which way up it is stays, as the one entry of
/// its EXIF, and so does its colour profile, without which colours change.
/// </summary>
/// <param name="Width">Pixels, as stored: before it is turned the right way up.</param>
public sealed record CleanPhoto(PhotoKind Kind, int Width, int Height, byte[] Bytes)
{
    public const int LargestFile = 10 * 1024 * 1024, LongestSide = 12_000;
    public const long MostPixels = 60_000_000;

    /// <summary>How browsers are told what it is.</summary>
    public string ContentType => TypeOf(Extension);

    public string Extension => Kind switch { PhotoKind.Jpeg => ".jpg", PhotoKind.Png => ".png", _ => ".webp" };

    public static string TypeOf(string extension) => extension switch { ".jpg" => "image/jpeg", ".png" => "image/png", ".webp" => "image/webp", _ => "application/octet-stream" };

    /// <summary>Reads a file as brought; what it is is told by its first bytes, not by its name.</summary>
    /// <returns>The photo, or what is wrong with the file in words for whoever brought it.</returns>
    public static (CleanPhoto? Photo, string Problem) Read(byte[] file)
    {
        ArgumentNullException.ThrowIfNull(file);
        if (file.Length > LargestFile)
        {
            return (null, $"The file has {file.Length / 1048576.0:0.0} MB; a photo may have up to {LargestFile / 1048576} MB. Save it smaller and bring that.");
        }

        try
        {
            var photo = file.AsSpan() switch
            {
                [0xFF, 0xD8, 0xFF, ..] => JpegFile.Clean(file),
                [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A, ..] => PngFile.Clean(file),
                [(byte)'R', (byte)'I', (byte)'F', (byte)'F', _, _, _, _, (byte)'W', (byte)'E', (byte)'B', (byte)'P', ..] => WebPFile.Clean(file),
                _ => throw new NotAPhotoException("This is no JPEG, PNG or WebP picture, whatever its name says. Phones that save HEIC can share a photo as JPEG: bring that."),
            };
            return TooLarge(photo) ? (null, $"The picture has {photo.Width:#,0} × {photo.Height:#,0} pixels. Up to {LongestSide:#,0} on a side and {MostPixels / 1_000_000} million in all fit: save it smaller and bring that.") : (photo, "");
        }
        catch (NotAPhotoException e)
        {
            return (null, e.Message);
        }
    }

    private static bool TooLarge(CleanPhoto photo) => photo.Width > LongestSide || photo.Height > LongestSide || (long)photo.Width * photo.Height > MostPixels;
}

/// <summary>The file is not the picture it begins as; the message is for whoever brought it.</summary>
internal sealed class NotAPhotoException : Exception
{
    private const string Broken = "The picture is damaged or cut off. Open it on the device it comes from, save it anew, and bring that.";

    public NotAPhotoException() : base(Broken) { }

    public NotAPhotoException(string message) : base(message) { }

    public NotAPhotoException(string message, Exception inner) : base(message, inner) { }
}
