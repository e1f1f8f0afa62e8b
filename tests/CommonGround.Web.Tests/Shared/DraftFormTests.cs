using Bunit;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Shared;
using CommonGround.Web.Tests.Features.Record;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Shared;

public class DraftFormTests
{
    [Fact]
    public async Task What_was_kept_comes_back_but_for_what_was_typed_while_it_was_read()
    {
        await using var screen = new Screen();
        var browser = new FakeBrowser();
        await browser.InvokeAsync<object?>("keep", ["block:1", """{"Street":"Withy Lane","Block":"Mill to Ferry"}"""]);
        var read = new TaskCompletionSource();
        browser.Reading = read.Task;
        screen.Services.AddScoped(_ => new BrowserDrafts(browser));
        var typed = new Place("", "");
        var shown = screen.Render<DraftForm<Place>>(p => p.Add(c => c.Key, "block:1").Add(c => c.Typed, () => typed).Add(c => c.OnFill,
            (Place kept) => typed = kept));
        typed = typed with { Street = "Withy Lane West" };
        read.SetResult();
        await shown.WaitForAssertionAsync(() => typed.ShouldBe(new("Withy Lane West", "Mill to Ferry")));
        // What came of it is kept, too, once the page that holds the form is drawn again.
        shown.Render();
        await shown.WaitForAssertionAsync(() => browser.Stored("block:1").ShouldContain("Withy Lane West"));
    }

    internal sealed record Place(string Street, string Block);
}
