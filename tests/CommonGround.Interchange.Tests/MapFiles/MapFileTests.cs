using System.Text;
using CommonGround.Interchange.GeoJson;
using CommonGround.Interchange.MapFiles;

namespace CommonGround.Interchange.Tests.MapFiles;

/// <summary>
/// The files were made from wgs84.geojson, which holds eight invented streets, by ogr2ogr 3.6 (GDAL, on PROJ 9.1.1): another program's
/// arithmetic and another program's writing of each format.
/// </summary>
public class MapFileTests
{
    private static readonly GeoPoint Group = new(41.8715, -88.5594);
    private static readonly MapProjections Projections = ReadProjections();

    [Theory]
    [InlineData("stateplane.zip", PlacingKind.Plane, "The file is drawn in NAD 1983 StatePlane Illinois East FIPS 1201 Feet, in feet")]
    [InlineData("utm.gpkg", PlacingKind.Plane, "The file is drawn in NAD83 / UTM zone 16N, in metres")]
    [InlineData("utm.geojson", PlacingKind.Plane, "The file is drawn in NAD83 / UTM zone 16N, in metres")]
    [InlineData("mercator.geojson", PlacingKind.Plane, "The file is drawn in Web Mercator, in metres")]
    [InlineData("feet-unsaid.geojson", PlacingKind.Plane, "These numbers are not degrees: they run from 911,")]
    [InlineData("swapped.geojson", PlacingKind.Swapped, "Longitude and latitude are swapped in this file")]
    [InlineData("wgs84.geojson", PlacingKind.Degrees, "These are degrees, as they should be.")]
    public void Each_kind_of_file_lands_where_the_streets_are_and_says_how_it_was_read(string file, PlacingKind kind, string said)
    {
        var layer = Layer(file);
        layer.Columns.ShouldContain("FULLNAME");
        layer.ColumnLike(MapFile.StreetWords).ShouldBe(layer.Columns.ToList().IndexOf("FULLNAME"));
        layer.Features.Count.ShouldBe(8);
        layer.LeftOut.ShouldBe(0);
        var placing = MapPlacing.Of(layer, Projections, Group);
        placing.Kind.ShouldBe(kind);
        placing.Said.ShouldStartWith(said);
        var way = placing.Way();
        foreach (var (feature, truth) in layer.Features.Zip(Layer("wgs84.geojson").Features))
        {
            feature.Values[layer.Columns.ToList().IndexOf("FULLNAME")].ShouldBe(
                truth.Values[Layer("wgs84.geojson").Columns.ToList().IndexOf("FULLNAME")]);
            foreach (var (point, at) in feature.Points.Zip(truth.Points))
            {
                var placed = way(point).ShouldNotBeNull();
                // A ten-millionth of a degree is about a centimetre.
                placed.Longitude.ShouldBe(at.X, 2e-7);
                placed.Latitude.ShouldBe(at.Y, 2e-7);
            }
        }
    }

    [Fact]
    public void Feet_that_nobody_named_are_recognised_by_where_they_would_lie()
    {
        var placing = MapPlacing.Of(Layer("feet-unsaid.geojson"), Projections, Group);
        placing.System!.Code.ShouldBe(3435);
        placing.Said.ShouldContain("They look like feet of a state plane (NAD83 / Illinois East (ftUS))");
        MapPlacing.Of(Layer("feet-unsaid.geojson"), Projections, null).Kind.ShouldBe(PlacingKind.Unknown);
    }

    /// <summary>Expected degrees from PROJ 9.1.1: <c>echo "x y" | cs2cs EPSG:code EPSG:4269 -f %.9f</c>, round numbers near the middle of
    /// each zone.</summary>
    [Theory]
    [MemberData(nameof(Projected))]
    public void State_planes_agree_with_an_independent_library(int code, double x, double y, double latitude, double longitude)
    {
        var at = MapProjections.ToDegrees(Projections.Known.Single(k => k.Code == code))(new(x, y)).ShouldNotBeNull();
        at.Latitude.ShouldBe(latitude, 1e-7);
        at.Longitude.ShouldBe(longitude, 1e-7);
    }

    [Fact]
    public void Every_system_of_the_table_can_be_computed_with()
    {
        Projections.Known.Count.ShouldBeGreaterThan(240);
        foreach (var system in Projections.Known.Where(k => k.Text.Length > 0))
        {
            Projections.Named(system.Text).ShouldNotBeNull(system.Name);
        }
    }

    [Theory]
    [InlineData("a.zip", "PK\u0003\u0004 and no more", "This zip file is damaged.")]
    [InlineData("a.gpkg", "SQLite format 3\0 and no more", "This SQLite file is damaged or no GeoPackage.")]
    [InlineData("a.geojson", "{\"type\":\"FeatureCollection\",\n\"features\":[", "The file is not valid JSON from line 2 on.")]
    [InlineData("a.geojson", "{\"type\":\"Feature\"}", "The file is no FeatureCollection with a list of features.")]
    [InlineData("a.txt", "street;block", "This is no GeoJSON, shapefile or GeoPackage.")]
    [InlineData("a.geojson", "{\"features\":[{\"geometry\":{\"type\":\"Point\",\"coordinates\":[1,2]}},7,{\"geometry\":null}]}",
        "No line or outline is in this file.")]
    public void A_file_that_cannot_be_read_says_why_and_what_to_do(string name, string text, string said)
    {
        var error = MapFile.Read(name, Encoding.UTF8.GetBytes(text)).Errors.ShouldHaveSingleItem();
        error.What.ShouldBe(said);
        error.HowToCorrect.ShouldNotBeEmpty();
    }

    /// <summary>Cut anywhere, or with any byte turned round, a file gives layers or a message, never an exception.</summary>
    [Theory]
    [InlineData("stateplane.zip")]
    [InlineData("utm.gpkg")]
    [InlineData("utm.geojson")]
    public void Damaged_files_are_refused_or_read_never_thrown_at_the_reader(string file)
    {
        var whole = Bytes(file);
        var chance = new Random(20260819);
        for (var i = 0; i < 200; i++)
        {
            var copy = whole.AsSpan(0, i % 2 == 0 ? chance.Next(1, whole.Length) : whole.Length).ToArray();
            copy[chance.Next(copy.Length)] ^= (byte)(1 << chance.Next(8));
            copy[chance.Next(copy.Length)] ^= (byte)(1 << chance.Next(8));
            var read = MapFile.Read(file, copy);
            (read.Errors.Count > 0 || read.Layers.Count > 0).ShouldBeTrue();
        }
    }

    public static TheoryData<int, double, double, double, double> Projected()
    {
        var data = new TheoryData<int, double, double, double, double>();
        foreach (var row in File.ReadLines(Where("proj-9.1.1.csv")).Skip(1))
        {
            var cells = row.Split(',').Select(c => double.Parse(c, System.Globalization.CultureInfo.InvariantCulture)).ToArray();
            data.Add((int)cells[0], cells[1], cells[2], cells[3], cells[4]);
        }

        return data;
    }

    private static MapLayer Layer(string file)
    {
        var read = MapFile.Read(file, Bytes(file));
        read.Errors.ShouldBeEmpty();
        return read.Layers.ShouldHaveSingleItem();
    }

    private static byte[] Bytes(string file) => File.ReadAllBytes(Where(file));

    private static string Where(string file) => Path.Combine(TestFiles.Root, "tests/CommonGround.Interchange.Tests/MapFiles/Files",
        file);

    private static MapProjections ReadProjections()
    {
        using var table = File.OpenText(Path.Combine(TestFiles.Root, "seed-data/projections.csv"));
        return MapProjections.Read(table);
    }
}
