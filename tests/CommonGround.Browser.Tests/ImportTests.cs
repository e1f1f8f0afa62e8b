using System.Text;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>A volunteer brings a spreadsheet's rows, corrects what is wrong, and gets it all in.</summary>
[Collection(SiteCollection.Name)]
public sealed class ImportTests(Site site)
{
    private const string Walk =
        "Yard code,Bed,Species,Date seen,Cover (m²),Weather\nKI-05,side,Asterr laevis,8/4/2026,0.5,sunny\nKI-99,side,Monarda "
        + "fistulosa,8/4/2026,0.5,\nKI-05,side,Ratibida pinnata,8/4/2026,0.25,\"wind, rain\"\n";

    [Fact]
    public async Task A_file_with_errors_is_mended_and_stored_and_changes_nothing_when_it_comes_again()
    {
        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, "/more");
        await page.GetByRole(AriaRole.Link, new() { Name = "Import a file" }).ClickAsync();
        await Site.LiveAsync(page, page.GetByLabel("Files to import"));
        await DropAsync(page, "Files to import", "walk.csv", Encoding.UTF8.GetBytes(Walk));
        await Expect(page.GetByText("Not taken: Weather.")).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Check the rows" })).ToBeDisabledAsync();
        await page.GetByLabel("What 8/4/2026 means")
            .SelectOptionAsync(new SelectOptionValue { Label = "the month comes first: August 4, 2026" });
        await page.GetByRole(AriaRole.Button, new() { Name = "Check the rows" }).ClickAsync();
        await page.GetByLabel("What Asterr laevis means").SelectOptionAsync(new SelectOptionValue { Index = 1 });
        await page.GetByRole(AriaRole.Button, new() { Name = "Check again" }).ClickAsync();
        await Expect(page.GetByText("Nothing was stored: 1 error")).ToBeVisibleAsync();
        await Expect(page.GetByText("There is no yard with this code.")).ToBeVisibleAsync();

        var download = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Button,
            new() { Name = "Download walk-to-correct.csv" }).ClickAsync());
        var correct = await File.ReadAllTextAsync(await download.PathAsync());
        correct.ShouldContain("yard: There is no yard with this code.");
        correct.Split("\r\n").Length.ShouldBe(5);
        var corrected = Encoding.UTF8.GetBytes(correct.Replace(",KI-99,", ",KI-05,", StringComparison.Ordinal));
        await DropAsync(page, "Corrected files", "walk-to-correct.csv", corrected);
        await page.GetByRole(AriaRole.Button, new() { Name = "Store 3 rows" }).ClickAsync();
        await Expect(page.GetByText("Every row is stored.")).ToBeVisibleAsync();

        await page.GetByRole(AriaRole.Button, new() { Name = "Import another file" }).ClickAsync();
        await DropAsync(page, "Files to import", "walk-to-correct.csv", corrected);
        await page.GetByRole(AriaRole.Button, new() { Name = "Check the rows" }).ClickAsync();
        await Expect(page.GetByText("These files change nothing: everything in them is already stored.")).ToBeVisibleAsync();
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_visitor_brings_nothing()
    {
        var (page, _) = await site.PageAsync(role: "visitor");
        await site.GoAsync(page, "/more/import");
        await Expect(page.GetByText("This page is for organisers")).ToBeVisibleAsync();
        await Expect(page.Locator("input[type=file]")).ToHaveCountAsync(0);
        await page.Context.CloseAsync();
    }

    private static async Task DropAsync(IPage page, string where, string name, byte[] content)
    {
        await Expect(page.GetByLabel(where)).ToBeEnabledAsync();
        await page.GetByLabel(where).SetInputFilesAsync(new FilePayload { Name = name, MimeType = "text/csv", Buffer = content });
    }
}
