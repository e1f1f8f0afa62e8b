using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>Each screen of the walk at 360 points: axe-core (WCAG 2 A and AA rules) finds nothing, nothing needs sideways scrolling, and
/// every control is 44 px high and wide (WCAG 2.2, 2.5.5).</summary>
[Collection(WalkCollection.Name)]
public sealed class WalkScreenTests(WalkedSite site)
{
    [Fact]
    public async Task Every_screen_of_the_walk_fits_and_can_be_pressed_and_read()
    {
        var phone = await Phone.OpenAsync(site);
        await phone.Page.GotoAsync(site.Address + "/walk/");
        await phone.Page.WaitForSelectorAsync("[data-ready=yes]");
        await CheckAsync(phone.Page, "walk-yards");
        await phone.TakeAlongAsync("CO-09");
        await CheckAsync(phone.Page, "walk-plant");
        await phone.AsExpectedAsync();
        await CheckAsync(phone.Page, "walk-answered");
        foreach (var sheet in new[] { "Change", "Wildlife", "Weed", "New", "Photo", "List", "Stop" })
        {
            await phone.TapAsync(sheet);
            await phone.Page.WaitForSelectorAsync(".sheet");
            await CheckAsync(phone.Page, "walk-" + sheet.ToLowerInvariant());
            await phone.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^(Back|Back to the plants.*|Walk on)$") })
                .First.ClickAsync();
            await phone.Page.WaitForSelectorAsync("ol.wl");
        }

        phone.Errors.ShouldBeEmpty();
        await phone.CloseAsync();
    }

    [Fact]
    public async Task The_phones_back_button_closes_a_sheet_before_it_leaves_the_yard()
    {
        var phone = await Phone.OpenAsync(site);
        await phone.Page.GotoAsync(site.Address + "/walk/");
        await phone.Page.WaitForSelectorAsync("[data-ready=yes]");
        await phone.Page.GetByRole(AriaRole.Link, new() { NameRegex = new("^CO-09") }).ClickAsync();
        await phone.Page.WaitForSelectorAsync("ol.wl");
        foreach (var sheet in new[] { "Change", "Wildlife" })
        {
            await phone.TapAsync(sheet);
            await phone.Page.WaitForSelectorAsync(".sheet");
            await phone.Page.GoBackAsync();
            await phone.Page.WaitForSelectorAsync("ol.wl");
        }

        // A sheet that its own button closed leaves nothing to step through.
        await phone.TapAsync("New");
        await phone.Page.WaitForSelectorAsync(".sheet");
        await phone.TapAsync("Back");
        await phone.Page.WaitForSelectorAsync("ol.wl");
        await phone.Page.GoBackAsync();
        await Expect(phone.Page.GetByRole(AriaRole.Link, new() { NameRegex = new("^CO-09") })).ToBeVisibleAsync();
        phone.Errors.ShouldBeEmpty();
        await phone.CloseAsync();
    }

    [Fact]
    public async Task A_program_that_does_not_come_says_so_and_opens_at_the_next_try()
    {
        var phone = await Phone.OpenAsync(site);
        // Its parts fail: the framework says so, or the page that waits for them; the framework's own start fails: the page does.
        await phone.Page.RouteAsync("**/_framework/*.wasm", route => route.AbortAsync());
        await phone.Page.GotoAsync(site.Address + "/walk/");
        await Expect(phone.Page.Locator("[role=alert]:visible").First).ToContainTextAsync("kept on this phone");
        await phone.Page.RouteAsync("**/_framework/blazor.webassembly*.js", route => route.AbortAsync());
        await phone.Page.GotoAsync(site.Address + "/walk/");
        await Expect(phone.Page.Locator("#failed")).ToBeVisibleAsync();
        await phone.Page.UnrouteAllAsync();
        await phone.Page.GetByRole(AriaRole.Link, new() { Name = "Try again" }).ClickAsync();
        await phone.Page.WaitForSelectorAsync("[data-ready=yes]");
        await Expect(phone.Page.Locator("#failed")).ToBeHiddenAsync();
        await phone.CloseAsync();
    }

    [Fact]
    public async Task A_program_that_stands_still_says_so_while_it_still_waits()
    {
        var phone = await Phone.OpenAsync(site);
        await phone.Page.Clock.InstallAsync();
        // Neither an answer nor a failure: a signal that is there and carries nothing.
        var never = new TaskCompletionSource();
        await phone.Page.RouteAsync("**/_framework/*.wasm", _ => never.Task);
        await phone.Page.GotoAsync(site.Address + "/walk/");
        await Expect(phone.Page.Locator("#failed")).ToBeHiddenAsync();
        await phone.Page.Clock.RunForAsync(30_000);
        await Expect(phone.Page.Locator("#failed")).ToBeVisibleAsync();
        await Expect(phone.Page.Locator("#coming")).ToBeVisibleAsync();
        await phone.CloseAsync();
    }

    [Theory]
    [InlineData("picture.jpg", "AAAA", "not a picture that the phone can read")]
    // The first chunk of a PNG (ISO/IEC 15948, 11.2.2) that promises 30,000 by 30,000 pixels: 3.6 GB when it is opened.
    [InlineData("small.png", "iVBORw0KGgoAAAANSUhEUgAAdTAAAHUwCAYAAAA=", "30000 by 30000 pixels")]
    // The frame header of a JPEG (ITU-T T.81, B.2.2) that promises 65,000 by 60,000.
    [InlineData("small.jpg", "/9j/wAARCOpg/egDASIAAhEBAxEB", "65000 by 60000 pixels")]
    public async Task A_file_that_is_no_photo_or_too_large_a_one_is_told_before_it_is_opened(string name, string bytes, string said)
    {
        var phone = await Phone.OpenAsync(site);
        await phone.TakeAlongAsync("CO-09");
        await phone.TapAsync("Photo");
        await phone.Page.GetByLabel("Or choose one").SetInputFilesAsync(
            new FilePayload { Name = name, MimeType = "image/jpeg", Buffer = Convert.FromBase64String(bytes) });
        await Expect(phone.Page.Locator(".sheet [role=alert]")).ToContainTextAsync(said);
        await Expect(phone.Page.Locator("[data-photos='0']")).ToHaveCountAsync(1);
        await phone.CloseAsync();
    }

    private static async Task CheckAsync(IPage page, string name)
    {
        await Site.PictureAsync(page, name);
        var axe = await page.RunAxe();
        axe.Violations.Select(v =>
            $"{name}: {v.Id}: {v.Help}; {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html[..Math.Min(160, n.Html.Length)]))}")
            .ShouldBeEmpty();
        (await page.EvaluateAsync<int>("() => document.documentElement.scrollWidth - innerWidth")).ShouldBeLessThanOrEqualTo(0, name);
        (await page.EvaluateAsync<string[]>(
            "() => [...document.querySelectorAll('button, a, input:not([type=file]), textarea')].filter(e => !e.closest('p') && "
                + "e.getBoundingClientRect().height > 0 && (e.getBoundingClientRect().height < 44 || e.getBoundingClientRect().width < "
                + "44)).map(e => e.outerHTML.slice(0, 90))"))
            .ShouldBeEmpty(name);
    }
}
