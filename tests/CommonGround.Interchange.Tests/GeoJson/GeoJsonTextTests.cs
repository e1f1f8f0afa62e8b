using System.Text.Json;
using CommonGround.Interchange.GeoJson;

namespace CommonGround.Interchange.Tests.GeoJson;

public class GeoJsonTextTests
{
    [Fact]
    public void A_point_is_written_as_in_appendix_a1_of_rfc_7946()
    {
        using var json = JsonDocument.Parse(GeoJsonText.Write([new GeoFeature(GeoShape.Point(new(0, 100)), [])]));
        JsonElement.DeepEquals(json.RootElement.GetProperty("features")[0].GetProperty("geometry"),
            JsonDocument.Parse("""{"type":"Point","coordinates":[100.0,0.0]}""").RootElement).ShouldBeTrue();
    }

    [Fact]
    public void Outlines_are_wound_counter_clockwise_and_holes_clockwise()
    {
        // The polygon of RFC 7946, Appendix A.3, given the wrong way round.
        GeoPoint[] outline = [new(0, 100), new(0, 101), new(1, 101), new(1, 100), new(0, 100)];
        GeoPoint[] hole = [new(0.8, 100.8), new(0.2, 100.8), new(0.2, 100.2), new(0.8, 100.2), new(0.8, 100.8)];
        GeoJsonText.Write([new GeoFeature(GeoShape.Polygon([[.. outline.Reverse()], [.. hole.Reverse()]]), [])])
            .ShouldContain("[[[100,0],[101,0],[101,1],[100,1],[100,0]],[[100.8,0.8],[100.8,0.2],[100.2,0.2],[100.2,0.8],[100.8,0.8]]]");
    }

    [Fact]
    public void Positions_have_seven_decimals_and_properties_keep_their_kind()
    {
        var text = GeoJsonText.Write([new GeoFeature(GeoShape.Point(new(41.123456789, -88.1)),
            [new("yard", "KI-01"), new("taxa", 12), new("share", 0.5), new("shared", true), new("last", new DateOnly(2026, 8, 18)),
                new("c", null), new("j", double.NaN)])], "Moved to block level – see the guide.");
        text.ShouldContain("""{"yard":"KI-01","taxa":12,"share":0.5,"shared":true,"last":"2026-08-18","c":null,"j":null}""");
        text.ShouldContain("[-88.1,41.1234568]");
        text.ShouldContain("\"note\":\"Moved to block level – see the guide.\"");
    }

    [Fact]
    public void A_feature_without_a_place_has_a_null_geometry() =>
        GeoJsonText.Write([new GeoFeature(null, [])]).ShouldContain("\"geometry\":null"); // RFC 7946, section 3.2

    [Fact]
    public void Blocks_written_are_read_again()
    {
        BlockShape[] blocks =
        [
            new(1, "Kiln Street", "Wheelwright to \"Sawyer\"", GeoShape.Line([new(41.9, -88.3), new(41.9, -88.31), new(41.91, -88.32)])),
            new(2, "Lathe Street", "é – A", GeoShape.Polygon([[new(0, 100), new(0, 101), new(1, 101), new(1, 100), new(0, 100)]])),
        ];
        var read = TestFiles.Read(GeoJsonText.Write(blocks), "streets.geojson");
        read.Errors.ShouldBeEmpty();
        read.Blocks.Select(b => (b.Line, b.Street, b.Block, b.Shape.Kind))
            .ShouldBe(blocks.Select(b => (b.Line, b.Street, b.Block, b.Shape.Kind)));
        read.Blocks.SelectMany(b => b.Shape.Parts).SelectMany(p => p).ShouldBe(blocks.SelectMany(b => b.Shape.Parts).SelectMany(p => p));
    }
}
