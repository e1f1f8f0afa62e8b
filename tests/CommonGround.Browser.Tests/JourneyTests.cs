using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>What people come for, from the first press to the last.</summary>
[Collection(SiteCollection.Name)]
public sealed partial class JourneyTests(Site site)
{
    [Fact]
    public async Task A_member_registers_a_yard_records_by_keyboard_and_gets_a_report()
    {
        var (page, errors) = await site.PageAsync(role: "member", units: "metric");
        await site.GoAsync(page, "/yards/register");
        await Site.ChooseAsync(page, "Block", "Kiln Street, Sawyer to Tollgate");
        var code = page.GetByLabel("Code", new() { Exact = true });
        await Expect(code).ToHaveValueAsync(CodePattern());
        var yard = await code.InputValueAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: ground" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: beds" }).ClickAsync();
        await Expect(page.GetByText("How large is the yard, house and drive included?")).ToBeVisibleAsync();
        await page.GetByLabel("Whole yard, m²").FillAsync("640");
        await page.GetByLabel("Lawn today, m²").FillAsync("310");
        await page.GetByLabel("full sun").CheckAsync();
        await page.GetByLabel("medium").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: beds" }).ClickAsync();
        await page.GetByLabel("Area, m² (blank if not measured)").FillAsync("28");
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: sharing" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Register the yard" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Yard " + yard, Exact = true })).ToBeVisibleAsync();

        await page.GetByRole(AriaRole.Link, new() { Name = "Record plantings" }).ClickAsync();
        await page.WaitForURLAsync($"{site.Address}/yards/{yard}/record");
        await page.WaitForSelectorAsync(Site.Works);
        await page.Locator("#entry").FocusAsync();
        await TypeLineAsync(page, "aro ast 1.5 bud prob");
        await TypeLineAsync(page, "wild berg 4 fl");
        await TypeLineAsync(page, "Ratibida pinnata 31 fl");
        await Expect(page.GetByText("31 m² is more than the bed, which is 28 m². Did you mean 3.1?")).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("Control+Enter");
        await Expect(page.GetByText("Saved 2 plantings in Front bed.")).ToBeVisibleAsync();
        await Expect(page.GetByText("31 m² is more than the bed, which is 28 m².")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Use 3.1 m²" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Save 1 planting" }).ClickAsync();
        await Expect(page.GetByText("Saved 1 planting in Front bed.")).ToBeVisibleAsync();

        await site.GoAsync(page, "/yards/" + yard);
        foreach (var plant in new[] { "aromatic aster", "wild bergamot", "yellow coneflower" })
        {
            await Expect(page.GetByRole(AriaRole.Rowheader, new() { Name = plant })).ToBeVisibleAsync();
        }

        var report = await page.APIRequest.GetAsync($"{site.Address}/yards/{yard}/report.pdf?paper=a4");
        report.Status.ShouldBe(200);
        (await report.BodyAsync())[..5].ShouldBe("%PDF-"u8.ToArray());
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task An_organiser_plans_a_lawn_changes_the_plan_keeps_it_and_prints_it()
    {
        var (page, errors) = await site.PageAsync(role: "organiser", units: "metric");
        await site.GoAsync(page, "/plans");
        await page.GetByLabel("Yard code").FillAsync("ki-05");
        await page.GetByRole(AriaRole.Button, new() { Name = "Plan this yard" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "half-months in flower" })).ToBeVisibleAsync();
        await Expect(page.GetByText("Proven: among the plants that good practice offers")).ToBeVisibleAsync();
        await Expect(page.Locator(".tradeoffs button").Nth(1)).ToBeVisibleAsync();

        // A plant that is dropped stays out, and what was typed comes back after a lost connection.
        var first = page.Locator("table.species tbody tr").First;
        var name = await first.Locator("th .latin").InnerTextAsync();
        await first.GetByRole(AriaRole.Button, new() { Name = "Drop" }).ClickAsync();
        await Expect(page.Locator("table.species th .latin").Filter(new() { HasText = name })).ToHaveCountAsync(0);
        await page.GetByLabel("Tallest plant, m").FillAsync("1");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.Locator(".plan-grid")).ToHaveAttributeAsync("aria-busy", "false");
        await site.GoAsync(page, "/yards/KI-05/plan");
        await Expect(page.GetByText("What you last typed for this yard is back.")).ToBeVisibleAsync();
        await Expect(page.GetByLabel("Tallest plant, m")).ToHaveValueAsync("1");
        await Expect(page.Locator("table.species th .latin").Filter(new() { HasText = name })).ToHaveCountAsync(0);

        // Limits that contradict each other are named, with a way out.
        await page.GetByLabel("Tallest plant, m").FillAsync("0.1");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.GetByText("These limits cannot all be met")).ToBeVisibleAsync();
        await page.GetByLabel("Tallest plant, m").FillAsync("1.2");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.GetByText("These limits cannot all be met")).ToHaveCountAsync(0);

        // The preview is the report as it would be now, and gone when it is closed.
        await page.GetByRole(AriaRole.Button, new() { Name = "Preview the report" }).ClickAsync();
        var address = site.Address + await page.Locator("iframe.report-preview").GetAttributeAsync("src");
        var preview = await page.APIRequest.GetAsync(address);
        preview.Status.ShouldBe(200);
        (await preview.BodyAsync())[..5].ShouldBe("%PDF-"u8.ToArray());
        await page.GetByRole(AriaRole.Button, new() { Name = "Close the preview" }).ClickAsync();
        await Expect(page.Locator("iframe.report-preview")).ToHaveCountAsync(0);
        (await page.APIRequest.GetAsync(address)).Status.ShouldBe(404);

        await page.GetByRole(AriaRole.Button, new() { Name = "then print" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "Print the report" })).ToBeVisibleAsync();
        var report = await page.APIRequest.GetAsync(page.Url + "/report.pdf");
        report.Status.ShouldBe(200);
        (await report.BodyAsync())[..5].ShouldBe("%PDF-"u8.ToArray());
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_save_is_undone_and_its_lines_come_back()
    {
        var (page, _) = await site.PageAsync(units: "metric");
        await site.GoAsync(page, "/yards/KI-05/record");
        await page.Locator("#entry").FocusAsync();
        await TypeLineAsync(page, "Aster azureus 0.7 self");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save 1 planting" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo this save" }).ClickAsync();
        await Expect(page.GetByText("The save was undone; the lines are back below.")).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Rowheader, new() { Name = "sky-blue aster" })).ToBeVisibleAsync();
        await site.GoAsync(page, "/yards/KI-05");
        await Expect(page.GetByRole(AriaRole.Rowheader, new() { Name = "sky-blue aster" })).Not.ToBeVisibleAsync();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Lines_that_were_not_saved_survive_a_lost_page()
    {
        var (page, _) = await site.PageAsync(units: "metric");
        await site.GoAsync(page, "/yards/LA-07/record");
        await page.Locator("#entry").FocusAsync();
        await TypeLineAsync(page, "showy goldenrod 0.9 bud prob");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "One line, not saved yet" })).ToBeVisibleAsync();
        await site.GoAsync(page, "/yards/LA-07/record");
        await Expect(page.GetByText("These lines were typed before and not saved.")).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Rowheader, new() { Name = "showy goldenrod" })).ToBeVisibleAsync();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task An_organiser_reads_the_map_the_year_and_the_table()
    {
        var (page, errors) = await site.PageAsync(units: "metric");
        await site.GoAsync(page, "/streets");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("the blocks go quiet in mid-September");
        await page.GetByRole(AriaRole.Link, new() { NameRegex = KilnBlock() }).First.ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Kiln Street, Wheelwright to Sawyer" })).ToBeVisibleAsync();
        await Expect(page.GetByText("In this order, these help most")).ToBeVisibleAsync();
        var slider = page.GetByRole(AriaRole.Slider);
        await slider.FocusAsync();
        await slider.PressAsync("ArrowRight");
        await Expect(page.GetByText(SeptemberBlocks())).ToBeVisibleAsync();
        await Expect(page.GetByText("Native species in flower, September 1–15")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Invasive pressure", Exact = true }).ClickAsync();
        await Expect(page.GetByText("Invasive pressure, m²-equivalents")).ToBeVisibleAsync();
        var heading = page.Locator("table.streets").GetByRole(AriaRole.Columnheader, new() { Name = "Native kinds" });
        await heading.GetByRole(AriaRole.Link).ClickAsync();
        await Expect(heading).ToHaveAttributeAsync("aria-sort", "ascending");
        await heading.GetByRole(AriaRole.Link).ClickAsync();
        await Expect(heading).ToHaveAttributeAsync("aria-sort", "descending");
        await Expect(page.Locator("table.streets tbody tr").First).ToContainTextAsync("Lathe Street");
        await page.GetByRole(AriaRole.Button, new() { Name = "Replay the year" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Stop" })).ToBeVisibleAsync();
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_visitor_sees_blocks_but_no_yard()
    {
        var (page, _) = await site.PageAsync(role: "visitor");
        await site.GoAsync(page, "/yards/LA-07");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "This page is for members" })).ToBeVisibleAsync();
        await site.GoAsync(page, "/streets");
        await Expect(page.Locator(".parcel")).ToHaveCountAsync(0);
        (await page.APIRequest.GetAsync(site.Address + "/yards/LA-07/report.pdf")).Status.ShouldBe(403);
        await site.GoAsync(page, "/more");
        await page.GetByRole(AriaRole.Button, new() { Name = "a member" }).ClickAsync();
        await site.GoAsync(page, "/yards");
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "LA-07" })).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "KI-01" })).ToHaveCountAsync(0);
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Units_and_theme_hold_on_every_page()
    {
        var (page, _) = await site.PageAsync(units: "metric");
        await site.GoAsync(page, "/more");
        await page.GetByRole(AriaRole.Button, new() { Name = "US customary, ft²" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "dark", Exact = true }).ClickAsync();
        await site.GoAsync(page, "/yards/KI-05");
        await Expect(page.Locator("html")).ToHaveAttributeAsync("data-theme", "dark");
        await Expect(page.GetByText("Cover, ft²").First).ToBeVisibleAsync();
        await page.Context.CloseAsync();
    }

    private static async Task TypeLineAsync(IPage page, string line)
    {
        var entry = page.Locator("#entry");
        await entry.PressSequentiallyAsync(line, new() { Delay = 15 });
        await Expect(page.Locator("#offers [role=option]").First).ToBeVisibleAsync();
        await Expect(entry).ToHaveValueAsync(line);
        await page.Keyboard.PressAsync("Enter");
        await Expect(entry).ToHaveValueAsync("");
    }

    [GeneratedRegex("^KI-\\d\\d$")]
    private static partial Regex CodePattern();

    [GeneratedRegex("^September 1–15: \\d+ of 34 blocks covered$")]
    private static partial Regex SeptemberBlocks();

    [GeneratedRegex("^Kiln Street, Wheelwright to Sawyer")]
    private static partial Regex KilnBlock();
}
