using System.Buffers.Binary;

namespace CommonGround.Interchange.Photos;

/// <summary>PNG (W3C, third edition): chunks of length, type, data and CRC.</summary>
internal static class PngFile
{
    private const int Signature = 8, Frame = 12;

    // What draws: size, palette, transparency, colour. Text, time, EXIF and films are left behind.
    private static readonly string[] Kept = ["IHDR", "PLTE", "tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "cICP", "sBIT", "IDAT", "IEND"];
    private static readonly uint[] Table = [.. Enumerable.Range(0, 256).Select(n => Enumerable.Range(0, 8).Aggregate((uint)n, (c, _) => (c & 1) == 1 ? 0xEDB88320 ^ (c >> 1) : c >> 1))];

    public static CleanPhoto Clean(ReadOnlySpan<byte> file)
    {
        using var kept = new MemoryStream(file.Length);
        (int Width, int Height)? size = null;
        int? turned = null;
        var (data, end) = (0, false);
        for (var at = Signature; !end;)
        {
            var length = file.Length - at < Frame ? uint.MaxValue : BinaryPrimitives.ReadUInt32BigEndian(file[at..]);
            if (length > file.Length - at - Frame)
            {
                throw new NotAPhotoException();
            }

            var chunk = file.Slice(at, (int)length + Frame);
            at += chunk.Length;
            var type = System.Text.Encoding.Latin1.GetString(chunk[4..8]);
            var content = chunk[8..^4];
            if (BinaryPrimitives.ReadUInt32BigEndian(chunk[^4..]) != Crc(chunk[4..^4]) || (size is null) != (type == "IHDR"))
            {
                throw new NotAPhotoException();
            }

            size ??= Size(content);
            turned ??= type == "eXIf" ? Orientation.Find(content) : null;
            data += type == "IDAT" ? content.Length : 0;
            end = type == "IEND";
            if (Kept.Contains(type))
            {
                kept.Write(end && turned is { } orientation ? Chunk("eXIf"u8, Orientation.Block(orientation)) : []);
                kept.Write(chunk);
            }
            else if (char.IsAsciiLetterUpper(type[0]))
            {
                throw new NotAPhotoException(); // A part that no reader may pass over, and nobody knows.
            }
        }

        return data > 0 ? new CleanPhoto(PhotoKind.Png, size!.Value.Width, size.Value.Height, [.. file[..Signature], .. kept.ToArray()]) : throw new NotAPhotoException();
    }

    /// <summary>A chunk with its frame.</summary>
    internal static byte[] Chunk(ReadOnlySpan<byte> type, ReadOnlySpan<byte> content)
    {
        var chunk = new byte[content.Length + Frame];
        BinaryPrimitives.WriteInt32BigEndian(chunk, content.Length);
        type.CopyTo(chunk.AsSpan(4));
        content.CopyTo(chunk.AsSpan(8));
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(chunk.Length - 4), Crc(chunk.AsSpan(4, content.Length + 4)));
        return chunk;
    }

    private static (int Width, int Height) Size(ReadOnlySpan<byte> header)
    {
        if (header.Length != 13)
        {
            throw new NotAPhotoException();
        }

        var (width, height) = (BinaryPrimitives.ReadInt32BigEndian(header), BinaryPrimitives.ReadInt32BigEndian(header[4..]));
        return width > 0 && height > 0 ? (width, height) : throw new NotAPhotoException();
    }

    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var crc = 0xFFFFFFFF;
        foreach (var b in bytes)
        {
            crc = Table[(byte)(crc ^ b)] ^ (crc >> 8);
        }

        return ~crc;
    }
}
