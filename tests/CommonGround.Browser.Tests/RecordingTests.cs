using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>Recording on a phone and correcting what was recorded.</summary>
[Collection(SiteCollection.Name)]
public class RecordingTests(Site site)
{
    [Theory]
    [InlineData(1280, ColorScheme.Light)]
    public async Task An_ambiguous_name_is_asked_about_and_a_saved_record_is_corrected(int width, ColorScheme scheme)
    {
        var shot = $"walk-{width}-{scheme}".ToLowerInvariant();
        var (page, errors) = await site.PageAsync(width, scheme);
        await site.GoAsync(page, "/yards/LA-07/record");
        var entry = page.Locator("#entry");
        await entry.FocusAsync();
        await entry.PressSequentiallyAsync("milkweed 0,3 fl");
        await Expect(page.Locator("#offers [role=option]").First).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByText("More than one plant can be meant by “milkweed”.")).ToBeVisibleAsync();
        await Site.PictureAsync(page, shot + "-asked");
        await page.Locator("#offers").GetByText("Record Asclepias sp.: only the genus is known").ClickAsync();
        await Expect(entry).ToHaveValueAsync("");
        await entry.PressSequentiallyAsync("Ratibida columnifera 1 2");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByText("can be read in two ways")).ToBeVisibleAsync();

        // Edited, and the page lost in the middle of it.
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Edit (?!Asclepias)") }).ClickAsync();
        await Expect(entry).ToHaveValueAsync("Ratibida columnifera 1 2");
        await site.GoAsync(page, "/yards/LA-07/record");
        await Expect(entry).ToHaveValueAsync("Ratibida columnifera 1 2");
        await Site.PictureAsync(page, shot + "-lines");
        await entry.FillAsync("Ratibida columnifera 1.2 prob #gate");
        await page.Keyboard.PressAsync("Enter");
        await Expect(entry).ToHaveValueAsync("");
        if (width < 500)
        {
            // Scrolled to the end, the field and Save still stand at the top.
            await page.EvaluateAsync("window.scrollTo(0, document.querySelector('.entry-bar').offsetTop + 60)");
            await Expect(entry).ToBeInViewportAsync();
            await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true })).ToBeInViewportAsync();
        }

        await page.Keyboard.PressAsync("Control+Enter");
        await Expect(page.GetByText("Saved 2 plantings in")).ToBeVisibleAsync();

        await site.GoAsync(page, "/yards/LA-07");
        await Site.PictureAsync(page, shot + "-yard");
        var row = page.GetByRole(AriaRole.Row).Filter(new() { HasText = "Ratibida columnifera" }).Filter(new() { HasText = "gate" });
        await row.GetByRole(AriaRole.Link, new() { NameRegex = new("20\\d\\d") }).ClickAsync();
        await page.GetByLabel("Remark").FillAsync("by the gate, seen from the path");
        await page.GetByLabel("How sure of the name").SelectOptionAsync("Certain");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the correction" }).ClickAsync();
        await Expect(page.GetByText("by the gate, seen from the path").First).ToBeVisibleAsync();
        await Site.PictureAsync(page, shot + "-planting");
        await page.GetByText("It never was there").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Take out this record" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Yard LA-07", Exact = true })).ToBeVisibleAsync();

        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }
}
