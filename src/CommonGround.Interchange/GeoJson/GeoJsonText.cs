using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace CommonGround.Interchange.GeoJson;

/// <summary>One feature to write.</summary>
/// <param name="Shape">Null writes a feature without a place.</param>
/// <param name="Properties">Name → text, number, yes/no, day or null, written in this order.</param>
public sealed record GeoFeature(GeoShape? Shape, IReadOnlyList<KeyValuePair<string, object?>> Properties);

/// <summary>Writes GeoJSON by RFC 7946: WGS 84, longitude first, outlines counter-clockwise, holes clockwise, seven decimals (about 1
/// cm).</summary>
public static class GeoJsonText
{
    private const int Decimals = 7;

    /// <summary>A FeatureCollection, one feature a line.</summary>
    /// <param name="features">Written in this order.</param>
    /// <param name="note">What the reader must know, such as how positions were coarsened; left out when null.</param>
    public static string Write(IEnumerable<GeoFeature> features, string? note = null)
    {
        ArgumentNullException.ThrowIfNull(features);
        var text = new StringBuilder("{\"type\":\"FeatureCollection\",");
        if (note is not null) text.Append("\"note\":").Append(JsonSerializer.Serialize(note, NoteOptions)).Append(',');
        text.Append("\"features\":[\n").AppendJoin(",\n", features.Select(WriteFeature)).Append("\n]}\n");
        return text.ToString();
    }

    /// <summary>Block shapes as streets.geojson, ready to be read again.</summary>
    public static string Write(IEnumerable<BlockShape> blocks) =>
        Write(blocks.Select(b => new GeoFeature(b.Shape, [new("street", b.Street), new("block", b.Block)])));

    /// <summary>The geometry alone, every position to its last digit, as it is stored.</summary>
    public static string Geometry(GeoShape shape)
    {
        ArgumentNullException.ThrowIfNull(shape);
        var parts = shape.Parts.Select(p => "[" + string.Join(',',
            p.Select(x => FormattableString.Invariant($"[{x.Longitude:R},{x.Latitude:R}]"))) + "]").ToList();
        return $"{{\"type\":\"{shape.Kind}\",\"coordinates\":"
            + (shape.Kind == GeoKind.LineString ? parts[0] : $"[{string.Join(',', parts)}]") + "}";
    }

    private static readonly JsonSerializerOptions NoteOptions = new(
        )
    { Encoder = JavaScriptEncoder.Create(System.Text.Unicode.UnicodeRanges.All) };

    private static string WriteFeature(GeoFeature feature)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, new JsonWriterOptions { Encoder = NoteOptions.Encoder }))
        {
            json.WriteStartObject();
            json.WriteString("type", "Feature");
            json.WriteStartObject("properties");
            foreach (var (name, value) in feature.Properties) WriteProperty(json, name, value);
            json.WriteEndObject();
            if (feature.Shape is { } shape) WriteShape(json, shape);
            else json.WriteNull("geometry");
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private static void WriteProperty(Utf8JsonWriter json, string name, object? value)
    {
        switch (value)
        {
            case null: json.WriteNull(name); break;
            case bool yes: json.WriteBoolean(name, yes); break;
            case int whole: json.WriteNumber(name, whole); break;
            case long whole: json.WriteNumber(name, whole); break;
            case double number when double.IsFinite(number): json.WriteNumber(name, number); break;
            case double: json.WriteNull(name); break;
            case DateOnly day: json.WriteString(name, Csv.CsvText.Day(day)); break;
            case string text: json.WriteString(name, text); break;
            default: throw new ArgumentException($"A property cannot hold a {value.GetType().Name}.", nameof(value));
        }
    }

    private static void WriteShape(Utf8JsonWriter json, GeoShape shape)
    {
        json.WriteStartObject("geometry");
        json.WriteString("type", shape.Kind.ToString());
        json.WritePropertyName("coordinates");
        if (shape.Kind == GeoKind.Point) WritePosition(json, shape.Parts[0][0]);
        else if (shape.Kind == GeoKind.LineString) WritePositions(json, shape.Parts[0]);
        else
        {
            json.WriteStartArray();
            for (var i = 0; i < shape.Parts.Count; i++) WritePositions(json, Wound(shape.Parts[i], counterClockwise: i == 0));
            json.WriteEndArray();
        }
        json.WriteEndObject();
    }

    /// <summary>The ring the way round that RFC 7946, section 3.1.6, asks for.</summary>
    private static IReadOnlyList<GeoPoint> Wound(IReadOnlyList<GeoPoint> ring, bool counterClockwise)
    {
        var twiceArea = 0.0;
        for (var i = 1; i < ring.Count; i++)
            twiceArea += (ring[i].Latitude + ring[i - 1].Latitude) * (ring[i - 1].Longitude - ring[i].Longitude);
        return twiceArea > 0 == counterClockwise ? ring : [.. ring.Reverse()];
    }

    private static void WritePositions(Utf8JsonWriter json, IReadOnlyList<GeoPoint> points)
    {
        json.WriteStartArray();
        foreach (var point in points) WritePosition(json, point);
        json.WriteEndArray();
    }

    private static void WritePosition(Utf8JsonWriter json, GeoPoint point)
    {
        json.WriteStartArray();
        json.WriteNumberValue(Math.Round(point.Longitude, Decimals));
        json.WriteNumberValue(Math.Round(point.Latitude, Decimals));
        json.WriteEndArray();
    }
}
