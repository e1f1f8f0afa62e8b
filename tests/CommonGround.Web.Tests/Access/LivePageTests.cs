using System.Net;
using CommonGround.Benchmarks;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Membership;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>Ended means ended for reading too: live pages are held open by a client that sends what it likes, as nobody's browser
/// would.</summary>
public sealed class LivePageTests(FreshSite site) : IClassFixture<FreshSite>
{
    public static TheoryData<string> Pages() => [.. LivePages.Templates];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_whose_session_ended_elsewhere_does_nothing_it_is_told_and_shows_nothing_more(string template)
    {
        var (browser, cookies) = CookieBrowser();
        using var _ = browser;
        using var who = await site.JoinAsync(Role.Administrator);
        (await Site.SignInAsync(browser, who.Email)).StatusCode.ShouldBe(HttpStatusCode.Found);
        var path = await LivePages.FilledAsync(site, template, await site.ViewerAsync(who.Email));
        var answer = await browser.GetAsync(path);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK, path);
        await using var page = await HubCircuit.BeginAsync(Address, path, await answer.Content.ReadAsStringAsync(), cookies);
        await UntilAsync(() => page.Drawn.Contains("h1", StringComparison.Ordinal));

        // Another process ends it: this one hears nothing.
        (await site.AskAsync(db => db.Sessions.ExecuteDeleteAsync())).ShouldBeGreaterThan(0);
        var database = site.Services.GetRequiredService<Web.Hosting.SiteOptions>().Storage;
        var before = await Operations.TableRows.OfAsync(database);
        await Task.Delay(TimeSpan.FromMilliseconds(250));
        page.Error.ShouldBeNull();
        page.Ended.IsCompleted.ShouldBeFalse();
        await LivePages.PressEverythingAsync(page);

        await page.GoAsync(new Uri(Address, "/more/people"));
        // The farewell is all that is drawn from then on.
        await UntilAsync(() => page.Drawn.Contains("This page is closed", StringComparison.Ordinal));
        page.Drawn.Split("This page is closed")[1].ShouldNotContain("h1");
        var after = await Operations.TableRows.OfAsync(database);
        after.Where(t => !t.Value.SequenceEqual(before[t.Key])).Select(t => t.Key).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_saved_page_opens_no_circuit_without_its_sessions_cookie_nor_with_anothers()
    {
        var (browser, cookies) = CookieBrowser();
        using var _ = browser;
        using var organiser = await site.JoinAsync(Role.Organiser);
        using var member = await site.JoinAsync(Role.Member);
        (await Site.SignInAsync(browser, organiser.Email)).StatusCode.ShouldBe(HttpStatusCode.Found);
        var saved = await browser.GetStringAsync("/more/people");
        await using (var page = await HubCircuit.BeginAsync(Address, "/more/people", saved, cookies))
        {
            await UntilAsync(() => page.Drawn.Contains("take part", StringComparison.Ordinal));
        }

        await Should.ThrowAsync<IOException>(() => HubCircuit.BeginAsync(Address, "/more/people", saved, new CookieContainer()));
        var (other, others) = CookieBrowser();
        using var __ = other;
        (await Site.SignInAsync(other, member.Email)).StatusCode.ShouldBe(HttpStatusCode.Found);
        await using (var page = await HubCircuit.BeginAsync(Address, "/more/people", saved, others))
        {
            await UntilAsync(() => page.Batches > 0);
            page.Drawn.ShouldNotContain("take part");
        }

        // The cookie from before signing out is no session's any more.
        using var form = new FormUrlEncodedContent([new("__RequestVerificationToken", Site.Token(await browser.GetStringAsync("/more")))]);
        var kept = Copy(cookies);
        (await browser.PostAsync("/sign-out", form)).Dispose();
        await Should.ThrowAsync<IOException>(() => HubCircuit.BeginAsync(Address, "/more/people", saved, kept));
    }

    [Fact]
    public async Task A_role_taken_away_takes_the_open_page_away_and_its_circuit_is_found_again_by_nobody()
    {
        var (browser, cookies) = CookieBrowser();
        using var _ = browser;
        using var organiser = await site.JoinAsync(Role.Organiser);
        using var administrator = await site.JoinAsync(Role.Administrator);
        (await Site.SignInAsync(browser, organiser.Email)).StatusCode.ShouldBe(HttpStatusCode.Found);
        await using var page = await HubCircuit.BeginAsync(Address, "/more/people", await browser.GetStringAsync("/more/people"), cookies);
        await UntilAsync(() => page.Drawn.Contains("take part", StringComparison.Ordinal));
        (await HubCircuit.FindAgainAsync(Address, page.Id, new CookieContainer())).ShouldBeFalse();
        await using var scope = site.Stand();
        (await scope.Get<People>().SetRoleAsync((await site.ViewerAsync(organiser.Email)).MemberId!.Value, Role.Member,
            await site.ViewerAsync(administrator.Email))).ShouldBeEmpty();
        // Nobody pressed anything: the page is taken away by itself.
        await UntilAsync(() => page.Drawn.Contains("This page is closed", StringComparison.Ordinal));
        // A client that stays all the same is cut off.
        await site.Services.GetRequiredService<OpenPagesWatch>().LookAsync();
        await page.Ended;
    }

    [Fact]
    public async Task Live_pages_are_counted_by_address_and_one_too_many_is_told_so_while_reading_goes_on()
    {
        await using var own = await SetSite.StartAsync(("no-demo", "false"), ("Limits:CircuitsPerAddress", "2"));
        var address = own.ClientOptions.BaseAddress;
        using var browser = own.Browser("organiser");
        var html = await browser.GetStringAsync("/more/rules");
        var cookies = new CookieContainer();
        cookies.Add(address, new Cookie("cg-act", "organiser"));
        await using var one = await HubCircuit.BeginAsync(address, "/more/rules", html, cookies);
        await using (await HubCircuit.BeginAsync(address, "/more/rules", html, cookies))
        {
            await Should.ThrowAsync<IOException>(() => HubCircuit.BeginAsync(address, "/more/rules", html, cookies));
            var refused = await browser.GetAsync("/more/rules");
            refused.StatusCode.ShouldBe(HttpStatusCode.ServiceUnavailable);
            (await refused.Content.ReadAsStringAsync()).ShouldContain("Too many pages are open just now");
            (await browser.GetAsync("/streets")).StatusCode.ShouldBe(HttpStatusCode.OK);
        }

        await UntilAsync(() => own.Services.GetRequiredService<OpenPages>().All.Count == 1);
        (await browser.GetAsync("/more/rules")).StatusCode.ShouldBe(HttpStatusCode.OK);
        // Left alone for long, one in the demo is ended: its reader is sent on, and a client that stays is cut off.
        foreach (var page in own.Services.GetRequiredService<OpenPages>().All)
        {
            page.LastHeard = DateTimeOffset.UtcNow.AddHours(-1);
        }

        await own.Services.GetRequiredService<OpenPagesWatch>().LookAsync();
        await one.Ended;
    }

    private Uri Address => site.ClientOptions.BaseAddress;

    private (HttpClient Browser, CookieContainer Cookies) CookieBrowser()
    {
        var cookies = new CookieContainer();
        return (new HttpClient(new HttpClientHandler { CookieContainer = cookies, AllowAutoRedirect = false }) { BaseAddress = Address },
            cookies);
    }

    private CookieContainer Copy(CookieContainer cookies)
    {
        var copy = new CookieContainer();
        foreach (Cookie cookie in cookies.GetCookies(Address))
        {
            copy.Add(Address, new Cookie(cookie.Name, cookie.Value, "/"));
        }

        return copy;
    }

    /// <summary>Waits for a state of another thread's.</summary>
    private static async Task UntilAsync(Func<bool> holds)
    {
        while (!holds())
        {
            await Task.Delay(20);
        }
    }
}
