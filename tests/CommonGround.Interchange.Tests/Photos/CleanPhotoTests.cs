using System.Buffers.Binary;
using System.Text;
using CommonGround.Interchange.Photos;

namespace CommonGround.Interchange.Tests.Photos;

public class CleanPhotoTests
{
    public static TheoryData<string> Kinds => ["jpeg", "png", "webp"];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Nothing_that_tells_of_place_time_camera_or_people_stays_in_a_photo(string kind)
    {
        var telling = Telling(kind, 1);
        Encoding.Latin1.GetString(telling).ShouldContain(PhotoSamples.Secret);
        var photo = Cleaned(telling);
        var text = Encoding.Latin1.GetString(photo.Bytes);
        foreach (var trace in new[] { PhotoSamples.Secret, "Exif", "EXIF", "eXIf", "xap", "XMP", "Photoshop", "MPF", "Comment", "tIME", "note", "II*" })
        {
            text.ShouldNotContain(trace);
        }

        (photo.Width, photo.Height).ShouldBe((16, 12));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_picture_itself_is_copied_not_made_anew(string kind)
    {
        var plain = Plain(kind);
        var cleaned = Cleaned(Telling(kind, 1)).Bytes;
        // The extended form of WebP keeps its head; the picture in it is the same.
        (kind == "webp" ? cleaned[30..] : cleaned).ShouldBe(kind == "webp" ? plain[12..] : plain);
        Cleaned(plain).Bytes.ShouldBe(plain);
        Cleaned(cleaned).Bytes.ShouldBe(cleaned);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Which_way_up_a_photo_is_stays_as_the_only_entry_of_its_EXIF(string kind)
    {
        var cleaned = Cleaned(Telling(kind, 6)).Bytes;
        var at = cleaned.AsSpan().IndexOf("MM\0*"u8);
        var exif = cleaned.AsSpan(at, 26);
        // CIPA DC-008 (Exif), 4.6.4: tag 274, type SHORT, one value, 6 = the row at the top is the right side.
        BinaryPrimitives.ReadUInt16BigEndian(exif[8..]).ShouldBe((ushort)1);
        exif[10..20].ToArray().ShouldBe([1, 18, 0, 3, 0, 0, 0, 1, 0, 6]);
        Encoding.Latin1.GetString(cleaned).ShouldNotContain(PhotoSamples.Secret);
        Cleaned(cleaned).Bytes.ShouldBe(cleaned);
    }

    [Fact]
    public void A_colour_profile_stays_because_colours_change_without_it()
    {
        byte[] profile = [.. "ICC_PROFILE\0"u8, 1, 1, 1, 2, 3];
        var photo = Cleaned([.. PhotoSamples.Jpeg[..2], .. PhotoSamples.Segment(0xE2, profile), .. PhotoSamples.Jpeg[2..]]);
        photo.Bytes.AsSpan().IndexOf(profile).ShouldBeGreaterThan(0);
    }

    [Fact]
    public void A_file_is_what_its_first_bytes_say()
    {
        Cleaned(PhotoSamples.Png).ContentType.ShouldBe("image/png");
        Refused("<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>"u8.ToArray()).ShouldStartWith("This is no JPEG, PNG or WebP picture");
        Refused("GIF89a"u8.ToArray()).ShouldStartWith("This is no JPEG, PNG or WebP picture");
        Refused([]).ShouldStartWith("This is no JPEG, PNG or WebP picture");
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_photo_that_was_cut_off_is_refused_wherever_the_cut_is(string kind)
    {
        var plain = Plain(kind);
        for (var length = 0; length < plain.Length; length++)
        {
            CleanPhoto.Read(plain[..length]).Photo.ShouldBeNull($"cut at {length}");
        }
    }

    [Fact]
    public void A_file_or_a_picture_too_large_is_refused_with_the_bound_it_passes()
    {
        Refused(new byte[CleanPhoto.LargestFile + 1]).ShouldContain("a photo may have up to 10 MB");
        var vast = PhotoSamples.Jpeg.ToArray();
        var frame = vast.AsSpan().IndexOf([(byte)0xFF, (byte)0xC0]);
        (vast[frame + 5], vast[frame + 7]) = (0xFF, 0xFF);
        Refused(vast).ShouldContain("Up to 12,000 on a side");
    }

    [Fact]
    public void A_WebP_that_moves_is_refused()
    {
        var moving = PhotoSamples.TellingWebP();
        moving[20] |= 0x02;
        Refused(moving).ShouldBe("This WebP moves. Bring a still picture.");
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
                // What was taken is well formed: read again it stays as it is.
                Cleaned(photo.Bytes).Bytes.ShouldBe(photo.Bytes, $"seed {seed}");
            }
        }

        refused.ShouldBeGreaterThan(Malformer.Count / 10);
    }

    private static byte[] Plain(string kind) => kind switch { "jpeg" => PhotoSamples.Jpeg, "png" => PhotoSamples.Png, _ => PhotoSamples.WebP };

    private static byte[] Telling(string kind, int orientation) => kind switch { "jpeg" => PhotoSamples.TellingJpeg(orientation), "png" => PhotoSamples.TellingPng(orientation), _ => PhotoSamples.TellingWebP(orientation) };

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
