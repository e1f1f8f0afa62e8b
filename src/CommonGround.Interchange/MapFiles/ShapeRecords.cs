using System.Buffers.Binary;
using NetTopologySuite.Geometries;

namespace CommonGround.Interchange.MapFiles;

/// <summary>The lines and outlines of a .shp file (ESRI Shapefile Technical Description, July 1998). Nothing the file says of its own
/// lengths is believed beyond its end.</summary>
internal static class ShapeRecords
{
    private const int Header = 100, RecordHeader = 8, Fixed = 44;
    private static readonly GeometryFactory Plane = new();

    /// <summary>One for each record, in order; null for a point, an empty shape or one that is damaged.</summary>
    public static IEnumerable<Geometry?> Read(byte[] file)
    {
        for (var at = Header; at + RecordHeader <= file.Length;)
        {
            // Lengths are counted in words of two bytes, the higher byte first; everything else has the lower byte first.
            var length = 2L * BinaryPrimitives.ReadInt32BigEndian(file.AsSpan(at + 4));
            at += RecordHeader;
            if (length < 4 || at + length > file.Length)
            {
                yield break;
            }

            yield return Shape(file.AsSpan(at, (int)length));
            at += (int)length;
        }
    }

    private static GeometryCollection? Shape(ReadOnlySpan<byte> record)
    {
        // 3, 13, 23: lines, with heights, with measures; 5, 15, 25: outlines likewise.
        var kind = BinaryPrimitives.ReadInt32LittleEndian(record);
        if (kind is not (3 or 5 or 13 or 15 or 23 or 25) || record.Length < Fixed)
        {
            return null;
        }

        var (parts, points) = (BinaryPrimitives.ReadInt32LittleEndian(record[36..]), BinaryPrimitives.ReadInt32LittleEndian(record[40..]));
        if (parts <= 0 || points <= 0 || Fixed + (4L * parts) + (16L * points) > record.Length)
        {
            return null;
        }

        var begins = new int[parts + 1];
        for (var i = 0; i < parts; i++)
        {
            begins[i] = BinaryPrimitives.ReadInt32LittleEndian(record[(Fixed + (4 * i))..]);
        }

        begins[parts] = points;
        var shapes = new List<Geometry>();
        for (var i = 0; i < parts; i++)
        {
            if (begins[i] < 0 || begins[i + 1] <= begins[i] || begins[i + 1] > points)
            {
                return null;
            }

            var way = new Coordinate[begins[i + 1] - begins[i]];
            for (var p = 0; p < way.Length; p++)
            {
                var place = record[(Fixed + (4 * parts) + (16 * (begins[i] + p)))..];
                way[p] = new Coordinate(BinaryPrimitives.ReadDoubleLittleEndian(place),
                    BinaryPrimitives.ReadDoubleLittleEndian(place[8..]));
            }

            var isRing = kind % 10 == 5;
            // Holes run the other way round than outlines, against the clock.
            if (isRing && way.Length >= 4 && way[0].Equals2D(way[^1]) && !NetTopologySuite.Algorithm.Orientation.IsCCW(way))
            {
                shapes.Add(Plane.CreatePolygon(way));
            }
            else if (!isRing && way.Length >= 2)
            {
                shapes.Add(Plane.CreateLineString(way));
            }
        }

        return Plane.CreateGeometryCollection([.. shapes]);
    }
}
