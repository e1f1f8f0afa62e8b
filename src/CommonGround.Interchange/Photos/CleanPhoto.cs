using SkiaSharp;

namespace CommonGround.Interchange.Photos;

/// <summary>A smaller copy for narrow screens.</summary>
/// <param name="LongerSide">Pixels.</param>
public sealed record SmallerPhoto(int LongerSide, byte[] Bytes);

/// <summary>
/// A photo with nothing in it but the picture: what was brought is decoded, turned the right way up, brought to the colours every screen
/// knows (sRGB) and encoded anew as JPEG. Nothing of the file itself is kept, so neither are places, dates, cameras, names, comments,
/// thumbnails, colour profiles and their texts, nor whatever hangs behind the picture's end.
/// </summary>
/// <remarks>Skia decodes (package SkiaSharp). A file is measured before it is decoded: what would need more than <see cref="MostPixels"/>
/// in memory is refused.</remarks>
/// <param name="Width">Pixels, right way up.</param>
/// <param name="Smaller">Copies for narrow screens, smallest first; none wider than the photo itself.</param>
public sealed record CleanPhoto(int Width, int Height, byte[] Bytes, IReadOnlyList<SmallerPhoto> Smaller)
{
    public const int LargestFile = 10 * 1024 * 1024, LongestSide = 12_000, StoredSide = 2048;

    /// <summary>Decoded at four bytes each, these take 240 MB for the moment of decoding; a JPEG is decoded smaller at once.</summary>
    public const long MostPixels = 60_000_000;

    /// <summary>Of what is stored beside the photo.</summary>
    public static readonly IReadOnlyList<int> SmallerSides = [480, 960];

    public const string Extension = ".jpg", ContentType = "image/jpeg";
    private const int Quality = 85;
    private const string Broken = "The picture is damaged or cut off. Open it on the device it comes from, save it anew, and bring that.";

    /// <summary>How browsers are told what a stored file is. Photos from before were kept as they were brought.</summary>
    public static string TypeOf(string extension) => extension switch
    {
        Extension => ContentType,
        ".png" => "image/png",
        ".webp" => "image/webp",
        _ => "application/octet-stream"
    };

    /// <summary>Reads a file as brought; what it is is told by its first bytes, not by its name.</summary>
    /// <returns>The photo, or what is wrong with the file in words for whoever brought it.</returns>
    public static (CleanPhoto? Photo, string Problem) Read(byte[] file)
    {
        ArgumentNullException.ThrowIfNull(file);
        if (file.Length > LargestFile)
        {
            return (null, $"The file has {file.Length / 1048576.0:0.0} MB; a photo may have up to {LargestFile / 1048576} MB. Save it "
                + $"smaller and bring that.");
        }

        // Only these three decoders are ever given something to decode.
        if (file.AsSpan() is not ([0xFF, 0xD8, 0xFF, ..] or [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A, ..]
            or [(byte)'R', (byte)'I', (byte)'F', (byte)'F', _, _, _, _, (byte)'W', (byte)'E', (byte)'B', (byte)'P', ..]))
        {
            return (null,
                "This is no JPEG, PNG or WebP picture, whatever its name says. Phones that save HEIC can share a photo as JPEG: bring that.");
        }

        using var data = SKData.CreateCopy(file);
        using var codec = SKCodec.Create(data);
        if (codec is null || codec.EncodedFormat is not (SKEncodedImageFormat.Jpeg or SKEncodedImageFormat.Png
            or SKEncodedImageFormat.Webp))
        {
            return (null, Broken);
        }

        var (width, height) = (codec.Info.Width, codec.Info.Height);
        return codec.FrameCount > 1 ? (null, "This picture is animated. Choose a still one.")
            : width > LongestSide || height > LongestSide || (long)width * height > MostPixels
            ? (null, $"The picture has {width:#,0} × {height:#,0} pixels. Up to {LongestSide:#,0} on a side and {MostPixels / 1_000_000} "
            + $"million in all fit: save a smaller copy and choose that.")
            : Decode(codec) is { } photo ? (photo, "") : (null, Broken);
    }

    /// <summary>The picture, upright and encoded anew; null where it is not whole.</summary>
    private static CleanPhoto? Decode(SKCodec codec)
    {
        // JPEG can be decoded at an eighth, a quarter or half of its size, with as much less memory.
        var size = codec.GetScaledDimensions(Math.Min(1, (float)StoredSide / Math.Max(codec.Info.Width, codec.Info.Height)));
        if (Math.Max(size.Width, size.Height) < Math.Min(StoredSide, Math.Max(codec.Info.Width, codec.Info.Height)))
        {
            size = codec.Info.Size;
        }

        using var srgb = SKColorSpace.CreateSrgb();
        using var decoded = new SKBitmap(new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Premul, srgb));
        if (codec.GetPixels(decoded.Info, decoded.GetPixels()) != SKCodecResult.Success)
        {
            return null;
        }

        using var picture = SKImage.FromBitmap(decoded);
        using var whole = Upright(picture, codec.EncodedOrigin, StoredSide);
        var longer = Math.Max(whole.Width, whole.Height);
        var smaller = SmallerSides.Where(side => side < longer).Select(side =>
        {
            using var copy = Upright(whole, SKEncodedOrigin.TopLeft, side);
            return new SmallerPhoto(side, Encode(copy));
        }).ToList();
        return new CleanPhoto(whole.Width, whole.Height, Encode(whole), smaller);
    }

    private static byte[] Encode(SKImage picture)
    {
        using var encoded = picture.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return encoded.ToArray();
    }

    /// <summary>Turned the right way up, on white, no longer than a side; it carries no colour profile, which means sRGB.</summary>
    private static SKImage Upright(SKImage picture, SKEncodedOrigin origin, int longestSide)
    {
        var isTurned = origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom
            or SKEncodedOrigin.LeftBottom;
        var (width, height) = isTurned ? (picture.Height, picture.Width) : (picture.Width, picture.Height);
        var scale = Math.Min(1f, (float)longestSide / Math.Max(width, height));
        var info = new SKImageInfo(Math.Max(1, (int)Math.Round(width * scale)), Math.Max(1, (int)Math.Round(height * scale)),
            SKColorType.Rgba8888, SKAlphaType.Opaque);
        using var surface = SKSurface.Create(info);
        surface.Canvas.Clear(SKColors.White);
        surface.Canvas.Scale((float)info.Width / width, (float)info.Height / height);
        surface.Canvas.Concat(Turn(origin, picture.Width, picture.Height));
        surface.Canvas.DrawImage(picture, 0, 0, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        return surface.Snapshot();
    }

    /// <summary>From the stored picture of w × h to the upright one, for the eight values of EXIF's orientation (CIPA DC-008,
    /// 4.6.4).</summary>
    private static SKMatrix Turn(SKEncodedOrigin origin, float w, float h) => origin switch
    {
        SKEncodedOrigin.TopRight => new(-1, 0, w, 0, 1, 0, 0, 0, 1),
        SKEncodedOrigin.BottomRight => new(-1, 0, w, 0, -1, h, 0, 0, 1),
        SKEncodedOrigin.BottomLeft => new(1, 0, 0, 0, -1, h, 0, 0, 1),
        SKEncodedOrigin.LeftTop => new(0, 1, 0, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightTop => new(0, -1, h, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightBottom => new(0, -1, h, -1, 0, w, 0, 0, 1),
        SKEncodedOrigin.LeftBottom => new(0, 1, 0, -1, 0, w, 0, 0, 1),
        _ => SKMatrix.Identity,
    };
}
