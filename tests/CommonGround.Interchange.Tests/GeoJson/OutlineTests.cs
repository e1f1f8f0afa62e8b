namespace CommonGround.Interchange.Tests.GeoJson;

/// <summary>
/// Outlines that enclose no plain area are refused with their feature and place. What is valid is OGC Simple Feature Access 06-103r4,
/// 6.1.11.1 (its figure 11 shows invalid polygons of these kinds); the crossings are worked out by hand.
/// </summary>
public class OutlineTests
{
    private static ImportFile Read(string polygon) => TestFiles.Read("""
        {"type":"FeatureCollection","features":[
        {"type":"Feature","properties":{"street":"Kiln Street","block":"A"},"geometry":{"type":"LineString","coordinates":[[-88.5,41.8],[-88.4,41.8]]}},
        {"type":"Feature","properties":{"street":"Kiln Street","block":"B"},"geometry":{"type":"Polygon","coordinates":POLYGON}}]}
        """.Replace("POLYGON", polygon, StringComparison.Ordinal), "streets.geojson");

    [Theory]
    [InlineData("[[[0,0],[1,1],[1,0],[0,1],[0,0]]]", "crosses or touches itself", "[0.5,0.5]")]
    [InlineData("[[[-88.5,41],[-88.4,41.2],[-88.4,41],[-88.5,41.2],[-88.5,41]]]", "crosses or touches itself", "[-88.45,41.1]")]
    [InlineData("[[[0,0],[2,0],[2,2],[0,2],[0,0]],[[3,3],[4,3],[4,4],[3,3]]]", "lies outside the outline", "[3,3]")]
    [InlineData("[[[0,0],[9,0],[9,9],[0,9],[0,0]],[[1,1],[8,1],[8,8],[1,8],[1,1]],[[2,2],[3,2],[3,3],[2,2]]]",
        "overlap or cut it in pieces", "")]
    [InlineData("[[[0,0],[1,1],[2,2],[0,0]]]", "", "")]
    public void An_outline_that_is_none_is_refused_with_its_feature_and_place(string polygon, string what, string place)
    {
        var file = Read(polygon);
        var error = file.Errors.ShouldHaveSingleItem();
        (error.Line, error.Column).ShouldBe((2, "coordinates"));
        error.What.ShouldContain(what);
        error.HowToCorrect.ShouldNotBeEmpty();
        if (place.Length > 0)
        {
            error.Value.ShouldBe(place);
        }

        file.Blocks.ShouldHaveSingleItem().Block.ShouldBe("A");
    }

    [Theory]
    [InlineData("[[[0,0],[1,0],[1,1],[0,1],[0,0]]]")]
    [InlineData("[[[179.9,10],[-179.9,10],[-179.9,10.1],[179.9,10.1],[179.9,10]]]")]
    [InlineData("[[[0,0],[4,0],[4,4],[0,4],[0,0]],[[1,1],[2,1],[2,2],[1,1]]]")]
    public void A_plain_outline_is_taken_on_the_180th_meridian_too(string polygon) => Read(polygon).Errors.ShouldBeEmpty();

    [Fact]
    public void A_place_south_of_the_equator_is_refused_with_how_to_mend_it()
    {
        var error = Read("[[[-58.4,-34.6],[-58.3,-34.6],[-58.3,-34.5],[-58.4,-34.6]]]").Errors.ShouldHaveSingleItem();
        error.What.ShouldStartWith("This lies south of the equator");
        error.HowToCorrect.ShouldContain("without a minus sign");
    }
}
