using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>A live page says by itself that nobody hears it any more, keeps what is typed meanwhile, and hands it over
/// afterwards.</summary>
[Collection(SiteCollection.Name)]
public sealed class ConnectionTests(Site site)
{
    [Fact]
    public async Task A_cut_network_is_told_at_once_and_what_is_typed_meanwhile_is_handed_over()
    {
        var (page, _) = await site.PageAsync();
        await site.GoAsync(page, "/more/group");
        var street = page.GetByLabel("Block", new() { Exact = true });
        await street.FillAsync("Mill to");
        await page.Context.SetOfflineAsync(true);
        await Expect(page.Locator("#components-reconnect-modal")).ToContainTextAsync("What you typed is kept on this device.");
        await Site.PictureAsync(page, "connection-gone");
        await street.FillAsync("Mill to Ferry");
        await page.Context.SetOfflineAsync(false);
        await Expect(page.Locator("#components-reconnect-modal")).ToBeHiddenAsync();
        await Expect(street).ToHaveValueAsync("Mill to Ferry");
        // The site heard it: the draft it keeps in the browser has it.
        await page.WaitForFunctionAsync(
            "Object.keys(localStorage).some(k => k.startsWith('block:') && localStorage[k].includes('Mill to Ferry'))");
        await page.EvaluateAsync("localStorage.clear()");
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task What_is_typed_before_the_page_is_live_is_taken_over()
    {
        var (page, errors) = await site.PageAsync();
        var letIn = new TaskCompletionSource();
        await page.RouteAsync("**/_blazor/negotiate**", async route =>
        {
            await letIn.Task;
            await route.ContinueAsync();
        });
        await page.GotoAsync(site.Address + "/yards/LA-07/record");
        var entry = page.Locator("#entry");
        await entry.PressSequentiallyAsync("wild berg");
        // On a slow machine the fields vanish for a moment while they are made anew; letters typed then are not lost.
        await page.EvaluateAsync("document.querySelector('main').hidden = true");
        await page.WaitForFunctionAsync("document.activeElement === document.body");
        await page.Keyboard.TypeAsync(" 4");
        letIn.SetResult();
        await Expect(page.Locator("#offers [role=option]").First).ToBeVisibleAsync();
        await Expect(entry).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync(" fl");
        await Expect(entry).ToHaveValueAsync("wild berg 4 fl");
        await page.EvaluateAsync("localStorage.clear()");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_heading_that_takes_the_focus_late_does_not_take_it_from_a_field()
    {
        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, "/yards/LA-07/record");
        var entry = page.Locator("#entry");
        await entry.FocusAsync();
        await page.Keyboard.TypeAsync("wild");
        // As the framework does after a page was drawn (FocusOnNavigate).
        await page.EvaluateAsync("document.querySelector('h1').focus()");
        await page.Keyboard.TypeAsync(" berg");
        await Expect(entry).ToHaveValueAsync("wild berg");
        await entry.FillAsync("");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Back_and_forward_leave_a_live_page_alive()
    {
        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, "/plans");
        await page.GetByLabel("Yard code").FillAsync("KI-05");
        await page.GetByRole(AriaRole.Button, new() { Name = "Plan this yard" }).ClickAsync();
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/yards/KI-05/plan$"));
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "half-months in flower" })).ToBeVisibleAsync();
        await page.ReloadAsync();
        await page.WaitForSelectorAsync(Site.Works);
        await page.GoBackAsync();
        await Site.LiveAsync(page, page.GetByLabel("Yard code"));
        await page.GetByLabel("Yard code").FillAsync("KI-05");
        await page.GoForwardAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "half-months in flower" })).ToBeVisibleAsync();
        await page.WaitForSelectorAsync(Site.Works);
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }
}
