using System.Net;
using CommonGround.Benchmarks;
using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Hosting;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>
/// Messages to the hub that no page of the sender offers: to every element of every live page, by somebody whose role does not allow the
/// page (ASVS 5.0, 8.3.1).
/// </summary>
public sealed class ForgedMessageTests(FreshSite site) : IClassFixture<FreshSite>
{
    public static TheoryData<string> Pages() => [.. LivePages.Templates];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_role_that_was_lowered_behind_the_pages_back_changes_nothing(string template)
    {
        using var fellow = await site.JoinAsync(Role.Member);
        using var who = await site.JoinAsync(Role.Administrator);
        var (path, cookies, html) = await OpenAsync(template, who, fellow);
        await using var page = await HubCircuit.BeginAsync(Address, path, html, cookies);
        await UntilAsync(() => page.Drawn.Contains("h1", StringComparison.Ordinal));

        // As another process of the site would: this one hears nothing of it.
        var member = (await site.ViewerAsync(who.Email)).MemberId;
        (await site.AskAsync(db => db.Members.Where(m => m.Id == member)
            .ExecuteUpdateAsync(set => set.SetProperty(m => m.Role, Role.Member)))).ShouldBe(1);
        var before = await RecordAsync();
        await Task.Delay(TimeSpan.FromMilliseconds(250)); // What was looked up a moment before serves this long.
        await LivePages.PressEverythingAsync(page);
        await page.GoAsync(new Uri(Address, path)); // Some pages have nothing to press.
        await UntilAsync(() => page.Drawn.Contains("This page is closed", StringComparison.Ordinal) || page.Ended.IsCompleted);
        (await RecordAsync()).ShouldBe(before, path);
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Messages_to_the_elements_of_somebody_elses_page_reach_none(string template)
    {
        using var fellow = await site.JoinAsync(Role.Member);
        using var who = await site.JoinAsync(Role.Administrator);
        using var stranger = await site.JoinAsync(Role.Member);
        var (path, cookies, html) = await OpenAsync(template, who, fellow);
        await using var theirs = await HubCircuit.BeginAsync(Address, path, html, cookies);
        await UntilAsync(() => theirs.Drawn.Contains("h1", StringComparison.Ordinal));
        var (browser, own) = CookieBrowser();
        using var _ = browser;
        (await Site.SignInAsync(browser, stranger.Email)).StatusCode.ShouldBe(HttpStatusCode.Found);

        // The administrator's own saved page, and the numbers of all its elements, with the stranger's session.
        await using var forged = await HubCircuit.BeginAsync(Address, path, html, own);
        await UntilAsync(() => forged.Batches > 0);
        var before = await RecordAsync();
        try
        {
            await LivePages.PressEverythingAsync(forged);
            await LivePages.PressEverythingAsync(forged, theirs.Handlers);
            await forged.GoAsync(new Uri(Address, path));
        }
        catch (InvalidOperationException)
        {
            // The server has closed the connection: it answers no message to an element that it does not know.
        }

        await UntilAsync(() => forged.Error is not null || forged.Ended.IsCompleted
            || forged.Drawn.Contains("This page is closed", StringComparison.Ordinal));
        (await RecordAsync()).ShouldBe(before, path);
    }

    // The control: were the messages themselves without effect, the tests above would pass for nothing.
    [Fact]
    public async Task The_same_messages_write_where_the_page_is_the_senders_own()
    {
        using var fellow = await site.JoinAsync(Role.Member);
        using var who = await site.JoinAsync(Role.Administrator);
        var (path, cookies, html) = await OpenAsync("/more/people", who, fellow);
        await using var page = await HubCircuit.BeginAsync(Address, path, html, cookies);
        await UntilAsync(() => page.Drawn.Contains("Make an invitation", StringComparison.Ordinal));
        var before = await site.AskAsync(db => db.Invitations.CountAsync());

        var drawn = page.Batches;
        await LivePages.PressEverythingAsync(page, page.Handlers.Where(h => h.Value == "input"));
        await UntilAsync(() => page.Batches > drawn || page.Error is not null);
        await LivePages.PressEverythingAsync(page, page.Handlers.Where(h => h.Value == "click"));
        await UntilAsync(() => page.Drawn.Contains("It is shown only now", StringComparison.Ordinal) || page.Error is not null);
        page.Error.ShouldBeNull();
        (await site.AskAsync(db => db.Invitations.CountAsync())).ShouldBeGreaterThan(before);
    }

    private Uri Address => site.ClientOptions.BaseAddress;

    private async Task<(string Path, CookieContainer Cookies, string Html)> OpenAsync(string template, Somebody who, Somebody household)
    {
        var path = await LivePages.FilledAsync(site, template, await site.ViewerAsync(household.Email));
        var (browser, cookies) = CookieBrowser();
        using var _ = browser;
        (await Site.SignInAsync(browser, who.Email)).StatusCode.ShouldBe(HttpStatusCode.Found);
        var answer = await browser.GetAsync(path);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK, path);
        return (path, cookies, await answer.Content.ReadAsStringAsync());
    }

    private (HttpClient Browser, CookieContainer Cookies) CookieBrowser()
    {
        var cookies = new CookieContainer();
        return (new HttpClient(new HttpClientHandler { CookieContainer = cookies, AllowAutoRedirect = false }) { BaseAddress = Address },
            cookies);
    }

    /// <summary>Every row of every table but those of sessions, which say when somebody was seen.</summary>
    private async Task<string> RecordAsync() =>
        string.Join('\n', (await Operations.TableRows.OfAsync(site.Services.GetRequiredService<SiteOptions>().Storage)).Where(t =>
            t.Key != "Sessions").SelectMany(t => t.Value.Prepend(t.Key)));

    /// <summary>Waits for a state of another thread's.</summary>
    private static async Task UntilAsync(Func<bool> holds)
    {
        while (!holds())
        {
            await Task.Delay(20);
        }
    }
}
