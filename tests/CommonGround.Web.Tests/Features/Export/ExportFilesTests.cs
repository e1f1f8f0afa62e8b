using System.IO.Compression;
using System.Text.Json;
using CommonGround.Ecology.Sites;
using CommonGround.Web.Features.Export;

namespace CommonGround.Web.Tests.Features.Export;

public class ExportFilesTests
{
    [Fact]
    public async Task A_file_for_passing_on_holds_only_yards_that_agree_moved_and_nameless_and_says_so()
    {
        using var garden = await LaidAsync();
        var moved = (await garden.Export.RowsAsync(exact: false)).Places.ShouldHaveSingleItem();
        (moved.Street, moved.Block, moved.Household, moved.LawnSquareMetres, moved.Light).ShouldBe(("", "", "", null, null));
        moved.Yard.ShouldStartWith("Y-");
        (await garden.Export.RowsAsync(exact: false)).Places[0].ShouldBe(moved);
        GreatCircle.Metres(moved.Latitude, moved.Longitude, 41.872565, -88.56146).ShouldBeInRange(98, 302);
        (await garden.Export.RowsAsync(exact: true)).Places[0].Latitude.ShouldBe(41.872565);
        foreach (var text in new[] { await garden.Export.JsonAsync(exact: false), await garden.Export.GeoJsonAsync(exact: false),
            (await ZipAsync(garden, exact: false))["README.txt"] })
        {
            text.ShouldContain(PlaceOffset.Generalised);
            text.ShouldContain(PlaceOffset.Withheld);
            text.ShouldNotContain("41.872565");
            text.ShouldNotContain("88.56146");
        }

        (await garden.Export.JsonAsync(exact: true)).ShouldContain("41.872565");
        (await ZipAsync(garden, exact: true)).ShouldNotContainKey("README.txt");
    }

    [Fact]
    public async Task A_text_that_a_spreadsheet_would_run_is_written_as_text_and_comes_back_whole()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,cover_m2,observer,remarks\nK-1,front,Monarda "
                + "fistulosa,2026-08-01,1,@SUM(1),\"=HYPERLINK(\"\"x\"\",\"\"y\"\")\"\n"));
        var csv = (await ZipAsync(garden, exact: true))["sightings.csv"];
        csv.ShouldContain("\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
        csv.ShouldContain("'@SUM(1)");
        csv.ShouldNotContain(",@SUM");
        (await garden.StoreAsync(("sightings.csv", csv))).Changed.ShouldBeFalse();
    }

    [Fact]
    public async Task The_exact_archive_brought_into_an_empty_neighbourhood_gives_the_same_rows_and_figures()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(
            ("beds.csv", "yard,bed,area_m2,established_on,light,moisture\nK-1,front,12.5,2021-05-15,shade,wet\n"),
            ("sightings.csv",
                "yard,bed,scientific_name,observed_on,cover_m2,count,origin,certainty,growth_stage,observer,remarks\n"
                    + "K-1,front,Symphyotrichum cf. laeve,2026-08-14,,12,self_sown,,6,walker 3,\"two\nlines, “quoted”\"\n"
                    + "K-1,front,Monarda fistulosa,2026-08-01,0.1,3,planted,certain,,,\nK-1,front,Monarda "
                    + "fistulosa,2026-08-02,0,,planted,certain,,,\nK-2,Öst,Solidago "
                    + "rigida,2026-01-01,0.30000000000000004,,relict,probable,9,,\n"),
            ("infestations.csv",
                "yard,block,scientific_name,observed_on,area_m2,cover_percent,growth_stage,remarks\nK-1,,Alliaria "
                    + "petiolata,2026-05-02,4,30,6,cut\n,\"Kiln Street, A to B\",Alliaria petiolata,2026-05-02,9,12.5,,\n"),
            ("streets.geojson",
                """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"street":"Kiln Street","block":"A to B"},"geometry":{"type":"LineString","coordinates":[[-88.5614,41.8725],[-88.5601,41.87251]]}}]}"""),
            ("rain.csv", "date,rain_mm\n2026-08-01,12.7\n2026-08-02,0\n"), ("temperature.csv", "date,tmin_c,tmax_c\n2026-08-01,-3.5,14\n"),
                ("prices.csv", "scientific_name,seed_per_gram,plug_each\nMonarda fistulosa,0.8,\n"));
        using var other = await Garden.LayAsync();
        var files = await ZipAsync(garden, exact: true);
        await other.StoreAsync([.. files.Select(f => (f.Key, f.Value))]);
        (await ZipAsync(other, exact: true)).ShouldBe(files, ignoreOrder: true);
        Text(await other.Live.FiguresAsync(organiser: true)).ShouldBe(Text(await garden.Live.FiguresAsync(organiser: true)));
        (await other.SightingsAsync()).Select(s => (s.CoverSquareMetres, s.CoverDerived, s.Count, s.Remarks))
            .ShouldBe((await garden.SightingsAsync()).Select(s => (s.CoverSquareMetres, s.CoverDerived, s.Count, s.Remarks)),
            ignoreOrder: true);
    }

    [Fact]
    public async Task The_map_file_holds_blocks_with_their_figures_and_only_yards_that_share()
    {
        using var garden = await LaidAsync();
        await garden.StoreAsync(("streets.geojson",
            """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"street":"Kiln Street","block":"A to B"},"geometry":{"type":"LineString","coordinates":[[-88.5614,41.8725],[-88.5601,41.8725]]}}]}"""),
            ("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\nK-1,front,Monarda fistulosa,2026-08-01,1\n"));
        using var document = JsonDocument.Parse(await garden.Export.GeoJsonAsync(exact: false));
        var features = document.RootElement.GetProperty("features").EnumerateArray()
            .Select(f => (Type: f.GetProperty("geometry").GetProperty("type").GetString(), Properties: f.GetProperty("properties")))
            .ToList();
        features.Select(f => (f.Type, f.Properties.GetProperty("kind").GetString())).ShouldBe([("LineString", "block"), ("Point", "yard")]);
        // One yard that shares is not enough for the block's figures to be anybody's business.
        features[0].Properties.TryGetProperty("nativeRichness", out _).ShouldBeFalse();
        using var exact = JsonDocument.Parse(await garden.Export.GeoJsonAsync(exact: true));
        exact.RootElement.GetProperty("features")[0].GetProperty("properties").GetProperty("nativeRichness").GetInt32().ShouldBe(1);
        features[1].Properties.GetProperty("yard").GetString()!.ShouldStartWith("Y-");
        features[1].Properties.GetProperty("coordinateUncertaintyInMeters").GetInt32().ShouldBe(300);
    }

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv",
            "street,block,yard,latitude,longitude,yard_m2,lawn_m2,light,moisture,soil_group,household,shared\nKiln Street,A to "
                + "B,K-1,41.872565,-88.56146,720,310,full_sun,medium,B,Household 1,yes\nKiln Street,A to "
                + "B,K-2,41.8739,-88.5621,500,,,,,,no\n"));
        return garden;
    }

    private static async Task<Dictionary<string, string>> ZipAsync(Garden garden, bool exact)
    {
        using var file = new MemoryStream();
        await garden.Export.WriteCsvZipAsync(file, exact);
        await using var zip = new ZipArchive(file, ZipArchiveMode.Read);
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var entry in zip.Entries)
        {
            using var reader = new StreamReader(await entry.OpenAsync());
            texts[entry.FullName] = await reader.ReadToEndAsync();
        }

        return texts;
    }

    private static string Text(Web.Features.Community.Figures figures) =>
        JsonSerializer.Serialize(new { figures.Blocks, figures.Streets, figures.Neighbourhood });
}
