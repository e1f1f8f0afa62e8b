using System.Globalization;
using System.Text;
using System.Xml.Linq;
using CsvHelper;
using Microsoft.Playwright;
using SkiaSharp;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>Every map, chart and table of a reading page becomes a file of what the page shows.</summary>
[Collection(SiteCollection.Name)]
public sealed class TakeAlongTests(Site site)
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    [Theory]
    [InlineData("/")]
    [InlineData("/streets")]
    [InlineData("/streets/compare")]
    [InlineData("/streets/late-season")]
    [InlineData("/streets/street")]
    [InlineData("/yards")]
    [InlineData("/yards/KI-05")]
    [InlineData("/yards/KI-05/years")]
    [InlineData("/plants")]
    [InlineData("/plants/monarda-fistulosa")]
    public async Task Each_picture_and_each_table_of_a_page_offers_its_file(string path)
    {
        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, path);
        await Expect(page.Locator(".take").First).ToBeAttachedAsync();
        var without = await page.Locator("main svg.chart, main table").EvaluateAllAsync<int>(
            "all => all.filter(one => !one.closest('td, th, summary, .key, [data-nosave]') && ![one, "
                + "one.closest('.scroll-x'), one.closest('.slider-track')].some(o => o?.nextElementSibling?.matches('.take'))).length");
        without.ShouldBe(0);
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Theory]
    [InlineData("visitor", ColorScheme.Dark)]
    [InlineData("organiser", ColorScheme.Light)]
    public async Task A_table_and_a_chart_are_read_by_other_programs_and_say_what_the_page_says(string role, ColorScheme scheme)
    {
        var (page, errors) = await site.PageAsync(scheme: scheme, role: role);
        await site.GoAsync(page, "/streets/compare?street=Lathe+Street&street=Kiln+Street");
        var shown = await page.Locator("table").First.Locator("tbody tr").EvaluateAllAsync<string[][]>(
            "rows => rows.map(r => [...r.cells].map(c => c.textContent.trim()))");
        using (var csv = new CsvReader(new StringReader(await SavedAsync(page, "Save “Side by side” as CSV")),
            CultureInfo.InvariantCulture))
        {
            var rows = new List<string[]>();
            while (await csv.ReadAsync())
            {
                rows.Add(csv.Parser.Record!);
            }

            rows[0].ShouldBe(["", "Lathe", "Kiln"]);
            rows.Skip(1).ShouldBe(shown);
        }

        var text = await SavedAsync(page, "Save “Native kinds in flower” as SVG");
        var drawing = XDocument.Parse(text).Root!;
        drawing.Name.ShouldBe(Svg + "svg");
        drawing.Descendants(Svg + "rect").Count().ShouldBeGreaterThan(20);
        var words = drawing.Descendants(Svg + "text").Select(t => t.Value).ToList();
        words.ShouldContain("Lathe Street");
        words[^1].ShouldBe("Native kinds in flower · invented demo data, Quarry Bend, August 19, 2026");
        // In the light colours whatever the screen, and without a style sheet: each mark carries its own.
        drawing.Descendants(Svg + "text").First(t => t.Value == "Lathe Street").Attribute("fill")!.Value.ShouldBe("rgb(26, 35, 28)");
        text.ShouldNotContain("class=");
        text.ShouldNotContain("var(");
        text.ShouldContain("data:font/woff2;base64,");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_map_becomes_a_picture_twice_as_fine_as_the_screen()
    {
        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, "/streets/late-season");
        var map = page.Locator(".wideonly svg.blockmap");
        var wide = float.Parse((await map.GetAttributeAsync("width"))!, CultureInfo.InvariantCulture);
        var button = page.Locator(".wideonly .take button", new() { HasTextString = "PNG" });
        var file = await page.RunAndWaitForDownloadAsync(() => button.ClickAsync());
        file.SuggestedFilename.ShouldEndWith("demo-quarry-bend-august-19-2026.png");
        using var picture = SKBitmap.Decode(await file.PathAsync());
        ((double)picture.Width).ShouldBe(wide * 2, 2);
        // More than paper: the ground, the streets' casing and the colours of several classes.
        picture.Pixels.Distinct().Count().ShouldBeGreaterThan(50);
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task After_another_choice_the_files_are_those_of_the_new_page()
    {
        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, "/streets");
        await page.GetByRole(AriaRole.Link, new() { Name = "Invasive pressure", Exact = true }).ClickAsync();
        await Expect(page.GetByText("Invasive pressure, m²-equivalents").First).ToBeVisibleAsync();
        await Expect(page.Locator("figure .wideonly .take")).ToHaveCountAsync(1);
        var file = await page.RunAndWaitForDownloadAsync(
            () => page.Locator("figure .wideonly .take button", new() { HasTextString = "SVG" }).ClickAsync());
        (await File.ReadAllTextAsync((await file.PathAsync())!, Encoding.UTF8)).ShouldContain("Invasive pressure");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    private static async Task<string> SavedAsync(IPage page, string button)
    {
        var file = await page.RunAndWaitForDownloadAsync(
            () => page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync());
        return await File.ReadAllTextAsync((await file.PathAsync())!, Encoding.UTF8);
    }
}
