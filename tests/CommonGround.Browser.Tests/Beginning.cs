using CommonGround.Web.Features.Membership;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>How a group begins on an empty site, by what the screens say: Ada's Alder Bend.</summary>
internal static class Beginning
{
    /// <summary>Fills in the page on which a group begins, which is open, and presses Begin.</summary>
    /// <param name="state">A state's letters, and then a place in it; null leaves the place for later.</param>
    public static async Task BeginAsync(this Site site, IPage page, string? state = null, string latitude = "", string longitude = "")
    {
        await page.GetByLabel("Code from the program’s output").FillAsync(site.Services.GetRequiredService<FirstRunSetup>().Code);
        await page.GetByLabel("Name of the neighbourhood").FillAsync("Alder Bend");
        if (state is not null)
        {
            await page.GetByLabel("State", new() { Exact = true }).SelectOptionAsync(state);
            await page.GetByLabel("Latitude, degrees north").FillAsync(latitude);
            await page.GetByLabel("Longitude, degrees; below 0 in America").FillAsync(longitude);
        }

        await page.GetByLabel("Your name").FillAsync("Ada");
        await page.GetByLabel("Your e-mail address").FillAsync("ada@alder-bend.example");
        await page.GetByLabel("A password").FillAsync("seven quiet herons");
        await Site.PictureAsync(page, "j1-begin");
        await page.GetByRole(AriaRole.Button, new() { Name = "Begin" }).ClickAsync();
        await Site.LiveAsync(page, page.GetByRole(AriaRole.Heading, new() { Name = "Alder Bend", Exact = true }));
    }

    /// <summary>Adds the first block by hand, on the group's page.</summary>
    public static async Task AddBlockAsync(IPage page)
    {
        await Site.LiveAsync(page, page.GetByLabel("Street", new() { Exact = true }));
        await page.GetByLabel("Street", new() { Exact = true }).FillAsync("Alder Street");
        await page.GetByLabel("Block", new() { Exact = true }).FillAsync("Mill to Ferry");
        await page.GetByLabel("Latitude of its middle").FillAsync("41.8701");
        await page.GetByLabel("Longitude").FillAsync("-88.4402");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add the block" }).ClickAsync();
        await Expect(page.GetByText("1 block on 1 street: Alder Street, Mill to Ferry.")).ToBeVisibleAsync();
    }
}
