using System.Text.Json;
using CommonGround.Interchange.Catalogue;
using CommonGround.Interchange.GeoJson;
using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Tests;

/// <summary>What shared/ shows to people is what the reader reads.</summary>
public class ExampleTests
{
    private static string Shared(params string[] parts) => Path.Combine([TestFiles.Root, "shared", .. parts]);

    [Theory]
    [InlineData("places.csv", ImportKind.Places, 3)]
    [InlineData("beds.csv", ImportKind.Beds, 3)]
    [InlineData("sightings.csv", ImportKind.Sightings, 4)]
    [InlineData("infestations.csv", ImportKind.Infestations, 3)]
    [InlineData("rain.csv", ImportKind.Rain, 3)]
    [InlineData("temperature.csv", ImportKind.Temperature, 2)]
    [InlineData("prices.csv", ImportKind.Prices, 3)]
    [InlineData("streets.geojson", ImportKind.Streets, 2)]
    public void An_example_file_is_read_without_error(string name, ImportKind kind, int rows)
    {
        using var content = File.OpenRead(Shared("examples", name));
        var file = ImportFile.Read(name, content);
        file.Errors.ShouldBeEmpty();
        (file.Kind, file.RowCount).ShouldBe((kind, rows));
    }

    [Fact]
    public void The_names_in_the_examples_are_in_the_catalogue()
    {
        var index = new NameIndex(CatalogueFile.Read("plants.csv",
            File.ReadAllBytes(Path.Combine(TestFiles.Root, "seed-data", "plants.csv"))).Taxa);
        var names = new[] { "sightings.csv", "infestations.csv" }.Select(n => ImportFile.Read(n, File.ReadAllBytes(Shared("examples", n))))
            .SelectMany(f => f.Sightings.Select(s => s.Name.Name).Concat(f.Infestations.Select(i => i.Name.Name)));
        names.ShouldAllBe(name => index.Resolve(name) != null);
    }

    [Fact]
    public void Every_column_of_every_kind_is_described()
    {
        var page = File.ReadAllText(Shared("csv-columns.md"));
        foreach (var header in new[] { TestFiles.PlacesHeader, TestFiles.BedsHeader, TestFiles.SightingsHeader,
            TestFiles.InfestationsHeader, "date,rain_mm", "date,tmin_c,tmax_c" })
        {
            foreach (var column in header.Split(',')) page.ShouldContain($"\n| {column} |");
        }
    }

    /// <summary>The rules and polygons of RFC 7946 as kept in shared/checks-interchange/geojson.json, with their sources there.</summary>
    [Fact]
    public void The_checks_taken_from_rfc_7946_hold()
    {
        using var checks = JsonDocument.Parse(File.ReadAllText(Shared("checks-interchange", "geojson.json")));
        var byId = checks.RootElement.GetProperty("checks").EnumerateArray().ToDictionary(c => c.GetProperty("id").GetString()!);
        foreach (var id in new[] { "ST-018", "ST-019" })
        {
            var coordinates = byId[id].GetProperty("inputs").GetProperty("coordinates");
            var file = TestFiles.Read(
                "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":{\"street\":\"K\",\"block\":\"A\"},\"geometry\":{\"type\":\"Polygon\",\"coordinates\":" + coordinates.GetRawText() + "}}]}");
            var block = file.Blocks.ShouldHaveSingleItem();
            // Longitude first: the first position of Appendix A.3 is 100° east, 0° north; the hole is centred like the outline.
            block.Shape.Parts[0][0].ShouldBe(new GeoPoint(0, 100));
            block.Middle.Latitude.ShouldBe(0.5, 1e-9);
            block.Middle.Longitude.ShouldBe(100.5, 1e-9);
        }
        var rules = byId["ST-022"].GetProperty("expected");
        var fewest = rules.GetProperty("minPositionsInRing").GetInt32();
        ImportFile Ring(int positions) =>
            TestFiles.Read(
                "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":{\"street\":\"K\",\"block\":\"A\"},\"geometry\":{\"type\":\"Polygon\",\"coordinates\":[["
            + string.Join(',', Enumerable.Range(0, positions - 1).Select(i => $"[{i % 2},{i}]")) + ",[0,0]]]}}]}");
        Ring(fewest).Errors.ShouldBeEmpty();
        Ring(fewest - 1).Errors.Count.ShouldBe(1);
    }
}
