using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>A group without a map file draws its streets, on a wide screen and on a phone, and sees them on the map.</summary>
[Collection(SiteCollection.Name)]
public sealed class DrawStreetsTests(EmptySite site) : IClassFixture<EmptySite>
{
    [Fact]
    public async Task Streets_are_drawn_press_by_press_survive_a_reload_and_stand_on_the_map()
    {
        var (page, errors) = await site.PageAsync();
        await page.GotoAsync(site.Address + "/begin");
        await site.BeginAsync(page, "IL", "41.87", "-88.56");
        await site.GoAsync(page, "/streets/draw");
        var map = page.Locator("#draw-wide");
        var name = page.GetByLabel("Name of the street being drawn");
        await name.FillAsync("Kiln Street");
        await name.BlurAsync();
        foreach (var x in new[] { 60, 240, 420, 600 })
        {
            await PressAsync(page, map, x, 160);
        }

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Three blocks so far, on one street" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "End this street" }).ClickAsync();
        await Expect(name).ToHaveValueAsync("");
        await name.FillAsync("Wheelwright Avenue");
        await name.BlurAsync();
        await PressAsync(page, map, 240, 160);
        await PressAsync(page, map, 240, 400);
        await page.GetByRole(AriaRole.Button, new() { Name = "Yards", Exact = true }).ClickAsync();
        foreach (var x in new[] { 100, 150, 200 })
        {
            await PressAsync(page, map, x, 130);
        }

        await Expect(page.GetByText("Yard KI-03 placed on Kiln Street, west end to Wheelwright.")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "One yard more on west end to Wheelwright" }).ClickAsync();
        await Site.PictureAsync(page, "draw1-drawn-1280");

        // The device keeps it: the page is loaded anew, on a phone this time.
        await page.SetViewportSizeAsync(360, 740);
        await page.ReloadAsync();
        await page.WaitForSelectorAsync(Site.Works);
        await Expect(page.GetByText("What you typed before and did not save is back")).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Four blocks so far, on two streets" })).ToBeVisibleAsync();
        await Site.PictureAsync(page, "draw2-phone-360");
        await page.GetByLabel("A usual yard here").FillAsync("650");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep these four blocks" }).ClickAsync();
        await Expect(page.GetByText("Stored.")).ToBeVisibleAsync();
        await BringAsync(page);

        await site.GoAsync(page, "/streets");
        await Expect(page.Locator("svg.blockmap.narrow a.block")).ToHaveCountAsync(10);
        await page.SetViewportSizeAsync(1280, 900);
        await Site.PictureAsync(page, "draw3-map-1280");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    /// <summary>A town's shapefile in feet of its state plane, beside what was drawn.</summary>
    private async Task BringAsync(IPage page)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = "Bring a file instead" }).ClickAsync();
        await Site.LiveAsync(page, page.GetByRole(AriaRole.Heading, new() { Name = "Bring a map file" }));
        await page.GetByLabel("Map file").SetInputFilesAsync(Path.Combine(Repository(),
            "tests/CommonGround.Interchange.Tests/MapFiles/Files/stateplane.zip"));
        await Expect(page.GetByText("The file is drawn in NAD 1983 StatePlane Illinois East FIPS 1201 Feet, in feet")).ToBeVisibleAsync();
        await Expect(page.GetByText("Left out: 1 line further off, 1 line without a street’s name.")).ToBeVisibleAsync();
        await Site.PictureAsync(page, "draw4-file-360");
        await page.SetViewportSizeAsync(1280, 900);
        await Site.PictureAsync(page, "draw4-file-1280");
        await page.GetByRole(AriaRole.Button, new() { Name = "Store 6 blocks" }).ClickAsync();
        await Expect(page.GetByText("Stored.")).ToBeVisibleAsync();
    }

    private static string Repository()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "CommonGround.sln")))
        {
            folder = folder.Parent;
        }

        return folder.FullName;
    }

    private static async Task PressAsync(IPage page, ILocator map, float x, float y)
    {
        // In the drawing's own measure, 690 wide, wherever it is shown.
        var box = (await map.BoundingBoxAsync())!;
        var before = await map.InnerHTMLAsync();
        await map.ClickAsync(new() { Position = new() { X = x * box.Width / 690, Y = y * box.Width / 690 } });
        await page.WaitForFunctionAsync("before => document.querySelector('#draw-wide').innerHTML !== before", before);
    }
}
