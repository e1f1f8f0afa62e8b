using System.Buffers.Binary;

namespace CommonGround.Interchange.Photos;

/// <summary>Which way up a picture is: the one thing that is kept of EXIF (CIPA DC-008, tag 274 in the first directory of a TIFF block).</summary>
internal static class Orientation
{
    private const int Tag = 0x0112, Entry = 12, Upright = 1;

    /// <summary>2 to 8 where the picture must be turned or mirrored; null where it stands upright or nothing readable says so.</summary>
    public static int? Find(ReadOnlySpan<byte> tiff)
    {
        var little = tiff is [(byte)'I', (byte)'I', 42, 0, ..];
        if (tiff.Length < 8 || (!little && tiff is not [(byte)'M', (byte)'M', 0, 42, ..]))
        {
            return null;
        }

        var directory = Number(tiff[4..], little);
        if (directory + 2 > tiff.Length)
        {
            return null;
        }

        var entries = Short(tiff[(int)directory..], little);
        for (var (i, at) = (0, (int)directory + 2); i < entries && at + Entry <= tiff.Length; i++, at += Entry)
        {
            if (Short(tiff[at..], little) == Tag)
            {
                var turned = Short(tiff[(at + 8)..], little);
                return turned is > Upright and <= 8 ? turned : null;
            }
        }

        return null;
    }

    /// <summary>A TIFF block that says this and nothing else.</summary>
    public static byte[] Block(int orientation) =>
        [(byte)'M', (byte)'M', 0, 42, 0, 0, 0, 8, 0, 1, Tag >> 8, Tag & 0xFF, 0, 3, 0, 0, 0, 1, 0, (byte)orientation, 0, 0, 0, 0, 0, 0];

    private static int Short(ReadOnlySpan<byte> at, bool little) => little ? BinaryPrimitives.ReadUInt16LittleEndian(at) : BinaryPrimitives.ReadUInt16BigEndian(at);

    private static long Number(ReadOnlySpan<byte> at, bool little) => little ? BinaryPrimitives.ReadUInt32LittleEndian(at) : BinaryPrimitives.ReadUInt32BigEndian(at);
}
