using System.Buffers.Binary;

namespace CommonGround.Interchange.Photos;

/// <summary>WebP (RFC 9649): a RIFF file of chunks, each padded to an even length.</summary>
internal static class WebPFile
{
    private const int Head = 12, Frame = 8;
    private const byte Icc = 0x20, Alpha = 0x10, Exif = 0x08, Animation = 0x02;

    public static CleanPhoto Clean(ReadOnlySpan<byte> file)
    {
        var length = BinaryPrimitives.ReadUInt32LittleEndian(file[4..]);
        if (length < 4 || length > file.Length - Frame)
        {
            throw new NotAPhotoException();
        }

        var parts = Parts(file[Head..(int)(length + Frame)]);
        var picture = parts.Find(p => p.Type is "VP8 " or "VP8L");
        if (parts.Exists(p => p.Type is "ANIM" or "ANMF") || parts is [{ Type: "VP8X", Content: [var flags, ..] }, ..] && (flags & Animation) != 0)
        {
            throw new NotAPhotoException("This WebP moves. Bring a still picture.");
        }

        if (picture.Content is null)
        {
            throw new NotAPhotoException();
        }

        var (width, height) = Size(picture.Type, picture.Content);
        var turned = parts.Find(p => p.Type == "EXIF").Content is { } exif ? Orientation.Find(exif.AsSpan().StartsWith("Exif\0\0"u8) ? exif.AsSpan(6) : exif) : null;
        using var kept = new MemoryStream();
        if (parts[0].Type == "VP8X")
        {
            Extended(kept, parts, turned, width, height);
        }

        Write(kept, picture.Type, picture.Content);
        if (parts[0].Type == "VP8X" && turned is { } orientation)
        {
            Write(kept, "EXIF", Orientation.Block(orientation));
        }

        var whole = new byte[Head + kept.Length];
        file[..Head].CopyTo(whole);
        BinaryPrimitives.WriteInt32LittleEndian(whole.AsSpan(4), whole.Length - Frame);
        kept.ToArray().CopyTo(whole, Head);
        return new CleanPhoto(PhotoKind.WebP, width, height, whole);
    }

    /// <summary>The extended head, which says what else there is, then colours and transparency.</summary>
    private static void Extended(MemoryStream kept, List<(string Type, byte[] Content)> parts, int? turned, int width, int height)
    {
        var (profile, alpha) = (parts.Find(p => p.Type == "ICCP").Content, parts.Find(p => p.Type == "ALPH").Content);
        var head = parts[0].Content;
        if (head.Length < 10 || 1 + Triple(head, 4) != width || 1 + Triple(head, 7) != height)
        {
            throw new NotAPhotoException();
        }

        var flags = (byte)((head[0] & Alpha) | (profile is null ? 0 : Icc) | (turned is null ? 0 : Exif));
        Write(kept, "VP8X", [flags, 0, 0, 0, .. head.AsSpan(4, 6)]);
        if (profile is not null)
        {
            Write(kept, "ICCP", profile);
        }

        if (alpha is not null)
        {
            Write(kept, "ALPH", alpha);
        }
    }

    private static List<(string Type, byte[] Content)> Parts(ReadOnlySpan<byte> rest)
    {
        var parts = new List<(string, byte[])>();
        while (rest.Length > 0)
        {
            var length = rest.Length < Frame ? uint.MaxValue : BinaryPrimitives.ReadUInt32LittleEndian(rest[4..]);
            if (length > rest.Length - Frame)
            {
                throw new NotAPhotoException();
            }

            parts.Add((System.Text.Encoding.Latin1.GetString(rest[..4]), rest.Slice(Frame, (int)length).ToArray()));
            rest = rest[(int)Math.Min(Frame + length + (length & 1), rest.Length)..];
        }

        return parts.Count > 0 && parts[0].Item1 is "VP8X" or "VP8 " or "VP8L" ? parts : throw new NotAPhotoException();
    }

    private static (int Width, int Height) Size(string type, ReadOnlySpan<byte> picture)
    {
        // RFC 6386, 9.1: a key frame's start code, then 14 bits each.
        if (type == "VP8 " && picture.Length >= 10 && (picture[0] & 1) == 0 && picture[3..6] is [0x9D, 0x01, 0x2A])
        {
            return Checked(BinaryPrimitives.ReadUInt16LittleEndian(picture[6..]) & 0x3FFF, BinaryPrimitives.ReadUInt16LittleEndian(picture[8..]) & 0x3FFF);
        }

        if (type == "VP8L" && picture.Length >= 5 && picture[0] == 0x2F)
        {
            var bits = BinaryPrimitives.ReadUInt32LittleEndian(picture[1..]);
            return ((int)(bits & 0x3FFF) + 1, (int)((bits >> 14) & 0x3FFF) + 1);
        }

        throw new NotAPhotoException();
    }

    private static (int Width, int Height) Checked(int width, int height) => width > 0 && height > 0 ? (width, height) : throw new NotAPhotoException();

    private static int Triple(byte[] bytes, int at) => bytes[at] | (bytes[at + 1] << 8) | (bytes[at + 2] << 16);

    private static void Write(MemoryStream to, string type, ReadOnlySpan<byte> content)
    {
        Span<byte> length = stackalloc byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(length, content.Length);
        to.Write(System.Text.Encoding.Latin1.GetBytes(type));
        to.Write(length);
        to.Write(content);
        if (content.Length % 2 == 1)
        {
            to.WriteByte(0);
        }
    }
}
