using System.IO.Compression;
using System.Text;
using CommonGround.Web.Features.Export;
using CommonGround.Web.Features.Import;

namespace CommonGround.Web.Tests.Features.Export;

/// <summary>What is taken out for the group's own keeping comes back through the import page and changes nothing.</summary>
public class ComesBackTests
{
    [Fact]
    public async Task The_tables_come_back_unchanged()
    {
        using var garden = await LaidAsync();
        using var held = new MemoryStream();
        await garden.Export.WriteCsvZipAsync(held, exact: true);
        using var zip = new ZipArchive(held, ZipArchiveMode.Read);
        var files = new List<(string, byte[])>();
        foreach (var entry in zip.Entries)
        {
            await using var stream = await entry.OpenAsync();
            using var copy = new MemoryStream();
            await stream.CopyToAsync(copy);
            files.Add((entry.FullName, copy.ToArray()));
        }

        files.Count.ShouldBe(9);
        await ShouldComeBackAsync(garden, files);
    }

    /// <summary>Written by one library and read by another.</summary>
    [Fact]
    public async Task The_workbook_comes_back_unchanged()
    {
        using var garden = await LaidAsync();
        using var held = new MemoryStream();
        WorkbookExport.Write(held, await garden.Export.RowsAsync(exact: true));
        await ShouldComeBackAsync(garden, [("book.xlsx", held.ToArray())]);
    }

    [Fact]
    public async Task The_map_comes_back_unchanged_and_its_yards_are_left_out()
    {
        using var garden = await LaidAsync();
        var text = await garden.Export.GeoJsonAsync(exact: true);
        text.ShouldContain("\"yard\"");
        await ShouldComeBackAsync(garden, [("map.geojson", Encoding.UTF8.GetBytes(text))]);
    }

    private static async Task ShouldComeBackAsync(Garden garden, List<(string Name, byte[] Content)> files)
    {
        var wizard = new ImportWizard(new ImportFiles(garden.Database, garden.Neighbourhood), garden.Clock);
        foreach (var (name, content) in files)
        {
            await wizard.AddAsync(name, content);
        }

        wizard.Files.SelectMany(f => f.Open.Select(o => $"{f.Table.Name}: {o}")).ShouldBeEmpty();
        await wizard.CheckAsync(Garden.Organiser, () => { });
        wizard.Outcome!.Errors.Select(e => e.ToString()).ShouldBeEmpty();
        wizard.Outcome.Changed.ShouldBeFalse(string.Join(", ", wizard.Outcome.Counts));
        wizard.Outcome.Counts.Sum(c => c.Unchanged).ShouldBeGreaterThan(0);
    }

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        await garden.StoreAsync(
            ("streets.geojson", """
                {"type":"FeatureCollection","features":[{"type":"Feature","properties":{"street":"North","block":"A to B"},
                "geometry":{"type":"LineString","coordinates":[[-88.5,41.5],[-88.49,41.5]]}}]}
                """),
            ("places.csv", "street,block,yard,latitude,longitude,yard_m2,lawn_m2,light,moisture,soil_group,household,shared\n"
                + "North,A to B,007,41.5,-88.495,700,300,full_sun,dry,B,=Wren,yes\nNorth,A to B,N-2,41.5,-88.494,800,,,,,,no\n"),
            ("beds.csv", "yard,bed,area_m2,established_on\n007,front,12.5,2020-05-01\nN-2,10,,\n"),
            ("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2,count,certainty,remarks\n"
                + "007,front,Monarda fistulosa,2026-08-01,1.25,,certain,-2 pots\nN-2,10,Symphyotrichum cf. laeve,2026-07-01,,3,,\n"),
            ("infestations.csv", "yard,scientific_name,observed_on,area_m2,cover_percent\n007,Alliaria petiolata,2026-05-02,4,50\n"),
            ("rain.csv", "date,rain_mm\n2026-05-01,3.5\n"), ("temperature.csv", "date,tmin_c,tmax_c\n2026-05-01,3.5,14\n"),
            ("prices.csv", "scientific_name,seed_per_gram,plug_each\nMonarda fistulosa,0.42,3\n"));
        return garden;
    }
}
