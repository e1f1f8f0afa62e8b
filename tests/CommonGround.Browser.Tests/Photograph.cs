using System.Buffers.Binary;
using System.Text;

namespace CommonGround.Browser.Tests;

/// <summary>A photo as a camera writes it: a small JPEG with the day it was taken (July 3, 2026) and a place in its Exif part.</summary>
internal static class Photograph
{
    private const string Plain =
        "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABsSFBcUERsXFhceHBsgKEIrKCUlKFE6PTBCYFVlZF9VXVtqeJmBanGQc1tdhbWGkJ6jq62rZ4C8ybqmx5moq6T/2wBDARweHigjKE4rK06kbl1upKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKT/wAARCAAMABADASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAAEF/8QAGRAAAQUAAAAAAAAAAAAAAAAAAAITFFFh/8QAFQEBAQAAAAAAAAAAAAAAAAAAAgX/xAAWEQADAAAAAAAAAAAAAAAAAAAAARP/2gAMAwEAAhEDEQA/AJDwQ8NtpFBpFES7DFH/2Q==";

    public static byte[] WithPlaceAndDay
    {
        get
        {
            var jpeg = Convert.FromBase64String(Plain);
            var exif = Exif();
            byte[] head = [0xFF, 0xE1, 0, 0];
            BinaryPrimitives.WriteUInt16BigEndian(head.AsSpan(2), (ushort)(exif.Length + 2));
            return [.. jpeg[..2], .. head, .. exif, .. jpeg[2..]];
        }
    }

    /// <summary>CIPA DC-008 (Exif 2.32): one directory that points to the Exif directory (0x8769) and the GPS directory (0x8825).</summary>
    private static byte[] Exif()
    {
        var tiff = new byte[128];
        "II*\0"u8.CopyTo(tiff);
        BinaryPrimitives.WriteInt32LittleEndian(tiff.AsSpan(4), 8);
        BinaryPrimitives.WriteInt16LittleEndian(tiff.AsSpan(8), 2);
        Entry(tiff, 10, 0x8769, 4, 1, 38);
        Entry(tiff, 22, 0x8825, 4, 1, 76);
        BinaryPrimitives.WriteInt16LittleEndian(tiff.AsSpan(38), 1);
        Entry(tiff, 40, 0x9003, 2, 20, 56);
        Encoding.ASCII.GetBytes("2026:07:03 10:11:12\0").CopyTo(tiff, 56);
        BinaryPrimitives.WriteInt16LittleEndian(tiff.AsSpan(76), 1);
        Entry(tiff, 78, 1, 2, 2, 0x4E);
        return [.. "Exif\0\0"u8, .. tiff];
    }

    private static void Entry(byte[] tiff, int at, int tag, short type, int count, int value)
    {
        BinaryPrimitives.WriteUInt16LittleEndian(tiff.AsSpan(at), (ushort)tag);
        BinaryPrimitives.WriteInt16LittleEndian(tiff.AsSpan(at + 2), type);
        BinaryPrimitives.WriteInt32LittleEndian(tiff.AsSpan(at + 4), count);
        BinaryPrimitives.WriteInt32LittleEndian(tiff.AsSpan(at + 8), value);
    }
}
