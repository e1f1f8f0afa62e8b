using System.Buffers.Binary;
using System.Text;

namespace CommonGround.Interchange.Tests.Photos;

/// <summary>Pictures of 16 × 12 pixels, plain, and with everything in them that tells of people.</summary>
internal static class PhotoSamples
{
    /// <summary>Stands in every part that must not stay.</summary>
    public const string Secret = "41.8701 N, 88.4402 W, Lantern phone 7, by Ada";

    public static readonly byte[] Jpeg = Convert.FromBase64String(
        "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABsSFBcUERsXFhceHBsgKEIrKCUlKFE6PTBCYFVlZF9VXVtqeJmBanGQc1tdhbWGkJ6jq62rZ4C8ybqmx5moq6T/2wBDARweHigjKE4rK06kbl1upKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKT/wAARCAAMABADASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAAEF/8QAGRAAAQUAAAAAAAAAAAAAAAAAAAITFFFh/8QAFQEBAQAAAAAAAAAAAAAAAAAAAgX/xAAWEQADAAAAAAAAAAAAAAAAAAAAARP/2gAMAwEAAhEDEQA/AJDwQ8NtpFBpFES7DFH/2Q==");
    public static readonly byte[] Png = Convert.FromBase64String(
        "iVBORw0KGgoAAAANSUhEUgAAABAAAAAMEAIAAAC0FXaVAAAATElEQVQ4T2NkYGhoYKAhYBF345lOQ/MZWMRduWlsgRvPDJr6QMKN9j6gcRC50jqSaRxEjLv07lrSNJLF3bhpm4rEaRwHjP+BgJZBBABidBAeKZh5bgAAAABJRU5ErkJggg==");
    public static readonly byte[] WebP = Convert.FromBase64String(
        "UklGRkAAAABXRUJQVlA4IDQAAADwAQCdASoQAAwABABoJbACdGuAAszncIAA/ni6sV68sHtA/9rf+wn//5369c3hwNkDAAAA");

    private static readonly byte[] Told = Encoding.ASCII.GetBytes(Secret);

    /// <summary>A phone's photo: EXIF with where it was taken and a thumbnail, XMP, IPTC, a comment, and a second picture behind the
    /// end.</summary>
    public static byte[] TellingJpeg(int orientation = 6) =>
    [
        .. Jpeg[..2], .. Segment(0xE1, [.. "Exif\0\0"u8, .. Exif(orientation)]),
            .. Segment(0xE1, [.. "http://ns.adobe.com/xap/1.0/\0"u8, .. Told]),
        .. Segment(0xED, [.. "Photoshop 3.0\0"u8, .. Told]), .. Segment(0xE2, [.. "MPF\0"u8, .. Told]), .. Segment(0xFE, Told),
            .. Jpeg[2..], .. Jpeg, .. Told,
    ];

    public static byte[] TellingPng(int orientation = 6)
    {
        const int afterHeader = 8 + 25;
        return [.. Png[..afterHeader], .. Chunk("eXIf"u8, Exif(orientation)), .. Chunk("tEXt"u8, [.. "Comment\0"u8, .. Told]),
            .. Chunk("iTXt"u8, [.. "XML:com.adobe.xmp\0\0\0\0\0"u8, .. Told]), .. Chunk("tIME"u8, [7, 234, 8, 19, 12, 0, 0]),
                .. Png[afterHeader..], .. Told];
    }

    /// <summary>In the extended form, which alone has room for more than the picture.</summary>
    public static byte[] TellingWebP(int orientation = 6)
    {
        byte[] parts = [.. Part("VP8X", [0x0C, 0, 0, 0, 15, 0, 0, 11, 0, 0]), .. WebP[12..], .. Part("EXIF", Exif(orientation)),
            .. Part("XMP ", Told), .. Part("note", Told)];
        var length = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(length, parts.Length + 4);
        return [.. "RIFF"u8, .. length, .. "WEBP"u8, .. parts, .. Told];
    }

    public static byte[] Segment(byte marker, byte[] content) => [0xFF, marker, (byte)((content.Length + 2) >> 8),
        (byte)(content.Length + 2), .. content];

    private static byte[] Part(string type, byte[] content)
    {
        var length = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(length, content.Length);
        return [.. Encoding.ASCII.GetBytes(type), .. length, .. content, .. new byte[content.Length % 2]];
    }

    /// <summary>TIFF, little end first, as CIPA DC-008 lays EXIF down: maker (271), orientation (274) and a directory of GPS (34853) with
    /// latitude and longitude.</summary>
    public static byte[] Exif(int orientation)
    {
        const int directory = 8, gps = directory + 2 + (3 * 12) + 4, latitude = gps + 2 + (4 * 12) + 4, longitude = latitude + 24,
            maker = longitude + 24;
        return
        [
            .. "II*\0"u8, .. Number(directory),
            .. Short(3), .. Entry(271, 2, Told.Length, maker), .. Entry(274, 3, 1, orientation), .. Entry(34853, 4, 1, gps), .. Number(0),
            .. Short(4), .. Entry(1, 2, 2, 'N'), .. Entry(2, 5, 3, latitude), .. Entry(3, 2, 2, 'W'), .. Entry(4, 5, 3, longitude),
                .. Number(0),
            .. Number(41), .. Number(1), .. Number(52), .. Number(1), .. Number(1236), .. Number(100), .. Number(88), .. Number(1),
                .. Number(26), .. Number(1), .. Number(2472), .. Number(100),
            .. Told,
        ];
    }

    private static byte[] Entry(int tag, int type, int count, int value) => [.. Short(tag), .. Short(type), .. Number(count),
        .. Number(value)];

    private static byte[] Short(int value) => [(byte)value, (byte)(value >> 8)];

    private static byte[] Number(int value) => [(byte)value, (byte)(value >> 8), (byte)(value >> 16), (byte)(value >> 24)];

    /// <summary>A chunk of PNG (W3C, third edition, 5.3) with its frame.</summary>
    public static byte[] Chunk(ReadOnlySpan<byte> type, ReadOnlySpan<byte> content)
    {
        var chunk = new byte[content.Length + 12];
        BinaryPrimitives.WriteInt32BigEndian(chunk, content.Length);
        type.CopyTo(chunk.AsSpan(4));
        content.CopyTo(chunk.AsSpan(8));
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(chunk.Length - 4), Crc(chunk.AsSpan(4, content.Length + 4)));
        return chunk;
    }

    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var crc = 0xFFFFFFFF;
        foreach (var b in bytes)
        {
            crc ^= b;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 1 ? 0xEDB88320 ^ (crc >> 1) : crc >> 1;
            }
        }

        return ~crc;
    }
}
