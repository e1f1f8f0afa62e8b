using System.Net;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>Signing in and out of the running site, and the sessions between.</summary>
public sealed class DoorTests(FreshSite site) : IClassFixture<FreshSite>
{
    // ASVS 5.0, 7.2.4: a new session at sign-in, and the one before ends.
    [Fact]
    public async Task A_session_from_before_signing_in_is_worth_nothing_after_it()
    {
        using var who = await site.JoinAsync(Role.Member);
        var before = await SessionsAsync(who.Email);
        var kept = CookieOf(await Site.SignInAsync(who.Browser, who.Email));
        var old = kept;
        kept = CookieOf(await Site.SignInAsync(who.Browser, who.Email));
        kept.ShouldNotBe(old);
        (await OpensAccountAsync(old)).ShouldBeFalse();
        (await OpensAccountAsync(kept)).ShouldBeTrue();
        var after = await SessionsAsync(who.Email);
        after.Count.ShouldBe(1);
        after.Intersect(before).ShouldBeEmpty();
    }

    // ASVS 5.0, 7.4.1: signing out ends the session on the server, not in the browser alone.
    [Fact]
    public async Task A_cookie_from_before_signing_out_opens_nothing_after_it()
    {
        using var who = await site.JoinAsync(Role.Member);
        var cookie = CookieOf(await Site.SignInAsync(who.Browser, who.Email));
        (await Site.PostAsync(who.Browser, "/more", "none")).Dispose();
        using var form = new FormUrlEncodedContent([new("__RequestVerificationToken",
            Site.Token(await who.Browser.GetStringAsync("/more")))]);
        (await who.Browser.PostAsync("/sign-out", form)).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await OpensAccountAsync(cookie)).ShouldBeFalse();
        (await SessionsAsync(who.Email)).ShouldBeEmpty();
    }

    // ASVS 5.0, 7.5.2 and 8.3.2.
    [Fact]
    public async Task A_session_ended_from_another_device_is_refused_at_once_and_so_is_what_its_open_page_saves()
    {
        using var who = await site.JoinAsync(Role.Member);
        var currentUser = await site.ViewerAsync(who.Email);
        var yard = await site.RegisterAsync(currentUser);
        using var other = site.Browser();
        (await Site.SignInAsync(other, who.Email)).StatusCode.ShouldBe(HttpStatusCode.Found);
        var page = await other.GetStringAsync("/account");
        page.ShouldContain($"end-{currentUser.SessionId:N}");
        (await Site.PostAsync(other, "/account", $"end-{currentUser.SessionId:N}")).StatusCode.ShouldBe(HttpStatusCode.OK);

        (await who.Browser.GetAsync("/account")).StatusCode.ShouldBe(HttpStatusCode.Found);
        await using var scope = site.Stand();
        (await scope.Get<AddBed>().SaveAsync(yard.Id, "Late bed", "", currentUser)).ShouldHaveSingleItem(
            ).Message.ShouldContain("no longer signed in");
        (await site.AskAsync(db => db.Beds.AnyAsync(b => b.YardId == yard.Id && b.Name == "Late bed"))).ShouldBeFalse();
    }

    [Fact]
    public async Task Nobody_ends_the_session_of_somebody_else()
    {
        using var one = await site.JoinAsync(Role.Administrator);
        using var two = await site.JoinAsync(Role.Member);
        var session = (await site.ViewerAsync(two.Email)).SessionId!.Value;
        (await Site.PostAsync(one.Browser, "/account", $"end-{session:N}")).Dispose();
        await site.Services.GetRequiredService<Sessions>().EndAsync(session, (await site.ViewerAsync(one.Email)).AccountId);
        (await two.Browser.GetAsync("/account")).StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    // ASVS 5.0, 8.3.2: a change of what somebody may do takes effect at once.
    [Fact]
    public async Task A_role_taken_away_is_gone_with_the_next_request_and_the_next_save()
    {
        using var who = await site.JoinAsync(Role.Organiser);
        using var other = await site.JoinAsync(Role.Administrator);
        var (organiser, administrator) = (await site.ViewerAsync(who.Email), await site.ViewerAsync(other.Email));
        (await who.Browser.GetAsync("/more/rules")).StatusCode.ShouldBe(HttpStatusCode.OK);
        var told = new List<long?>();
        site.Services.GetRequiredService<SessionEvents>().Listen(told, (_, member) => told.Add(member));
        await using var scope = site.Stand();
        (await scope.Get<People>().SetRoleAsync(organiser.MemberId!.Value, Role.Member, administrator)).ShouldBeEmpty();
        told.ShouldContain(organiser.MemberId);
        (await who.Browser.GetAsync("/more/rules")).StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        (await scope.Get<GroupSettings>().AddBlockAsync("Late Street", "one", 41, -88, organiser)).ShouldHaveSingleItem(
            ).Message.ShouldContain("no longer signed in");
    }

    // ASVS 5.0, 6.3.8: nobody learns from an answer who has an account. Work is counted, not timed: times of a shared machine say little.
    [Fact]
    public async Task An_unknown_address_a_wrong_password_and_a_locked_account_get_the_same_answer_for_the_same_work()
    {
        using var who = await site.JoinAsync(Role.Member);
        var hasher = new CountingHasher();
        async Task<(string Words, int Hashes)> TryAsync(string email)
        {
            await using var scope = site.Stand();
            var services = scope.ServiceProvider;
            var accounts = ActivatorUtilities.CreateInstance<Accounts>(services, hasher);
            var before = hasher.Verified;
            var signing = ActivatorUtilities.CreateInstance<SignInFlow>(services, accounts, hasher);
            var (entrance, words) = await signing.TryAsync(email, "not the password at all", stays: false);
            entrance.ShouldBe(Entrance.Refused);
            return (words, hasher.Verified - before);
        }

        var unknown = await TryAsync("nobody@quarry-bend.example");
        unknown.Hashes.ShouldBe(1);
        for (var i = 0; i < Accounts.Tries; i++)
        {
            (await TryAsync(who.Email)).ShouldBe(unknown);
        }

        (await site.AskAsync(db => db.Users.SingleAsync(a => a.Email == who.Email))).LockoutEnd.ShouldNotBeNull();
        (await TryAsync(who.Email)).ShouldBe(unknown);
        using var browser = site.Browser();
        var pages = new List<string>();
        foreach (var email in new[] { who.Email, "nobody@quarry-bend.example" })
        {
            var answer = await Site.SignInAsync(browser, email);
            answer.StatusCode.ShouldBe(HttpStatusCode.OK);
            pages.Add(Plain(await answer.Content.ReadAsStringAsync(), email));
        }

        pages[0].ShouldBe(pages[1]);
        pages.Clear();
        foreach (var email in new[] { who.Email, "nobody@quarry-bend.example" })
        {
            pages.Add(Plain(await (await Site.PostAsync(browser, "/forgot", "forgot", ("Draft.Email", email))).Content.ReadAsStringAsync(),
                email));
        }

        pages[0].ShouldBe(pages[1]);
    }

    // ASVS 5.0, 6.3.1; the doubling itself is this project's choice.
    [Fact]
    public async Task Five_wrong_passwords_lock_an_account_and_each_further_one_twice_as_long()
    {
        Enumerable.Range(0, 13).Select(Accounts.LockMinutes).ShouldBe([0, 0, 0, 0, 0, 1, 2, 4, 8, 16, 32, 60, 60]);
        using var who = await site.JoinAsync(Role.Member);
        using var browser = site.Browser();
        for (var i = 0; i < Accounts.Tries; i++)
        {
            (await Site.SignInAsync(browser, who.Email, "wrong wrong wrong")).StatusCode.ShouldBe(HttpStatusCode.OK);
        }

        (await Site.SignInAsync(browser, who.Email)).StatusCode.ShouldBe(HttpStatusCode.OK,
            "locked: even the right password opens nothing");
        // The minute passes.
        await site.AskAsync(db => db.Users.Where(a => a.Email == who.Email)
            .ExecuteUpdateAsync(set => set.SetProperty(a => a.LockoutEnd, DateTimeOffset.UtcNow.AddSeconds(-1))));
        (await Site.SignInAsync(browser, who.Email, "wrong wrong wrong")).StatusCode.ShouldBe(HttpStatusCode.OK);
        var until = (await site.AskAsync(db => db.Users.SingleAsync(a => a.Email == who.Email))).LockoutEnd!.Value;
        (until - DateTimeOffset.UtcNow).TotalMinutes.ShouldBeInRange(1, 2);
        await site.AskAsync(db => db.Users.Where(a => a.Email == who.Email)
            .ExecuteUpdateAsync(set => set.SetProperty(a => a.LockoutEnd, DateTimeOffset.UtcNow.AddSeconds(-1))));
        (await Site.SignInAsync(browser, who.Email)).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await site.AskAsync(db => db.Users.SingleAsync(a => a.Email == who.Email))).AccessFailedCount.ShouldBe(0);
    }

    [Fact]
    public async Task The_password_asked_for_before_leaving_locks_like_the_one_at_the_door()
    {
        using var who = await site.JoinAsync(Role.Member);
        for (var i = 0; i < Accounts.Tries; i++)
        {
            (await Site.PostAsync(who.Browser, "/account/leave", "leave", ("Draft.Password", "wrong wrong wrong"))).Dispose();
        }

        (await (await Site.PostAsync(who.Browser, "/account/leave", "leave", ("Draft.Password", Site.Password))).Content.ReadAsStringAsync(
            )).ShouldNotContain("You have left");
        (await site.AskAsync(db => db.Users.SingleAsync(a => a.Email == who.Email))).DeletionAskedAtUtc.ShouldBeNull();
    }

    [Fact]
    public async Task The_demos_cookie_makes_nobody_anything_in_a_real_group()
    {
        (await site.AdministratorAsync()).Dispose();
        foreach (var role in new[] { "member", "organiser", "administrator" })
        {
            using var browser = site.Browser(role);
            (await browser.GetAsync("/yards")).StatusCode.ShouldBe(HttpStatusCode.Found);
            (await browser.GetStringAsync("/")).ShouldNotContain("look as");
        }
    }

    [Fact]
    public async Task The_code_of_the_first_start_serves_once()
    {
        await using var own = await SetSite.StartAsync();
        using var browser = own.Browser();
        var begin = own.Services.GetRequiredService<FirstRunSetup>();
        Task<HttpResponseMessage> TryAsync(string code, string email) => Site.PostAsync(browser, "/begin", "begin", ("Draft.Code", code),
            ("Draft.Group", "Ours"), ("Draft.TimeZone", "America/Chicago"), ("Draft.Name", "Bo"), ("Draft.Email", email),
                ("Draft.Password", Site.Password));
        (await TryAsync(Codes.New(), "a@quarry-bend.example")).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await own.AskAsync(db => db.Users.CountAsync())).ShouldBe(0);
        (await TryAsync(begin.Code.ToLowerInvariant(), "a@quarry-bend.example")).StatusCode.ShouldBe(HttpStatusCode.Found);
        await using var scope = own.Stand();
        var (account, problems) = await begin.MakeAsync(new FirstRunDraft
        {
            Code = begin.Code,
            Group = "Ours",
            TimeZone = "America/Chicago",
            Name = "Cy",
            Email = "c@quarry-bend.example",
            Password = Site.Password
        }, "");
        account.ShouldBeNull();
        problems.ShouldNotBeEmpty();
        (await own.AskAsync(db => db.Users.CountAsync())).ShouldBe(1);
    }

    private async Task<bool> OpensAccountAsync(string cookie)
    {
        using var bare = new HttpClient(new HttpClientHandler { UseCookies = false, AllowAutoRedirect = false })
        {
            BaseAddress =
            site.ClientOptions.BaseAddress
        };
        using var ask = new HttpRequestMessage(HttpMethod.Get, "/account") { Headers = { { "Cookie", cookie } } };
        return (await bare.SendAsync(ask)).StatusCode == HttpStatusCode.OK;
    }

    private Task<List<Guid>> SessionsAsync(string email) =>
        site.AskAsync(db => db.Sessions.Where(s => db.Users.Any(a => a.Id == s.AccountId && a.Email == email)).Select(s => s.Id)
            .ToListAsync());

    private static string CookieOf(HttpResponseMessage answer) => answer.Headers.GetValues("Set-Cookie")
        .Single(c => c.StartsWith("cg-session=", StringComparison.Ordinal)).Split(';')[0];

    /// <summary>A page without what differs in every answer: the address typed and the hidden proofs.</summary>
    private static string Plain(string page, string email) =>
        System.Text.RegularExpressions.Regex.Replace(page[page.IndexOf("<h1", StringComparison.Ordinal)..].Replace(email, "",
            StringComparison.Ordinal), "value=\"[^\"]*\"|<!--.*?-->", "");

    private sealed class CountingHasher : IPasswordHasher<Account>
    {
        private readonly PasswordHasher<Account> real = new();

        public int Verified { get; private set; }

        public string HashPassword(Account user, string password) => real.HashPassword(user, password);

        public PasswordVerificationResult VerifyHashedPassword(Account user, string hashedPassword, string providedPassword)
        {
            Verified++;
            return real.VerifyHashedPassword(user, hashedPassword, providedPassword);
        }
    }
}
