using System.Buffers.Binary;

namespace CommonGround.Interchange.Photos;

/// <summary>JPEG (ITU-T T.81, annex B): marker segments, and data between them that belongs to a scan.</summary>
internal static class JpegFile
{
    private const int App0 = 0xE0, App1 = 0xE1, App2 = 0xE2, App14 = 0xEE, StartOfScan = 0xDA, EndOfImage = 0xD9;

    public static CleanPhoto Clean(ReadOnlySpan<byte> file)
    {
        var kept = new MemoryStream(file.Length);
        (int Width, int Height)? size = null;
        int? turned = null;
        var scans = 0;
        var at = 2;
        while (true)
        {
            var marker = Marker(file, ref at);
            if (marker == EndOfImage)
            {
                break; // What hangs behind, a second picture or a film, is left behind.
            }

            var segment = Segment(file, ref at);
            switch (marker)
            {
                case 0xC0 or 0xC1 or 0xC2 when size is null:
                    size = Size(segment);
                    Write(kept, marker, segment);
                    break;
                case StartOfScan when size is not null:
                    Write(kept, marker, segment);
                    kept.Write(Scan(file, ref at));
                    scans++;
                    break;
                case 0xC4 or 0xDB or 0xDD: // tables of Huffman codes and of quantisation, restart interval
                    Write(kept, marker, segment);
                    break;
                case App0 when segment.Length >= 14 && segment.StartsWith("JFIF\0"u8):
                    Write(kept, marker, [.. segment[..12], 0, 0]); // without its thumbnail
                    break;
                case App2 when segment.StartsWith("ICC_PROFILE\0"u8):
                    Write(kept, marker, segment);
                    break;
                case App14 when segment.Length >= 12 && segment.StartsWith("Adobe"u8):
                    Write(kept, marker, segment[..12]); // says how its colours are laid down
                    break;
                case App1 when segment.StartsWith("Exif\0\0"u8):
                    turned ??= Orientation.Find(segment[6..]);
                    break;
                case (>= 0xE0 and <= 0xEF) or 0xFE:
                    break; // XMP, IPTC, makers' notes, several pictures in one, comments
                default:
                    throw new NotAPhotoException(size is null || marker is not (>= 0xC0 and <= 0xCF) ? "This JPEG is of a rare kind that browsers do not draw, or it is damaged. Save it anew as an ordinary JPEG and bring that." : new NotAPhotoException().Message);
            }
        }

        return size is { } known && scans > 0 ? new CleanPhoto(PhotoKind.Jpeg, known.Width, known.Height, Whole(kept, turned)) : throw new NotAPhotoException();
    }

    private static byte[] Whole(MemoryStream kept, int? turned)
    {
        using var whole = new MemoryStream((int)kept.Length + 64);
        whole.Write([0xFF, 0xD8]);
        if (turned is { } orientation)
        {
            Write(whole, App1, [.. "Exif\0\0"u8, .. Orientation.Block(orientation)]);
        }

        whole.Write(kept.GetBuffer().AsSpan(0, (int)kept.Length));
        whole.Write([0xFF, EndOfImage]);
        return whole.ToArray();
    }

    private static int Marker(ReadOnlySpan<byte> file, ref int at)
    {
        if (at >= file.Length || file[at] != 0xFF)
        {
            throw new NotAPhotoException();
        }

        // Any number of fill bytes may stand before a marker.
        while (at < file.Length && file[at] == 0xFF)
        {
            at++;
        }

        return at < file.Length ? file[at++] : throw new NotAPhotoException();
    }

    private static ReadOnlySpan<byte> Segment(ReadOnlySpan<byte> file, ref int at)
    {
        var length = at + 2 <= file.Length ? BinaryPrimitives.ReadUInt16BigEndian(file[at..]) : 0;
        if (length < 2 || at + length > file.Length)
        {
            throw new NotAPhotoException();
        }

        var segment = file.Slice(at + 2, length - 2);
        at += length;
        return segment;
    }

    /// <summary>Coded data up to the next marker; stuffed zeros and restart markers belong to it.</summary>
    private static ReadOnlySpan<byte> Scan(ReadOnlySpan<byte> file, ref int at)
    {
        var from = at;
        for (; at + 1 < file.Length; at++)
        {
            if (file[at] == 0xFF && file[at + 1] is not (0x00 or (>= 0xD0 and <= 0xD7)))
            {
                return file[from..at];
            }
        }

        throw new NotAPhotoException();
    }

    private static (int Width, int Height) Size(ReadOnlySpan<byte> frame)
    {
        if (frame.Length < 6)
        {
            throw new NotAPhotoException();
        }

        var (height, width) = (BinaryPrimitives.ReadUInt16BigEndian(frame[1..]), BinaryPrimitives.ReadUInt16BigEndian(frame[3..]));
        return width > 0 && height > 0 ? (width, height) : throw new NotAPhotoException();
    }

    private static void Write(MemoryStream to, int marker, ReadOnlySpan<byte> segment)
    {
        to.Write([0xFF, (byte)marker, (byte)((segment.Length + 2) >> 8), (byte)(segment.Length + 2)]);
        to.Write(segment);
    }
}
