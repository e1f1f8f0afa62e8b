using System.Buffers.Binary;
using System.Text;
using CommonGround.Interchange.Photos;
using SkiaSharp;

namespace CommonGround.Interchange.Tests.Photos;

public class CleanPhotoTests
{
    private static readonly SKColor[] Corners = [SKColors.Red, SKColors.Lime, SKColors.Blue, SKColors.Black];

    public static TheoryData<string> Kinds => ["jpeg", "png", "webp"];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Nothing_that_tells_of_place_time_camera_or_people_stays_in_a_photo(string kind)
    {
        var telling = Telling(kind, 1);
        Encoding.Latin1.GetString(telling).ShouldContain(PhotoSamples.Secret);
        var photo = Cleaned(telling);
        var text = Encoding.Latin1.GetString(photo.Bytes);
        foreach (var trace in new[] { PhotoSamples.Secret, "Exif", "EXIF", "eXIf", "xap", "XMP", "Photoshop", "MPF", "Comment", "tIME",
            "note", "II*", "ICC_PROFILE" })
        {
            text.ShouldNotContain(trace);
        }

        (photo.Width, photo.Height).ShouldBe((16, 12));
        // ITU-T T.81, table B.1: the parts of a JPEG by their markers. Only tables, frame, scan and the JFIF head are left; no APP1–APP15,
        // no comment.
        Markers(photo.Bytes).ShouldAllBe(m => m == 0xE0 || m == 0xDB || m == 0xC0 || m == 0xC4 || m == 0xDA);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_picture_is_the_same_to_the_eye(string kind)
    {
        using var before = SKBitmap.Decode(Plain(kind));
        using var after = SKBitmap.Decode(Cleaned(Plain(kind)).Bytes);
        var apart = Enumerable.Range(0, before.Width * before.Height)
            .Average(i => Apart(before.GetPixel(i % before.Width, i / before.Width), after.GetPixel(i % before.Width, i / before.Width)));
        apart.ShouldBeLessThan(12, "mean difference of a colour's value, of 255");
    }

    // CIPA DC-008 (Exif), 4.6.4, tag 274: where the stored picture's first row and first column belong. Given as the places of its first
    // and last point of the first row.
    [Theory]
    [InlineData(1, "top left", "top right")]
    [InlineData(2, "top right", "top left")]
    [InlineData(3, "bottom right", "bottom left")]
    [InlineData(4, "bottom left", "bottom right")]
    [InlineData(5, "top left", "bottom left")]
    [InlineData(6, "top right", "bottom right")]
    [InlineData(7, "bottom right", "top right")]
    [InlineData(8, "bottom left", "top left")]
    public void A_photo_is_turned_the_right_way_up(int orientation, string first, string last)
    {
        var photo = Cleaned(Turned(orientation));
        (photo.Width, photo.Height).ShouldBe(orientation < 5 ? (96, 64) : (64, 96));
        using var upright = SKBitmap.Decode(photo.Bytes);
        SKColor At(string place) => upright.GetPixel(place.EndsWith("left", StringComparison.Ordinal) ? 8 : upright.Width - 9,
            place.StartsWith("top", StringComparison.Ordinal) ? 8 : upright.Height - 9);
        Apart(At(first), Corners[0]).ShouldBeLessThan(40, first);
        Apart(At(last), Corners[1]).ShouldBeLessThan(40, last);
    }

    [Fact]
    public void A_colour_profile_is_applied_and_its_texts_are_gone()
    {
        byte[] profile = [.. "ICC_PROFILE\0"u8, 1, 1, .. Encoding.ASCII.GetBytes(PhotoSamples.Secret)];
        Untold(Cleaned([.. PhotoSamples.Jpeg[..2], .. PhotoSamples.Segment(0xE2, profile), .. PhotoSamples.Jpeg[2..]]));
        Untold(Cleaned([.. PhotoSamples.Png[..33], .. PhotoSamples.Chunk("iCCP"u8,
            [.. Encoding.ASCII.GetBytes(PhotoSamples.Secret), 0, 0, 1, 2]), .. PhotoSamples.Png[33..]]));

        // A picture in Display P3 whose red is that of sRGB: the value stored for it changes, the colour does not.
        using var wide = SKColorSpace.CreateRgb(SKColorSpaceTransferFn.Srgb, SKColorSpaceXyz.DisplayP3);
        using var bitmap = new SKBitmap(new SKImageInfo(32, 32, SKColorType.Rgba8888, SKAlphaType.Opaque, wide));
        // sRGB red as Display P3 writes it, by the matrices of CSS Color 4, section 10: 234, 51, 35. Written as bytes, because Skia would
        // convert a colour.
        var bytes = bitmap.GetPixelSpan();
        for (var i = 0; i < bytes.Length; i += 4)
        {
            ((byte[])[234, 51, 35, 255]).CopyTo(bytes[i..]);
        }

        using var picture = SKImage.FromBitmap(bitmap);
        using var png = picture.Encode(SKEncodedImageFormat.Png, 100);
        Encoding.Latin1.GetString(png.ToArray()).ShouldContain("iCCP");
        using var after = SKBitmap.Decode(Cleaned(png.ToArray()).Bytes);
        Apart(after.GetPixel(16, 16), SKColors.Red).ShouldBeLessThan(12);
    }

    [Fact]
    public void A_large_photo_is_stored_smaller_with_copies_for_phones()
    {
        using var bitmap = new SKBitmap(4000, 3000);
        bitmap.Erase(SKColors.SeaGreen);
        foreach (var format in new[] { SKEncodedImageFormat.Jpeg, SKEncodedImageFormat.Png, SKEncodedImageFormat.Webp })
        {
            using var picture = bitmap.Encode(format, 90);
            var photo = Cleaned(picture.ToArray());
            (photo.Width, photo.Height).ShouldBe((2048, 1536), format.ToString());
            photo.Smaller.Select(s => (s.LongerSide, Size(s.Bytes))).ShouldBe([(480, (480, 360)), (960, (960, 720))]);
        }

        Cleaned(PhotoSamples.Jpeg).Smaller.ShouldBeEmpty();
    }

    [Fact]
    public void What_is_see_through_becomes_white()
    {
        using var bitmap = new SKBitmap(16, 16);
        bitmap.Erase(SKColors.Transparent);
        using var png = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        using var after = SKBitmap.Decode(Cleaned(png.ToArray()).Bytes);
        Apart(after.GetPixel(8, 8), SKColors.White).ShouldBeLessThan(4);
    }

    [Fact]
    public void A_file_is_what_its_first_bytes_say()
    {
        Refused("<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>"u8.ToArray())
            .ShouldStartWith("This is no JPEG, PNG or WebP picture");
        Refused("GIF89a"u8.ToArray()).ShouldStartWith("This is no JPEG, PNG or WebP picture");
        Refused([]).ShouldStartWith("This is no JPEG, PNG or WebP picture");
        Refused([0xFF, 0xD8, 0xFF, .. "GIF89a"u8]).ShouldStartWith("The picture is damaged");
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_photo_that_was_cut_off_is_refused_unless_only_its_end_mark_is_missing(string kind)
    {
        using var whole = Large(kind);
        var file = whole.ToArray();
        var endMark = kind == "png" ? 12 : 2;
        for (var tenth = 0; tenth < 10; tenth++)
        {
            CleanPhoto.Read(file[..(file.Length * tenth / 10)]).Photo.ShouldBeNull($"cut at {tenth} tenths");
        }

        if (CleanPhoto.Read(file[..^endMark]).Photo is { } taken)
        {
            taken.Bytes.ShouldBe(Cleaned(file).Bytes);
        }
    }

    [Fact]
    public void A_file_or_a_picture_too_large_is_refused_with_the_bound_it_passes_before_it_is_decoded()
    {
        Refused(new byte[CleanPhoto.LargestFile + 1]).ShouldContain("a photo may have up to 10 MB");
        var vast = PhotoSamples.Jpeg.ToArray();
        var frame = vast.AsSpan().IndexOf([(byte)0xFF, (byte)0xC0]);
        (vast[frame + 5], vast[frame + 7]) = (0xFF, 0xFF);
        Refused(vast).ShouldContain("Up to 12,000 on a side");

        // A few bytes that would unfold to 3.6 GB: PNG's size is in its first chunk.
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, 30_000);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), 30_000);
        (header[8], header[9]) = (8, 6);
        var before = Environment.WorkingSet;
        Refused([.. PhotoSamples.Png[..8], .. PhotoSamples.Chunk("IHDR"u8, header), .. PhotoSamples.Png[33..]])
            .ShouldContain("30,000 × 30,000 pixels");
        (Environment.WorkingSet - before).ShouldBeLessThan(100_000_000);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Spoilt_pictures_end_with_a_result_and_what_is_taken_is_clean(string kind)
    {
        var refused = 0;
        for (var seed = Malformer.FirstSeed; seed < Malformer.FirstSeed + Malformer.Count; seed++)
        {
            var (photo, problem) = CleanPhoto.Read(Malformer.Spoil(seed, Telling(kind, 6)));
            (photo is null).ShouldBe(problem.Length > 0, $"seed {seed}");
            refused += photo is null ? 1 : 0;
            if (photo is not null)
            {
                Markers(photo.Bytes).ShouldNotContain((byte)0xE1, $"seed {seed}");
                Untold(photo);
            }
        }

        refused.ShouldBeGreaterThan(Malformer.Count / 10);
    }

    private static byte[] Plain(string kind) => kind switch
    {
        "jpeg" => PhotoSamples.Jpeg,
        "png" => PhotoSamples.Png,
        _ => PhotoSamples.WebP
    };

    private static byte[] Telling(string kind, int orientation) => kind switch
    {
        "jpeg" => PhotoSamples.TellingJpeg(orientation),
        "png" => PhotoSamples.TellingPng(orientation),
        _ => PhotoSamples.TellingWebP(orientation)
    };

    /// <summary>A picture of many colours, so that its data are not all at the beginning.</summary>
    private static SKData Large(string kind)
    {
        using var bitmap = new SKBitmap(128, 128);
        var chance = new Random(11);
        for (var i = 0; i < 128 * 128; i++)
        {
            bitmap.SetPixel(i % 128, i / 128, new SKColor((uint)chance.Next(0x1000000) | 0xFF000000));
        }

        return bitmap.Encode(kind switch
        {
            "jpeg" => SKEncodedImageFormat.Jpeg,
            "png" => SKEncodedImageFormat.Png,
            _ => SKEncodedImageFormat.Webp
        }, 90);
    }

    /// <summary>96 × 64 with a colour to each quarter, as a JPEG that says how it lies.</summary>
    private static byte[] Turned(int orientation)
    {
        using var bitmap = new SKBitmap(96, 64);
        using (var canvas = new SKCanvas(bitmap))
        {
            for (var i = 0; i < 4; i++)
            {
                using var paint = new SKPaint { Color = Corners[i] };
                canvas.DrawRect(i % 2 * 48, i / 2 * 32, 48, 32, paint);
            }
        }

        using var encoded = bitmap.Encode(SKEncodedImageFormat.Jpeg, 95);
        var jpeg = encoded.ToArray();
        return [.. jpeg[..2], .. PhotoSamples.Segment(0xE1, [.. "Exif\0\0"u8, .. PhotoSamples.Exif(orientation)]), .. jpeg[2..]];
    }

    private static (int Width, int Height) Size(byte[] jpeg)
    {
        using var decoded = SKBitmap.Decode(jpeg);
        return (decoded.Width, decoded.Height);
    }

    /// <summary>The markers of a JPEG up to its scan.</summary>
    private static List<byte> Markers(byte[] jpeg)
    {
        var found = new List<byte>();
        for (var at = 2; found is not [.., 0xDA]; at += 2 + BinaryPrimitives.ReadUInt16BigEndian(jpeg.AsSpan(at + 2)))
        {
            jpeg[at].ShouldBe((byte)0xFF);
            found.Add(jpeg[at + 1]);
        }

        return found;
    }

    private static int Apart(SKColor one, SKColor other) =>
        (Math.Abs(one.Red - other.Red) + Math.Abs(one.Green - other.Green) + Math.Abs(one.Blue - other.Blue)) / 3;

    private static void Untold(CleanPhoto photo) => Encoding.Latin1.GetString(photo.Bytes).ShouldNotContain(PhotoSamples.Secret);

    private static CleanPhoto Cleaned(byte[] file)
    {
        var (photo, problem) = CleanPhoto.Read(file);
        problem.ShouldBeEmpty();
        return photo!;
    }

    private static string Refused(byte[] file)
    {
        var (photo, problem) = CleanPhoto.Read(file);
        photo.ShouldBeNull();
        return problem;
    }
}
