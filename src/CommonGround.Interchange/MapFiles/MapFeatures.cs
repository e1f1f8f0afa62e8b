using System.Globalization;
using NetTopologySuite.Geometries;

namespace CommonGround.Interchange.MapFiles;

/// <summary>Gathers the features of one layer.</summary>
internal sealed class MapFeatures(string name, IReadOnlyList<string> columns, string system)
{
    private const int LongestValue = 200, MostPoints = 20_000;
    private readonly List<MapFeature> features = [];
    private int number, leftOut;

    public MapLayer Layer => new(name, columns, features, leftOut, system);

    /// <param name="values">One for each column, as the file holds it.</param>
    public void Add(Geometry? shape, IReadOnlyList<object?> values)
    {
        number++;
        var texts = values.Select(Text).ToList();
        var before = features.Count;
        Take(shape, texts);
        leftOut += features.Count == before ? 1 : 0;
        if (features.Count > MapFile.MostFeatures)
        {
            throw new MapFileException($"The file holds more than {MapFile.MostFeatures:#,0} lines.",
                "Cut out the part around your neighbourhood in a map program and save that.");
        }
    }

    private void Take(Geometry? shape, List<string> values)
    {
        switch (shape)
        {
            case null or { IsEmpty: true }:
                break;
            case LineString line when line is not LinearRing:
                Take(line.Coordinates, closed: false, values);
                break;
            case Polygon outline:
                Take(outline.ExteriorRing.Coordinates, closed: true, values);
                break;
            case GeometryCollection parts:
                foreach (var part in parts.Geometries)
                {
                    Take(part, values);
                }

                break;
        }
    }

    private void Take(Coordinate[] points, bool closed, List<string> values)
    {
        if (points.Length < 2 || points.Length > MostPoints || !points.All(p => double.IsFinite(p.X) && double.IsFinite(p.Y)))
        {
            return;
        }

        features.Add(new MapFeature(number, closed, [.. points.Select(p => new MapPosition(p.X, p.Y))], values));
    }

    private static string Text(object? value)
    {
        var text = value switch
        {
            null or DBNull or byte[] => "",
            IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
            _ => value.ToString() ?? "",
        };
        text = string.Join(' ', text.Replace("\0", "", StringComparison.Ordinal)
            .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return text.Length <= LongestValue ? text : text[..LongestValue];
    }
}
