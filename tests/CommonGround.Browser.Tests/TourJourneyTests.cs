using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>A household lets guests in, the steward sets a tour, and a guest opens it on a phone.</summary>
[Collection(SiteCollection.Name)]
public sealed class TourJourneyTests(Site site)
{
    [Fact]
    public async Task A_tour_is_set_and_opened_on_a_phone_without_an_address_that_nobody_gave()
    {
        // Consent is the household's own: a member gives it for the yard they have.
        var (member, memberErrors) = await site.PageAsync(role: "member");
        await site.GoAsync(member, "/yards");
        var yard = (await member.Locator("main a[href^='/yards/']").EvaluateAllAsync<string[]>(
            "links => links.map(l => l.getAttribute('href')).filter(h => /^.yards.[A-Z]+-[0-9]+$/.test(h)).map(h => h.slice(7))"))[0];
        await LetInAsync(member, yard, "It began here with one bergamot.");
        await Site.PictureAsync(member, "consent-1280");
        await member.Context.CloseAsync();
        memberErrors.ShouldBeEmpty();

        var (page, errors) = await site.PageAsync();
        await site.GoAsync(page, "/tours");
        await Site.LiveAsync(page, page.GetByLabel("Street or yard"));
        var street = await page.GetByLabel("Street or yard").Locator("option").Nth(1).InnerTextAsync();
        await page.GetByLabel("Street or yard").SelectOptionAsync(street);
        await page.GetByRole(AriaRole.Button, new() { Name = "Set the tour" }).ClickAsync();
        await Expect(page.GetByText("Choose a day from August 19, 2026 on")).ToBeVisibleAsync();
        await page.GetByLabel("Day").FillAsync("2026-08-22");
        await page.GetByLabel("Where and when guests meet, and what you say first").FillAsync("At ten at the corner of Mill Lane.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Set the tour" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Cell, new() { Name = "August 22, 2026" })).ToBeVisibleAsync();
        await Site.PictureAsync(page, "tours-1280");
        var address = await page.GetByRole(AriaRole.Link, new() { Name = "Page for phones" }).GetAttributeAsync("href");

        var (guest, guestErrors) = await site.PageAsync(360, ColorScheme.Light, "visitor");
        await site.GoAsync(guest, address!);
        await Expect(guest.GetByRole(AriaRole.Heading, new() { Name = street, Exact = true })).ToBeVisibleAsync();
        await Expect(guest.GetByText("At ten at the corner of Mill Lane.")).ToBeVisibleAsync();
        await Expect(guest.GetByText("It began here with one bergamot.")).ToBeVisibleAsync();
        await Expect(guest.Locator("ol.tour > li")).ToHaveCountAsync(1);
        await Expect(guest.Locator("main")).Not.ToContainTextAsync(yard);
        await Expect(guest.GetByText("Visited by").First).ToBeVisibleAsync();
        await Site.PictureAsync(guest, "tour-360");
        await guest.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
        await Site.PictureAsync(guest, "tour-360-dark");
        await guest.SetViewportSizeAsync(1280, 900);
        await Site.PictureAsync(guest, "tour-1280-dark");
        foreach (var paper in new[] { "/leaflet.pdf", "/steward.pdf" })
        {
            var answer = await page.APIRequest.GetAsync(site.Address + address + paper);
            answer.Headers["content-type"].ShouldBe("application/pdf");
            if (Site.Pictures is { } folder)
            {
                await File.WriteAllBytesAsync(Path.Combine(folder, "tour-" + paper[1..]), await answer.BodyAsync());
            }
        }

        if (Site.Pictures is { } pictures)
        {
            var invitation = await page.APIRequest.GetAsync(site.Address + "/streets/invitation.pdf?street=Kiln+Street&ask=the+organisers");
            await File.WriteAllBytesAsync(Path.Combine(pictures, "invitation.pdf"), await invitation.BodyAsync());
        }

        await page.GetByRole(AriaRole.Button, new() { Name = $"End the tour of {street}" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "End the tour", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Cell, new() { Name = "August 22, 2026" })).ToHaveCountAsync(0);
        errors.ShouldBeEmpty();
        guestErrors.ShouldBeEmpty();
        await guest.Context.CloseAsync();
        await page.Context.CloseAsync();
    }

    /// <summary>Gives the consent, and writes the steward's line.</summary>
    private async Task LetInAsync(IPage page, string yard, string line)
    {
        await site.GoAsync(page, $"/yards/{yard}/keep");
        await page.GetByText("Guests of a tour may stop here.").ClickAsync();
        await Expect(page.GetByText("Saved. It applies everywhere from now on.")).ToBeVisibleAsync();
        await Expect(page.GetByLabel("What the steward says here")).ToBeVisibleAsync();
        if (line.Length > 0)
        {
            await page.GetByLabel("What the steward says here").FillAsync(line);
            await page.GetByRole(AriaRole.Button, new() { Name = "Save what a tour says" }).ClickAsync();
            await Expect(page.GetByText("Saved. Every tour through this yard says it.")).ToBeVisibleAsync();
        }
    }
}
