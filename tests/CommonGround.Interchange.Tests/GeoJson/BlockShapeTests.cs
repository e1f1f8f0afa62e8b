using CommonGround.Interchange.GeoJson;

namespace CommonGround.Interchange.Tests.GeoJson;

/// <summary>Reading streets.geojson against RFC 7946 (Butler et al., 2016); coordinates in the first tests are those of its Appendix
/// A.</summary>
public class BlockShapeTests
{
    private static ImportFile Read(string geometry, string properties = """{"street":"Kiln Street","block":"A"}""") =>
        TestFiles.Read($$"""{"type":"FeatureCollection","features":[{"type":"Feature","properties":{{properties}},"geometry":{{geometry}}}]}""", "streets.geojson");

    [Fact]
    public void The_line_of_appendix_a2_is_read_longitude_first()
    {
        var block = Read("""{"type":"LineString","coordinates":[[100.0,0.0],[101.0,1.0]]}""").Blocks.ShouldHaveSingleItem();
        block.Shape.Parts[0].ShouldBe([new GeoPoint(0, 100), new GeoPoint(1, 101)]);
        (block.Street, block.Block, block.Line).ShouldBe(("Kiln Street", "A", 1));
    }

    [Fact]
    public void The_polygon_with_a_hole_of_appendix_a3_is_read_with_its_hole()
    {
        var block = Read(
            """{"type":"Polygon","coordinates":[[[100.0,0.0],[101.0,0.0],[101.0,1.0],[100.0,1.0],[100.0,0.0]],[[100.8,0.8],[100.8,0.2],[100.2,0.2],[100.2,0.8],[100.8,0.8]]]}""").Blocks.ShouldHaveSingleItem();
        (block.Shape.Kind, block.Shape.Parts.Count).ShouldBe((GeoKind.Polygon, 2));
    }

    [Fact]
    public void Either_winding_and_an_altitude_are_accepted_as_sections_3_1_6_and_3_1_1_ask() =>
        Read("""{"type":"Polygon","coordinates":[[[100,0,7],[100,1,7],[101,1,7],[101,0,7],[100,0,7]]]}""").Errors.ShouldBeEmpty();

    [Theory]
    [InlineData("null", "geometry")]
    [InlineData("""{"type":"Point","coordinates":[100,0]}""", "geometry")]
    [InlineData("""{"type":"MultiLineString","coordinates":[[[100,0],[101,1]]]}""", "geometry")]
    [InlineData("""{"type":"GeometryCollection","geometries":[]}""", "geometry")]
    [InlineData("""{"type":"LineString"}""", "coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[]}""", "coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[[100,0]]}""", "coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[[100,0],[100,0]]}""", "coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[[100,0],[101]]}""", "coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[[100,0],["101","1"]]}""", "coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[[100,0],null]}""", "coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[[100,0],[1e999,1]]}""", "coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[[100,0],[181,1]]}""", "coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[[41.9,-88.3],[41.9,-88.4]]}""", "coordinates")]
    [InlineData("""{"type":"LineString","coordinates":[[41.9,-98.3],[41.9,-98.4]]}""", "coordinates")]
    [InlineData("""{"type":"Polygon","coordinates":[]}""", "coordinates")]
    [InlineData("""{"type":"Polygon","coordinates":[[100,0],[101,1]]}""", "coordinates")]
    [InlineData("""{"type":"Polygon","coordinates":[[[100,0],[101,0],[101,1],[100,1]]]}""", "coordinates")]
    [InlineData("""{"type":"Polygon","coordinates":[[[100,0],[101,0],[100,0]]]}""", "coordinates")]
    public void A_geometry_that_is_no_block_is_refused(string geometry, string column)
    {
        var error = Read(geometry).OnlyError();
        (error.Line, error.Column).ShouldBe((1, column));
    }

    [Theory]
    [InlineData("""{"street":"Kiln Street"}""", "block")]
    [InlineData("""{"street":"Kiln Street","block":7}""", "block")]
    [InlineData("""{"street":" ","block":"A"}""", "street")]
    [InlineData("null", "properties")]
    public void A_block_without_its_names_is_refused(string properties, string column) =>
        Read("""{"type":"LineString","coordinates":[[100,0],[101,1]]}""", properties).OnlyError().Column.ShouldBe(column);

    [Theory]
    [InlineData("{")]
    [InlineData("[]")]
    [InlineData("{\"type\":\"FeatureCollection\"}")]
    [InlineData("{\"type\":\"FeatureCollection\",\"features\":{}}")]
    [InlineData("{\"type\":\"FeatureCollection\",\"features\":[7]}")]
    [InlineData("{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Point\"}]}")]
    [InlineData("{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":{\"street\":\"\\ud800\",\"block\":\"A\"},\"geometry\":null}]}")]
    [InlineData("{\"type\":\"FeatureCollection\",\"crs\":{\"type\":\"name\",\"properties\":{\"name\":\"EPSG:3857\"}},\"features\":[]}")]
    public void A_file_that_is_no_feature_collection_is_refused(string text) =>
    TestFiles.Read(text, "streets.geojson").Errors.Count.ShouldBe(1);

    [Fact]
    public void Broken_json_is_found_on_its_line() => TestFiles.Read("{\"type\":\n\"FeatureCollection\",\n\"features\":[,]}")
    .OnlyError().Line.ShouldBe(3);

    [Fact]
    public void The_same_block_twice_is_refused_but_another_street_may_have_one_of_that_name()
    {
        const string Line = "\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[100,0],[101,1]]}}";
        string Feature(string street) => "{\"type\":\"Feature\",\"properties\":{\"street\":\"" + street + "\",\"block\":\"A\"}," + Line;
        string Collection(params string[] streets) => "{\"type\":\"FeatureCollection\",\"features\":[" + string.Join(',',
            streets.Select(Feature)) + "]}";
        TestFiles.Read(Collection("Kiln Street", "Lathe Street")).Errors.ShouldBeEmpty();
        TestFiles.Read(Collection("Kiln Street", "kiln street")).OnlyError().Line.ShouldBe(2);
    }

    [Fact]
    public void An_empty_collection_is_fine() => TestFiles.Read("{\"type\":\"FeatureCollection\",\"features\":[]}")
    .ShouldSatisfyAllConditions(
        f => f.Kind.ShouldBe(ImportKind.Streets), f => f.Errors.ShouldBeEmpty(), f => f.RowCount.ShouldBe(0));
}
