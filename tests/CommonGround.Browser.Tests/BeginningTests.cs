using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>From an empty folder to the first planting, by what the screens say and nothing else.</summary>
[Collection(SiteCollection.Name)]
public sealed class BeginningTests(EmptySite site) : IClassFixture<EmptySite>
{
    [Fact]
    public async Task A_group_begins_invites_a_member_and_the_member_records_a_first_planting()
    {
        var (ada, adasErrors) = await site.PageAsync(units: "metric");
        await ada.GotoAsync(site.Address + "/begin");
        await site.BeginAsync(ada);
        await Site.PictureAsync(ada, "j2-group");
        await AddPlaceAsync(ada);
        var link = await InviteAsync(ada);

        var (ben, bensErrors) = await site.PageAsync(width: 360, units: "metric");
        await JoinAsync(ben, link);
        await RegisterAsync(ben);
        await RecordAsync(ben);

        // The organiser sees the yard too; a stranger is asked who they are.
        await site.GoAsync(ada, "/yards");
        await Expect(ada.GetByRole(AriaRole.Link, new() { Name = "AL-01" })).ToBeVisibleAsync();
        var (stranger, _) = await site.PageAsync();
        await stranger.GotoAsync(site.Address + "/yards/AL-01");
        await Expect(stranger.GetByRole(AriaRole.Heading, new() { Name = "Sign in" })).ToBeVisibleAsync();
        adasErrors.ShouldBeEmpty();
        bensErrors.ShouldBeEmpty();
        foreach (var page in new[] { ada, ben, stranger })
        {
            await page.Context.CloseAsync();
        }
    }

    private static async Task AddPlaceAsync(IPage page)
    {
        await Beginning.AddBlockAsync(page);
        await Site.PictureAsync(page, "j3-block");
        await page.GetByRole(AriaRole.Link, new() { Name = "invite them" }).ClickAsync();
    }

    private static async Task<string> InviteAsync(IPage page)
    {
        await Site.LiveAsync(page, page.GetByRole(AriaRole.Heading, new() { Name = "You are the only one here yet" }));
        await page.GetByLabel("For whom").FillAsync("Ben, the corner house");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make an invitation" }).ClickAsync();
        await Expect(page.GetByText("Give this to them")).ToBeVisibleAsync();
        await Site.PictureAsync(page, "j4-people");
        return await page.Locator(".slip .key").First.InnerTextAsync();
    }

    private static async Task JoinAsync(IPage page, string link)
    {
        await page.GotoAsync(link);
        await Site.PictureAsync(page, "j5-join");
        await page.GetByLabel("Your name").FillAsync("Ben");
        await page.GetByLabel("Your e-mail address").FillAsync("ben@alder-bend.example");
        await page.GetByLabel("A password").FillAsync("slow river of starlings");
        await page.GetByRole(AriaRole.Button, new() { Name = "Join" }).ClickAsync();
        await page.WaitForSelectorAsync(Site.Works);
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Welcome to Alder Bend" })).ToBeVisibleAsync();
        await Site.PictureAsync(page, "j6-welcome");
        await page.GetByRole(AriaRole.Link, new() { Name = "Register your yard" }).ClickAsync();
    }

    private static async Task RegisterAsync(IPage page)
    {
        await Site.ChooseAsync(page, "Block", "Alder Street, Mill to Ferry");
        await Expect(page.GetByLabel("Code", new() { Exact = true })).ToHaveValueAsync("AL-01");
        await Site.PictureAsync(page, "j7-where");
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: ground" }).ClickAsync();
        await page.GetByLabel("Whole yard, m²").FillAsync("600");
        await page.GetByLabel("full sun").CheckAsync();
        await page.GetByLabel("medium").CheckAsync();
        await Site.PictureAsync(page, "j8-ground");
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: beds" }).ClickAsync();
        await page.GetByLabel("Area, m² (blank if not measured)").FillAsync("12");
        await Site.PictureAsync(page, "j9-beds");
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: sharing" }).ClickAsync();
        await page.GetByLabel("Let this yard count").CheckAsync();
        await Site.PictureAsync(page, "j10-sharing");
        await page.GetByRole(AriaRole.Button, new() { Name = "Register the yard" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Yard AL-01", Exact = true })).ToBeVisibleAsync();
        await Site.PictureAsync(page, "j11-yard");
    }

    private static async Task RecordAsync(IPage page)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = "Record the first planting" }).ClickAsync();
        var entry = page.Locator("#entry");
        await Site.LiveAsync(page, entry);
        await entry.PressSequentiallyAsync("wild berg 4 fl", new() { Delay = 15 });
        await Expect(page.Locator("#offers [role=option]").First).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(entry).ToHaveValueAsync("");
        await Site.PictureAsync(page, "j12-record");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save 1 planting" }).ClickAsync();
        await Expect(page.GetByText("Saved 1 planting in Front bed.")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "yard’s page" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Yard AL-01", Exact = true })).ToBeVisibleAsync();
        // On a phone the plantings lie folded below their closed line.
        await page.EvaluateAsync("document.querySelectorAll('details').forEach(d => d.open = true)");
        await Expect(page.GetByRole(AriaRole.Rowheader, new() { Name = "wild bergamot" })).ToBeVisibleAsync();
        await Site.PictureAsync(page, "j13-planted");
    }
}
