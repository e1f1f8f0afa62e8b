using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace CommonGround.Browser.Tests;

/// <summary>A photo's way in and out, with a browser that truly draws what was stored.</summary>
[Collection(SiteCollection.Name)]
public sealed class PhotoTests(Site site)
{
    [Theory]
    [InlineData("photo.jpg",
        "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABsSFBcUERsXFhceHBsgKEIrKCUlKFE6PTBCYFVlZF9VXVtqeJmBanGQc1tdhbWGkJ6jq62rZ4C8ybqmx5moq6T/2wBDARweHigjKE4rK06kbl1upKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKT/wAARCAAMABADASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAAEF/8QAGRAAAQUAAAAAAAAAAAAAAAAAAAITFFFh/8QAFQEBAQAAAAAAAAAAAAAAAAAAAgX/xAAWEQADAAAAAAAAAAAAAAAAAAAAARP/2gAMAwEAAhEDEQA/AJDwQ8NtpFBpFES7DFH/2Q==")]
    [InlineData("photo.png",
        "iVBORw0KGgoAAAANSUhEUgAAABAAAAAMEAIAAAC0FXaVAAAATElEQVQ4T2NkYGhoYKAhYBF345lOQ/MZWMRduWlsgRvPDJr6QMKN9j6gcRC50jqSaRxEjLv07lrSNJLF3bhpm4rEaRwHjP+BgJZBBABidBAeKZh5bgAAAABJRU5ErkJggg==")]
    [InlineData("photo.webp", "UklGRkAAAABXRUJQVlA4IDQAAADwAQCdASoQAAwABABoJbACdGuAAszncIAA/ni6sV68sHtA/9rf+wn//5369c3hwNkDAAAA")]
    public async Task A_photo_is_added_drawn_and_removed_and_something_else_is_refused_in_plain_words(string name, string picture)
    {
        var (page, errors) = await site.PageAsync(360);
        await site.GoAsync(page, "/yards/KI-07/photos");
        await page.GetByText("Add a photo").ClickAsync();
        var file = page.GetByLabel("JPEG, PNG or WebP, up to 10 MB");
        await file.SetInputFilesAsync(new FilePayload { Name = name, MimeType = "image/jpeg", Buffer = "<svg/>"u8.ToArray() });
        await Expect(page.GetByText("This is no JPEG, PNG or WebP picture")).ToBeVisibleAsync();
        await file.SetInputFilesAsync(new FilePayload { Name = name, MimeType = "image/jpeg", Buffer = Convert.FromBase64String(picture) });
        await Expect(page.GetByText("This is no JPEG, PNG or WebP picture")).ToHaveCountAsync(0);
        await page.GetByLabel("Caption, if it needs one").FillAsync("bergamot by the gate, " + name);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add the photo" }).ClickAsync();
        var image = page.GetByRole(AriaRole.Img, new() { Name = "bergamot by the gate, " + name });
        await Expect(image).ToBeVisibleAsync();
        await image.ScrollIntoViewIfNeededAsync();
        await page.WaitForFunctionAsync("alt => document.querySelector(`img[alt='${alt}']`).naturalWidth > 0",
            "bergamot by the gate, " + name);
        await Site.PictureAsync(page, "photos-" + name[6..]);
        var address = site.Address + await image.GetAttributeAsync("src");
        var answer = await page.APIRequest.GetAsync(address);
        (answer.Headers["x-content-type-options"], answer.Headers["content-disposition"],
            answer.Headers["cache-control"]).ShouldBe(("nosniff", "inline", "no-store"));
        answer.Headers["content-type"].ShouldStartWith("image/");

        // Not a visitor's, nor everyone's without consent, nor another yard's.
        var (visitor, _) = await site.PageAsync(role: "visitor");
        (await visitor.APIRequest.GetAsync(address)).Status.ShouldBeOneOf(403, 404);
        (await visitor.APIRequest.GetAsync(site.Address + "/photos/" + address.Split('/')[^1])).Status.ShouldBe(404);
        (await page.APIRequest.GetAsync(address.Replace("KI-07", "KI-05", StringComparison.Ordinal))).Status.ShouldBe(404);
        await page.GetByRole(AriaRole.Listitem).Filter(new() { Has = image }).GetByRole(AriaRole.Button).ClickAsync();
        await page.GetByRole(AriaRole.Dialog).GetByRole(AriaRole.Button, new() { Name = "Remove", Exact = true }).ClickAsync();
        await Expect(page.GetByText("For 30 days it can be restored, then")).ToBeVisibleAsync();
        (await page.APIRequest.GetAsync(address)).Status.ShouldBe(404);
        errors.ShouldBeEmpty();
        await page.Context.CloseAsync();
        await visitor.Context.CloseAsync();
    }
}
