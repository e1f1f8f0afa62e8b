using System.Text.Json;
using NetTopologySuite.Geometries;

namespace CommonGround.Interchange.MapFiles;

/// <summary>Reads GeoJSON as towns write it: any properties, any coordinates, the coordinate system of the older custom (GeoJSON 2008,
/// section 3) where one is named.</summary>
internal static class LooseGeoJson
{
    private static readonly GeometryFactory Plane = new();

    public static IReadOnlyList<MapLayer> Read(string name, byte[] content)
    {
        var file = new FileText(name, content);
        if (file.Text is null || !file.LooksLikeJson)
        {
            throw new MapFileException("This is no GeoJSON, shapefile or GeoPackage.",
                "Save the streets as GeoJSON, as a shapefile in a zip file, or as GeoPackage (.gpkg).");
        }

        try
        {
            using var document = JsonDocument.Parse(file.Text);
            return [Read(name, document.RootElement)];
        }
        catch (JsonException wrong)
        {
            throw new MapFileException($"The file is not valid JSON from line {(wrong.LineNumber ?? 0) + 1} on.",
                "Save it again from the map program as GeoJSON.", wrong);
        }
        catch (InvalidOperationException wrong)
        {
            throw new MapFileException("A text in the file holds a broken character, or a value is not what GeoJSON wants there.",
                "Save it again from the map program as GeoJSON.", wrong);
        }
    }

    private static MapLayer Read(string name, JsonElement root)
    {
        if (root.ValueKind != JsonValueKind.Object || !root.TryGetProperty("features", out var features)
            || features.ValueKind != JsonValueKind.Array)
        {
            throw new MapFileException("The file is no FeatureCollection with a list of features.",
                "Save the streets as a GeoJSON FeatureCollection.");
        }

        var elements = features.EnumerateArray().Where(f => f.ValueKind == JsonValueKind.Object).ToList();
        var columns = elements.SelectMany(Properties).Select(p => p.Name).Distinct(StringComparer.Ordinal).ToList();
        var gathered = new MapFeatures(name, columns, SystemOf(root));
        foreach (var element in elements)
        {
            var values = Properties(element).DistinctBy(p => p.Name, StringComparer.Ordinal).ToDictionary(p => p.Name, p => p.Value,
                StringComparer.Ordinal);
            gathered.Add(element.TryGetProperty("geometry", out var shape) ? ShapeOf(shape) : null,
                [.. columns.Select(c => values.TryGetValue(c, out var value) ? Value(value) : null)]);
        }

        return gathered.Layer;
    }

    private static IEnumerable<JsonProperty> Properties(JsonElement feature) =>
        feature.TryGetProperty("properties", out var properties) && properties.ValueKind == JsonValueKind.Object
            ? properties.EnumerateObject() : Enumerable.Empty<JsonProperty>();

    private static string? Value(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.String => value.GetString(),
        JsonValueKind.Number or JsonValueKind.True or JsonValueKind.False => value.GetRawText(),
        _ => null,
    };

    private static string SystemOf(JsonElement root) => root.TryGetProperty("crs", out var crs) && crs.ValueKind == JsonValueKind.Object
        && crs.TryGetProperty("properties", out var properties) && properties.ValueKind == JsonValueKind.Object
        && properties.TryGetProperty("name", out var name) && name.ValueKind == JsonValueKind.String ? name.GetString() ?? "" : "";

    private static Geometry? ShapeOf(JsonElement shape)
    {
        if (shape.ValueKind != JsonValueKind.Object || !shape.TryGetProperty("type", out var type))
        {
            return null;
        }

        if (type.ValueEquals("GeometryCollection"))
        {
            return shape.TryGetProperty("geometries", out var parts) && parts.ValueKind == JsonValueKind.Array
                ? Plane.CreateGeometryCollection([.. parts.EnumerateArray().Select(ShapeOf).OfType<Geometry>()]) : null;
        }

        if (!shape.TryGetProperty("coordinates", out var at) || at.ValueKind != JsonValueKind.Array)
        {
            return null;
        }

        return type.GetString() switch
        {
            "LineString" => Line(at),
            "MultiLineString" => Plane.CreateMultiLineString([.. at.EnumerateArray().Select(Line).OfType<LineString>()]),
            "Polygon" => Outline(at),
            "MultiPolygon" => Plane.CreateMultiPolygon([.. at.EnumerateArray().Select(Outline).OfType<Polygon>()]),
            _ => null,
        };
    }

    private static LineString? Line(JsonElement at) => Positions(at) is { Length: >= 2 } points ? Plane.CreateLineString(points) : null;

    private static Polygon? Outline(JsonElement rings) => rings.ValueKind == JsonValueKind.Array && rings.GetArrayLength() > 0
        && Positions(rings[0]) is { Length: >= 4 } points && points[0].Equals2D(points[^1]) ? Plane.CreatePolygon(points) : null;

    private static Coordinate[] Positions(JsonElement at) => at.ValueKind != JsonValueKind.Array ? []
        : [.. at.EnumerateArray().Where(p => p.ValueKind == JsonValueKind.Array && p.GetArrayLength() >= 2
            && p[0].ValueKind == JsonValueKind.Number && p[1].ValueKind == JsonValueKind.Number)
            .Select(p => new Coordinate(p[0].GetDouble(), p[1].GetDouble()))];
}
