using System.Text.Json;

namespace CommonGround.Interchange.GeoJson;

/// <summary>Reads streets.geojson: a FeatureCollection of lines or outlines, one for each block (RFC 7946).</summary>
internal sealed class BlockShapeReader
{
    private readonly FileText file;
    private readonly List<BlockShape> blocks = [];
    private readonly Dictionary<(string, string), int> seen = [];
    private int feature;

    private BlockShapeReader(FileText file) => this.file = file;

    public static ImportFile Read(FileText file)
    {
        var reader = new BlockShapeReader(file);
        try
        {
            using var document = JsonDocument.Parse(file.Text!);
            reader.ReadCollection(document.RootElement);
        }
        catch (JsonException wrong)
        {
            // The file is not JSON; the parser knows the line.
            file.Errors.Add(new ImportError(file.Name, (int)(wrong.LineNumber ?? 0) + 1, "", "",
                "The file is not valid JSON from here on.", "Save it again from the map program as GeoJSON."));
        }
        catch (InvalidOperationException)
        {
            // A text holds half of a surrogate pair (RFC 8259, section 8.2): JsonElement refuses to decode it.
            reader.Refuse("", "", "A text in this feature holds a broken character.", "Write the name again.");
        }
        return new ImportFile { FileName = file.Name, Kind = ImportKind.Streets, Blocks = reader.blocks, Errors = file.Errors };
    }

    private void Refuse(string column, string value, string what, string howToCorrect) =>
        file.Errors.Add(new ImportError(file.Name, feature, column, ImportError.Shown(value), what, howToCorrect));

    private void ReadCollection(JsonElement root)
    {
        var type = TextOf(root, "type");
        if (type != "FeatureCollection" || !TryGet(root, "features", JsonValueKind.Array, out var features))
        {
            Refuse("type", type, "The file is no FeatureCollection with a list of features.",
                "Save the blocks as a GeoJSON FeatureCollection.");
            return;
        }
        if (TryGet(root, "crs", JsonValueKind.Object, out var crs) && !IsWgs84(crs))
        {
            Refuse("crs", crs.GetRawText(), "The file names another coordinate system.",
                "Save it in WGS 84 (EPSG:4326), longitude before latitude, as RFC 7946 wants.");
            return;
        }
        foreach (var element in features.EnumerateArray())
        {
            feature++;
            ReadFeature(element);
        }
    }

    private void ReadFeature(JsonElement element)
    {
        var errorsBefore = file.Errors.Count;
        if (TextOf(element, "type") != "Feature")
        {
            Refuse("type", TextOf(element, "type"), "This is not a Feature.", "Every entry of the list must have type Feature.");
            return;
        }
        var hasProperties = TryGet(element, "properties", JsonValueKind.Object, out var properties);
        // A map that was taken out here holds yards as points beside its blocks; they come back with places.csv.
        if (hasProperties && TextOf(properties, "kind") == "yard") return;
        var (street, block) = (hasProperties ? Name(properties, "street") : "", hasProperties ? Name(properties, "block") : "");
        if (!hasProperties) Refuse("properties", "", "The feature has no properties.", "Give it the properties street and block.");
        var shape = ReadGeometry(element);
        if (street.Length > 0 && block.Length > 0 && !seen.TryAdd((street.ToUpperInvariant(), block.ToUpperInvariant()), feature))
            Refuse("block", block, $"The block is already feature {seen[(street.ToUpperInvariant(), block.ToUpperInvariant())]}.",
                "Keep one of the two; a block is one line or one outline.");
        if (shape is not null && file.Errors.Count == errorsBefore) blocks.Add(new BlockShape(feature, street, block, shape));
    }

    private string Name(JsonElement properties, string property)
    {
        const int LongestName = 100;
        var name = TextOf(properties, property).Trim();
        if (name.Length == 0)
            Refuse(property,
                "", $"The property {property} is missing or is not a text.", $"Write the {property}'s name between quote marks.");
        else if (name.Length > LongestName)
            Refuse(property, name, $"The name has {name.Length} characters.", $"Shorten it to {LongestName}.");
        return name;
    }

    private GeoShape? ReadGeometry(JsonElement element)
    {
        if (!TryGet(element, "geometry", JsonValueKind.Object, out var geometry))
        {
            Refuse("geometry", "", "The feature has no geometry.", "Draw the block as a line or an outline, or take the feature out.");
            return null;
        }
        var type = TextOf(geometry, "type");
        if (type is not ("LineString" or "Polygon"))
        {
            Refuse("geometry", type, "The geometry is neither LineString nor Polygon.", type.StartsWith("Multi", StringComparison.Ordinal)
                ? "Split it: one feature for each block." : "Draw the block as a line or an outline.");
            return null;
        }
        if (!TryGet(geometry, "coordinates", JsonValueKind.Array, out var coordinates))
        {
            Refuse("coordinates", "", "The geometry has no coordinates.", "Draw the block again.");
            return null;
        }
        return type == "LineString" ? ReadLine(coordinates) : ReadPolygon(coordinates);
    }

    private GeoShape? ReadLine(JsonElement coordinates)
    {
        if (ReadPositions(coordinates) is not { } line) return null;
        if (line.Count >= 2 && line.Exists(p => p != line[0])) return GeoShape.Line(line);
        Refuse("coordinates", "", "A line needs two different positions.", "Draw the block from crossing to crossing.");
        return null;
    }

    private GeoShape? ReadPolygon(JsonElement coordinates)
    {
        const int FewestPositions = 4;
        var rings = new List<IReadOnlyList<GeoPoint>>();
        foreach (var element in coordinates.EnumerateArray())
        {
            if (ReadPositions(element) is not { } ring) return null;
            if (ring.Count < FewestPositions || ring[0] != ring[^1])
            {
                Refuse("coordinates", "", "An outline must have four or more positions and end where it begins.",
                    "Close the outline by repeating its first position.");
                return null;
            }
            rings.Add(ring);
        }
        if (rings.Count == 0)
        {
            Refuse("coordinates", "", "The polygon has no outline.", "Draw the block again.");
            return null;
        }
        if (Outline.FaultOf(rings) is not { } fault) return GeoShape.Polygon(rings);
        Refuse("coordinates", fault.Place, fault.What, fault.HowToCorrect);
        return null;
    }

    private List<GeoPoint>? ReadPositions(JsonElement list)
    {
        var points = new List<GeoPoint>();
        if (list.ValueKind != JsonValueKind.Array)
        {
            Refuse("coordinates", list.GetRawText(), "Here must stand a list of positions.",
                "Check that type and coordinates belong together.");
            return null;
        }
        foreach (var element in list.EnumerateArray())
        {
            if (ReadPosition(element) is not { } point) return null;
            points.Add(point);
        }
        return points;
    }

    private GeoPoint? ReadPosition(JsonElement position)
    {
        if (position.ValueKind != JsonValueKind.Array || position.GetArrayLength() < 2 || !TryNumber(position[0], out var longitude)
            || !TryNumber(position[1], out var latitude))
        {
            Refuse("coordinates", position.GetRawText(), "A position is a longitude and a latitude, both numbers.",
                "Check that type and coordinates belong together.");
            return null;
        }
        if (!GeoPoints.InRange(latitude, longitude))
        {
            Refuse("coordinates", position.GetRawText(), "The position is not on the earth.", GeoPoints.InRange(longitude, latitude)
                ? "Longitude and latitude look swapped: write the longitude first."
                : "Write degrees of WGS 84: longitude -180 to 180, then latitude -90 to 90.");
            return null;
        }
        if (latitude < 0)
        {
            Refuse("coordinates", position.GetRawText(), GeoPoints.South, GeoPoints.MendSouth);
            return null;
        }
        if (!GeoPoints.LooksSwapped(latitude, longitude)) return new GeoPoint(latitude, longitude);
        Refuse("coordinates", position.GetRawText(), "Longitude and latitude look swapped: this lies near a pole.",
            "Write the longitude first.");
        return null;
    }

    private static bool TryNumber(JsonElement element, out double value)
    {
        value = 0;
        return element.ValueKind == JsonValueKind.Number && element.TryGetDouble(out value) && double.IsFinite(value);
    }

    private static bool IsWgs84(JsonElement crs) => crs.GetRawText() is var text
        && (text.Contains("CRS84", StringComparison.OrdinalIgnoreCase) || text.Contains("4326", StringComparison.Ordinal));

    private static bool TryGet(JsonElement element, string name, JsonValueKind kind, out JsonElement value)
    {
        value = default;
        return element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out value) && value.ValueKind == kind;
    }

    private static string TextOf(JsonElement element, string name) => TryGet(element, name, JsonValueKind.String, out var value)
        ? value.GetString() ?? "" : "";
}
