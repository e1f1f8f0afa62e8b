using System.Text;
using CommonGround.Web.Features.Membership;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>A reload at any moment and the browser's own way back lose nothing; many are invited at once.</summary>
[Collection(SiteCollection.Name)]
public sealed class ReloadTests(Site site, EmptySite begun) : IClassFixture<EmptySite>
{
    private const string Streets = """
        {"type":"FeatureCollection","features":[
        {"type":"Feature","properties":{"NAME":"Alder Street"},
        "geometry":{"type":"LineString","coordinates":[[-88.44,41.87],[-88.438,41.87]]}},
        {"type":"Feature","properties":{"NAME":"Ferry Street"},
        "geometry":{"type":"LineString","coordinates":[[-88.438,41.87],[-88.438,41.872]]}}]}
        """;

    [Fact]
    public async Task A_number_that_still_holds_the_cursor_comes_back_after_a_reload()
    {
        var (page, errors) = await site.PageAsync(units: "metric");
        await site.GoAsync(page, "/yards/register");
        await Site.ChooseAsync(page, "Block", "Kiln Street, Sawyer to Tollgate");
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: ground" }).ClickAsync();
        await Site.LiveAsync(page, page.GetByLabel("Whole yard, m²"));
        await page.GetByLabel("Whole yard, m²").FillAsync("640");
        await page.GetByLabel("Lawn today, m²").ClickAsync();
        await page.GetByLabel("Lawn today, m²").PressSequentiallyAsync("215");
        await page.ReloadAsync();
        await Site.LiveAsync(page, page.GetByLabel("Whole yard, m²"));
        await Expect(page.GetByLabel("Whole yard, m²")).ToHaveValueAsync("640");
        await Expect(page.GetByLabel("Lawn today, m²")).ToHaveValueAsync("215");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task The_way_back_goes_one_step_back_in_registering_and_what_was_typed_stays()
    {
        var (page, errors) = await site.PageAsync(units: "metric");
        await site.GoAsync(page, "/yards/register");
        await Site.ChooseAsync(page, "Block", "Kiln Street, Sawyer to Tollgate");
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: ground" }).ClickAsync();
        await page.GetByLabel("Whole yard, m²").FillAsync("640");
        await page.GetByLabel("full sun").CheckAsync();
        await page.GetByLabel("medium").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Next: beds" }).ClickAsync();
        await Site.LiveAsync(page, page.GetByLabel("Bed 1, name"));
        await page.GoBackAsync();
        await Site.LiveAsync(page, page.GetByLabel("Whole yard, m²"));
        await Expect(page.GetByLabel("Whole yard, m²")).ToHaveValueAsync("640");
        await page.GoForwardAsync();
        await Site.LiveAsync(page, page.GetByLabel("Bed 1, name"));
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_map_file_that_is_looked_at_survives_a_reload_and_the_way_back_leads_to_the_empty_page()
    {
        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, "/streets/file");
        await Expect(page.GetByLabel("Map file")).ToBeEnabledAsync();
        await page.GetByLabel("Map file").SetInputFilesAsync(new FilePayload
        {
            Name = "alder.geojson",
            MimeType = "application/geo+json",
            Buffer = Encoding.UTF8.GetBytes(Streets)
        });
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "alder.geojson" })).ToBeVisibleAsync();
        await page.WaitForURLAsync("**/streets/file?at=*");
        await page.GetByLabel("Within so many km").FillAsync("");
        await page.GetByLabel("Within so many km").BlurAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Store 2 blocks" })).ToBeEnabledAsync();
        await page.ReloadAsync();
        await Site.LiveAsync(page, page.GetByRole(AriaRole.Heading, new() { Name = "alder.geojson" }));
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Store 2 blocks" })).ToBeEnabledAsync();
        await page.GoBackAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "alder.geojson" })).ToHaveCountAsync(0);
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Many_are_invited_at_once_and_their_slips_come_as_one_file()
    {
        var (page, errors) = await begun.PageAsync();
        await page.GotoAsync(begun.Address + "/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Begin your group’s record" }).ClickAsync();
        await page.GetByLabel("Code from the program’s output").FillAsync(begun.Services.GetRequiredService<FirstRunSetup>().Code);
        await page.GetByLabel("Name of the neighbourhood").FillAsync("Alder Bend");
        await page.GetByLabel("Your name").FillAsync("Ada");
        await page.GetByLabel("Your e-mail address").FillAsync("ada@alder-bend.example");
        await page.GetByLabel("A password").FillAsync("seven quiet herons");
        await page.GetByRole(AriaRole.Button, new() { Name = "Begin" }).ClickAsync();
        await page.WaitForSelectorAsync(Site.Works);
        await begun.GoAsync(page, "/more/people");
        await page.GetByText("Invite many at once").ClickAsync();
        await page.GetByLabel("One person a line").FillAsync(
            "the corner house\nwren@alder-bend.example\nThe corner house\n\nnumber twelve");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make 3 invitations" }).ClickAsync();
        await Expect(page.Locator(".invite-many code.key")).ToHaveCountAsync(3);
        await Expect(page.GetByText("The codes are shown only now")).ToBeVisibleAsync();
        await Site.PictureAsync(page, "invite-many-1280");
        var slips = await page.RunAndWaitForDownloadAsync(
            () => page.GetByRole(AriaRole.Button, new() { Name = "Slips to print (letter)" }).ClickAsync());
        slips.SuggestedFilename.ShouldBe("invitations.pdf");
        Encoding.Latin1.GetString(await File.ReadAllBytesAsync((await slips.PathAsync())!), 0, 5).ShouldBe("%PDF-");
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
    }
}
