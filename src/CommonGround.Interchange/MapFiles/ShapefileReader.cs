using System.IO.Compression;
using System.Text;

namespace CommonGround.Interchange.MapFiles;

/// <summary>Reads the shapefiles of a zip file: each .shp with the .dbf and .prj of the same name.</summary>
internal static class ShapefileReader
{
    /// <summary>What a zip file may grow to when it is unpacked.</summary>
    private const long LargestPart = 256L << 20;

    public static IReadOnlyList<MapLayer> ReadZip(byte[] content)
    {
        try
        {
            using var zip = new ZipArchive(new MemoryStream(content), ZipArchiveMode.Read);
            var shapes = zip.Entries.Where(e => e.Name.EndsWith(".shp", StringComparison.OrdinalIgnoreCase)).ToList();
            return shapes.Count == 0
                ? throw new MapFileException("There is no shapefile (.shp) in this zip file.", "Choose the zip file with the streets.")
                : [.. shapes.Select(s => Read(zip, s))];
        }
        catch (InvalidDataException wrong)
        {
            throw new MapFileException("This zip file is damaged.", "Fetch it again.", wrong);
        }
    }

    private static MapLayer Read(ZipArchive zip, ZipArchiveEntry shape)
    {
        var name = Path.GetFileNameWithoutExtension(shape.Name);
        var dbf = Part(zip, shape, ".dbf") ?? throw new MapFileException($"{name}.dbf is missing: it holds the names.",
            "Put every part of the shapefile into the zip file.");
        var table = new DbfTable(Unpacked(dbf), EncodingOf(Text(Part(zip, shape, ".cpg"))));
        var gathered = new MapFeatures(name, table.Columns, Text(Part(zip, shape, ".prj")));
        foreach (var (shapes, row) in ShapeRecords.Read(Unpacked(shape)).Zip(table.Rows))
        {
            gathered.Add(shapes, row);
        }

        return gathered.Layer;
    }

    private static ZipArchiveEntry? Part(ZipArchive zip, ZipArchiveEntry shape, string ending) => zip.Entries.FirstOrDefault(e =>
        e.FullName.Equals(shape.FullName[..^4] + ending, StringComparison.OrdinalIgnoreCase));

    private static byte[] Unpacked(ZipArchiveEntry entry)
    {
        using var packed = entry.Open();
        using var copy = new MemoryStream();
        var block = new byte[81_920];
        // What the zip file says of itself is not believed: it is counted while it is unpacked.
        for (int read; (read = packed.Read(block)) > 0;)
        {
            copy.Write(block, 0, read);
            if (copy.Length > LargestPart)
            {
                throw new MapFileException($"{entry.Name} is larger than {LargestPart >> 20} MB.",
                    "Cut out the part around your neighbourhood in a map program and save that.");
            }
        }

        return copy.ToArray();
    }

    private static string Text(ZipArchiveEntry? entry)
    {
        return entry is null ? "" : Encoding.UTF8.GetString(Unpacked(entry)).Trim();
    }

    private static Encoding EncodingOf(string codePage) => codePage.Contains("UTF", StringComparison.OrdinalIgnoreCase) ? Encoding.UTF8
        : Encoding.Latin1;
}
