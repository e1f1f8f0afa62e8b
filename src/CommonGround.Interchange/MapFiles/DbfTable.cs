using System.Buffers.Binary;
using System.Text;

namespace CommonGround.Interchange.MapFiles;

/// <summary>The rows of a .dbf file (dBASE III), one for each shape. Nothing the file says of its own lengths is believed beyond its
/// end.</summary>
internal sealed class DbfTable
{
    private const int FixedHeader = 32, FieldHeader = 32;
    private readonly byte[] file;
    private readonly Encoding encoding;
    private readonly int header, row;
    private readonly List<(string Name, int At, int Length)> fields = [];

    public DbfTable(byte[] file, Encoding encoding)
    {
        (this.file, this.encoding) = (file, encoding);
        if (file.Length < FixedHeader)
        {
            throw Damaged();
        }

        (header, row) = (BinaryPrimitives.ReadUInt16LittleEndian(file.AsSpan(8)), BinaryPrimitives.ReadUInt16LittleEndian(file.AsSpan(10)));
        // The first byte of a row says whether it is deleted.
        var at = 1;
        for (var i = FixedHeader; i + FieldHeader <= Math.Min(header, file.Length) && file[i] != 0x0D; i += FieldHeader)
        {
            var name = encoding.GetString(file, i, 11).Split('\0')[0].Trim();
            fields.Add((name, at, file[i + 16]));
            at += file[i + 16];
        }

        if (fields.Count == 0 || at > row)
        {
            throw Damaged();
        }
    }

    public IReadOnlyList<string> Columns => [.. fields.Select(f => f.Name)];

    public IEnumerable<IReadOnlyList<object?>> Rows
    {
        get
        {
            for (var at = (long)header; at + row <= file.Length; at += row)
            {
                yield return [.. fields.Select(f => (object?)encoding.GetString(file, (int)at + f.At, f.Length).Trim())];
            }
        }
    }

    private static MapFileException Damaged() => new("The .dbf part of the shapefile is damaged.", "Fetch the file again.");
}
