using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>Controls that open: lists, suggestions, questions. Axe-core finds nothing while it is open.</summary>
[Collection(SiteCollection.Name)]
public sealed class ControlTests(Site site)
{
    [Theory]
    [InlineData(1280, ColorScheme.Light)]
    [InlineData(360, ColorScheme.Dark)]
    public async Task An_open_list_is_accessible(int width, ColorScheme scheme)
    {
        var (page, errors) = await site.PageAsync(width, scheme);
        await site.GoAsync(page, "/yards/register");
        var block = page.GetByLabel("Block", new() { Exact = true });
        await block.ClickAsync();
        await Expect(page.Locator(".mud-popover-open")).ToHaveCountAsync(1);
        await Site.PictureAsync(page, $"list-{width}");
        await ShouldBeAccessibleAsync(page);
        await page.Locator(".mud-popover-open").GetByText("Kiln Street, Sawyer to Tollgate", new() { Exact = true }).ClickAsync();
        await Expect(page.GetByLabel("Code", new() { Exact = true })).Not.ToHaveValueAsync("");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Theory]
    [InlineData(1280, ColorScheme.Light)]
    [InlineData(360, ColorScheme.Dark)]
    public async Task What_ends_something_is_asked_first_and_escape_means_no(int width, ColorScheme scheme)
    {
        var (page, errors) = await site.PageAsync(width, scheme);
        await site.GoAsync(page, "/yards/KI-05/keep");
        await page.GetByRole(AriaRole.Button, new() { Name = "Take it out…" }).ClickAsync();
        var dialog = page.GetByRole(AriaRole.Dialog);
        await Expect(dialog).ToContainTextAsync("Take yard KI-05 out of the record?");
        await Site.PictureAsync(page, $"dialog-{width}");
        await ShouldBeAccessibleAsync(page);
        await page.Keyboard.PressAsync("Escape");
        await Expect(dialog).ToHaveCountAsync(0);
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Yard KI-05: facts and consent" })).ToBeVisibleAsync();
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    // The keys of a list that opens: WAI-ARIA Authoring Practices, pattern "Combobox", select-only.
    [Fact]
    public async Task A_list_is_opened_walked_and_chosen_from_by_keyboard()
    {
        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, "/yards/register");
        await page.GetByLabel("Block", new() { Exact = true }).FocusAsync();
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator(".mud-popover-open")).ToHaveCountAsync(1);
        await ShouldBeAccessibleAsync(page);
        await page.Keyboard.PressAsync("ArrowDown");
        await Expect(page.Locator(".mud-popover-open .mud-selected-item")).ToHaveCountAsync(1);
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".mud-popover-open")).ToHaveCountAsync(0);
        await Expect(page.GetByLabel("Code", new() { Exact = true })).Not.ToHaveValueAsync("");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    // The list of suggestions is the browser's own (HTML, datalist); whoever goes on at once is never held up by it.
    [Fact]
    public async Task A_code_is_suggested_and_taken_as_typed()
    {
        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, "/plans");
        var yard = page.GetByLabel("Yard code", new() { Exact = true });
        (await yard.EvaluateAsync<bool>("field => [...field.list.options].some(o => o.value === 'KI-05')")).ShouldBeTrue();
        await ShouldBeAccessibleAsync(page);
        await yard.PressSequentiallyAsync("ki-05");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Plan this yard" })).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/yards/KI-05/plan$"));
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    private static async Task ShouldBeAccessibleAsync(IPage page)
    {
        var axe = await page.RunAxe();
        axe.Violations
            .Select(v => $"{v.Id}: {v.Help}; {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html[..Math.Min(180, n.Html.Length)]))}")
            .ShouldBeEmpty();
    }

    [Fact]
    public async Task A_day_is_written_by_keyboard()
    {
        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, "/yards/KI-05/photos");
        await page.EvaluateAsync("document.querySelectorAll('details').forEach(d => d.open = true)");
        var day = page.GetByLabel("Taken on", new() { Exact = true });
        await day.FocusAsync();
        await page.Keyboard.TypeAsync("08022026");
        await page.Keyboard.PressAsync("Tab");
        await Expect(day).ToHaveValueAsync("2026-08-02");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }
}
