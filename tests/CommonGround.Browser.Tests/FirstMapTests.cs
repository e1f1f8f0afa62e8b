using System.Diagnostics;
using System.Text;
using Microsoft.Playwright;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>From an empty folder to the printed late-season page, with the spreadsheets a group has lying about.</summary>
[Collection(SiteCollection.Name)]
public sealed class FirstMapTests(EmptySite site, ITestOutputHelper output) : IClassFixture<EmptySite>
{
    private const string Lots = "Neighbours on Alder Street,,,,,\nas of spring,,,,,\nName,Street,Between,Lot sq ft,Lawn,Sun\n"
        + "The Quills,Alder Street,Mill to Ferry,\"7,200\",\"3,100\",Full\n"
        + "Marrow family,Alder Street,Mill to Ferry,\"6,800\",\"2,400\",part\n"
        + "Corner house,Alder Street,Mill to Ferry,\"11,050\",none,full sun\n";

    private const string Plants = "What grows on Alder Street,,,\nYard,Plant,Size,Seen\nThe Quills,Wild bergamont,12,8/14/2026\n"
        + ",New England Aster,6,8/14/2026\nMarrow family,Blackeyed Susan,20,8/14/2026\n,purple aster,4,8/14/2026\nTotal,,42,\n";

    [Fact]
    public async Task A_group_comes_from_first_start_to_its_printed_late_season_page_with_its_own_spreadsheets()
    {
        var clock = Stopwatch.StartNew();
        var (page, errors) = await site.PageAsync();
        await page.GotoAsync(site.Address + "/");
        await LookAsync(page, "m1-empty");
        await page.GetByRole(AriaRole.Link, new() { Name = "Begin your group’s record" }).ClickAsync();
        await site.BeginAsync(page);
        await site.GoAsync(page, "/");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Alder Bend begins" })).ToBeVisibleAsync();
        await Expect(page.GetByText("Every yard shares")).ToHaveCountAsync(0);
        await LookAsync(page, "m2-steps");
        await page.GetByRole(AriaRole.Link, new() { Name = "Add the streets and blocks" }).ClickAsync();
        await Beginning.AddBlockAsync(page);

        await site.GoAsync(page, "/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Bring in three yards of one block" }).ClickAsync();
        await DropAsync(page, "lots.csv", Lots);
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Row 3 looks like the headings" })).ToBeVisibleAsync();
        await Expect(page.GetByText("7,200 becomes 669 m²")).ToBeVisibleAsync();
        await LookAsync(page, "m3-units");
        await page.GetByRole(AriaRole.Button, new() { Name = "Check the rows" }).ClickAsync();
        await LookAsync(page, "m4-store");
        await page.GetByRole(AriaRole.Button, new() { Name = "Store 3 rows" }).ClickAsync();
        await Expect(page.GetByText("Every row is stored.")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Import another file" }).ClickAsync();
        await PlantsAsync(page);

        await site.GoAsync(page, "/");
        await Expect(page.GetByText("Record what grows")).ToHaveCountAsync(0);
        await LookAsync(page, "m8-front");
        await site.GoAsync(page, "/streets/late-season");
        await Expect(page.GetByText("Mill to Ferry").First).ToBeVisibleAsync();
        var print = await page.PdfAsync();
        Encoding.Latin1.GetString(print, 0, 5).ShouldBe("%PDF-");
        output.WriteLine($"From first start to the printed page: {clock.Elapsed.TotalSeconds:0} s of the browser’s time.");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    /// <summary>Asks units once and keeps everything over a reload.</summary>
    private static async Task PlantsAsync(IPage page)
    {
        await DropAsync(page, "plants.csv", Plants);
        await Expect(page.GetByText("Say in which unit “Size” is.")).ToBeVisibleAsync();
        await page.GetByLabel("Unit of Size").SelectOptionAsync("ft2");
        await Expect(page.GetByText("12 becomes 1.11 m²")).ToBeVisibleAsync();
        await LookAsync(page, "m5-plants");
        await page.GetByRole(AriaRole.Button, new() { Name = "Check the rows" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Which plants are meant?" })).ToBeVisibleAsync();
        await page.WaitForURLAsync("**step=names");
        await page.ReloadAsync();
        await Site.LiveAsync(page, page.GetByLabel("What purple aster means"));
        await Expect(page.GetByLabel("What Wild bergamont means")).ToHaveValueAsync("Monarda fistulosa");
        var offered = await page.GetByLabel("What purple aster means").Locator("option").AllInnerTextsAsync();
        offered.ShouldNotContain(o => o.Contains("Acer", StringComparison.Ordinal));
        await LookAsync(page, "m6-names");
        await page.GetByLabel("Search the catalogue for purple aster").FillAsync("Symphyotrichum novae-angliae");
        await page.GetByLabel("Search the catalogue for purple aster").BlurAsync();
        await Expect(page.GetByLabel("What purple aster means")).ToHaveValueAsync("Symphyotrichum novae-angliae");
        await page.GetByRole(AriaRole.Button, new() { Name = "Check again" }).ClickAsync();
        await Expect(page.GetByText("The row is a sum and was left out.")).ToBeVisibleAsync();
        await LookAsync(page, "m7-plants-store");
        await page.GetByRole(AriaRole.Button, new() { Name = "Store" }).ClickAsync();
        await Expect(page.GetByText("Every row is stored.")).ToBeVisibleAsync();
    }

    private static async Task DropAsync(IPage page, string name, string text)
    {
        await Site.LiveAsync(page, page.GetByLabel("Files to import"));
        await Expect(page.GetByLabel("Files to import")).ToBeEnabledAsync();
        await page.GetByLabel("Files to import").SetInputFilesAsync(new FilePayload
        {
            Name = name,
            MimeType = "text/csv",
            Buffer = Encoding.UTF8.GetBytes(text)
        });
    }

    /// <summary>Wide and narrow, light and dark, if anyone asked for pictures.</summary>
    private static async Task LookAsync(IPage page, string name)
    {
        if (Site.Pictures is null)
        {
            return;
        }

        foreach (var (width, scheme) in new[] { (360, ColorScheme.Dark), (360, ColorScheme.Light), (1280, ColorScheme.Dark),
            (1280, ColorScheme.Light) })
        {
            await page.SetViewportSizeAsync(width, width < 500 ? 740 : 900);
            await page.EmulateMediaAsync(new() { ColorScheme = scheme });
            await Site.PictureAsync(page, $"{name}-{width}-{scheme}");
        }
    }
}
