using CommonGround.Web.Hosting;
using System.Net;
using System.Text.RegularExpressions;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>Letters that open something: invitations, confirmations, new passwords. They lie in the outbox, or go to a mail server that the
/// test plays.</summary>
public sealed class EmailTests(FreshSite site) : IClassFixture<FreshSite>
{
    // ASVS 5.0, 6.4.1, 6.4.3 and 7.4.3.
    [Fact]
    public async Task A_forgotten_password_is_set_by_a_letter_that_serves_once_and_ends_every_session()
    {
        using var who = await site.JoinAsync(Role.Member);
        await ConfirmAsync(who);
        using var browser = site.Browser();
        foreach (var (host, expected) in new[] { ("evil.example", HttpStatusCode.BadRequest),
            (browser.BaseAddress!.Authority, HttpStatusCode.OK) })
        {
            using var form = new FormUrlEncodedContent([new("_handler", "forgot"),
                new("__RequestVerificationToken", Site.Token(await browser.GetStringAsync("/forgot"))), new("Draft.Email", who.Email)]);
            using var post = new HttpRequestMessage(HttpMethod.Post, "/forgot")
            {
                Content = form,
                Headers = { { "Host", host }, { "X-Forwarded-Host", "evil.example" } }
            };
            (await browser.SendAsync(post)).StatusCode.ShouldBe(expected);
        }

        var letter = await Outbox.LetterAsync(site, who.Email, "Set a new password");
        // WSTG on password reset: the link is the site's own, whatever the Host header says.
        letter.TextBody!.ShouldNotContain("evil");
        var link = Outbox.Link().Match(letter.TextBody!).Value;
        link.ShouldStartWith("http://localhost:5080/new-password?account=");
        var path = new Uri(link).PathAndQuery;

        // A password that is too easy costs nothing: the letter is good still.
        (await (await Site.PostAsync(browser, path, "new-password", ("Draft.Password", "short"))).Content.ReadAsStringAsync(
            )).ShouldContain("A password has 10 to 128 characters");
        (await (await Site.PostAsync(browser, path, "new-password", ("Draft.Password", "eight loud herons"))).Content.ReadAsStringAsync(
            )).ShouldContain("Your new password is set");
        (await who.Browser.GetAsync("/account")).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await (await Site.PostAsync(browser, path, "new-password", ("Draft.Password", "nine loud herons"))).Content.ReadAsStringAsync(
            )).ShouldContain("used already");
        (await Site.SignInAsync(browser, who.Email)).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await Site.SignInAsync(browser, who.Email, "eight loud herons")).StatusCode.ShouldBe(HttpStatusCode.Found);
        // Nobody else's account opens with it either.
        using var other = await site.JoinAsync(Role.Member);
        var stranger = (await site.ViewerAsync(other.Email)).AccountId;
        (await (await Site.PostAsync(browser, Regex.Replace(path, "account=[0-9]+", $"account={stranger}"), "new-password",
            ("Draft.Password", "ten loud herons"))).Content.ReadAsStringAsync()).ShouldNotContain("is set");
    }

    [Fact]
    public async Task A_letter_goes_to_confirmed_addresses_alone_and_three_times_an_hour_at_most()
    {
        using var who = await site.JoinAsync(Role.Member);
        using var browser = site.Browser();
        (await Site.PostAsync(browser, "/forgot", "forgot", ("Draft.Email", who.Email))).StatusCode.ShouldBe(HttpStatusCode.OK);
        await ConfirmAsync(who);
        for (var i = 0; i < 5; i++)
        {
            (await Site.PostAsync(browser, "/forgot", "forgot", ("Draft.Email", who.Email))).Dispose();
        }

        await Outbox.LetterAsync(site, who.Email, "Set a new password", 3);
        await site.Services.GetRequiredService<Mail>().FinishAsync();
        (await Outbox.LettersAsync(site, who.Email)).Count(l => l.Subject == "Set a new password").ShouldBe(3);
        new LetterLimitProbe().CountOf(10).ShouldBe(3);
    }

    // Opening the link alone confirms nothing: programs that look at mail open links too.
    [Fact]
    public async Task An_address_is_confirmed_by_its_letter_and_a_press()
    {
        using var who = await site.JoinAsync(Role.Member);
        var path = new Uri(Outbox.Link()
            .Match((await Outbox.LetterAsync(site, who.Email, "Confirm your e-mail address")).TextBody!).Value).PathAndQuery;
        using var browser = site.Browser();
        (await browser.GetAsync(path)).StatusCode.ShouldBe(HttpStatusCode.Found, "whoever is not signed in is asked to first");
        (await who.Browser.GetAsync(path)).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await ConfirmedAsync(who)).ShouldBeFalse();
        (await Site.PostAsync(who.Browser, path[..^6], "confirm")).Dispose();
        (await ConfirmedAsync(who)).ShouldBeFalse();
        using var other = await site.JoinAsync(Role.Member);
        (await Site.PostAsync(other.Browser, path, "confirm")).Dispose();
        (await ConfirmedAsync(who)).ShouldBeFalse();
        (await Site.PostAsync(who.Browser, path, "confirm")).Dispose();
        (await ConfirmedAsync(who)).ShouldBeTrue();
    }

    // ASVS 5.0, 6.4.1.
    [Fact]
    public async Task An_invitation_serves_once_until_it_is_withdrawn_or_two_weeks_old()
    {
        using var inviter = await site.JoinAsync(Role.Administrator);
        var by = await site.ViewerAsync(inviter.Email);
        await using var scope = site.Stand();
        var invitations = scope.Get<Invitations>();
        async Task<bool> OpensAsync(string code, string email)
        {
            using var browser = site.Browser();
            using var answer = await JoinAsync(browser, code, email);
            return answer.StatusCode == HttpStatusCode.Found;
        }

        var used = (await invitations.MakeAsync(Role.Member, "a", by)).Made!.Code;
        (await OpensAsync(used, "once@quarry-bend.example")).ShouldBeTrue();
        (await OpensAsync(used, "twice@quarry-bend.example")).ShouldBeFalse();
        var old = (await invitations.MakeAsync(Role.Member, "b", by)).Made!.Code;
        var hash = Codes.Hash(old);
        await site.AskAsync(db => db.Invitations.Where(i => i.CodeHash == hash)
            .ExecuteUpdateAsync(set => set.SetProperty(i => i.EndsAtUtc, DateTime.UtcNow.AddSeconds(-1))));
        (await OpensAsync(old, "late@quarry-bend.example")).ShouldBeFalse();
        var withdrawn = (await invitations.MakeAsync(Role.Member, "c", by)).Made!.Code;
        hash = Codes.Hash(withdrawn);
        (await invitations.WithdrawAsync(await site.AskAsync(db => db.Invitations.Where(i => i.CodeHash == hash).Select(i => i.Id)
            .SingleAsync()), by)).ShouldBeEmpty();
        (await OpensAsync(withdrawn, "gone@quarry-bend.example")).ShouldBeFalse();
        (await OpensAsync(Codes.New(), "guess@quarry-bend.example")).ShouldBeFalse();
        (await site.AskAsync(db => db.Users.CountAsync(a => a.Email!.StartsWith("twice") || a.Email.StartsWith("late")
            || a.Email.StartsWith("gone") || a.Email.StartsWith("guess")))).ShouldBe(0);
    }

    [Fact]
    public async Task Of_many_who_use_one_invitation_at_the_same_moment_one_gets_in()
    {
        using var inviter = await site.JoinAsync(Role.Administrator);
        var by = await site.ViewerAsync(inviter.Email);
        await using var scope = site.Stand();
        var code = (await scope.Get<Invitations>().MakeAsync(Role.Organiser, "one of you", by)).Made!.Code;
        var answers = await Task.WhenAll(Enumerable.Range(0, 6).Select(async i =>
        {
            using var browser = site.Browser();
            using var answer = await JoinAsync(browser, code, $"race{i}@quarry-bend.example");
            return answer.StatusCode;
        }));
        answers.Count(a => a == HttpStatusCode.Found).ShouldBe(1);
        (await site.AskAsync(db => db.Users.CountAsync(a => a.Email!.StartsWith("race")))).ShouldBe(1);
    }

    // ASVS 5.0, 6.2.1, 6.2.4, 6.2.5, 6.2.9 and 6.2.11, at every place where a password is chosen.
    [Theory]
    [InlineData("nine char", "10 to 128")]
    [InlineData("qwertyuiop", "Many people use")]
    [InlineData("Password123!", "Many people use")]
    [InlineData("aaaaaaaaaaaaaaaa", "repeats")]
    [InlineData("CommonGround1", "little more than a name")]
    public async Task A_password_that_is_tried_first_is_refused(string password, string said)
    {
        using var inviter = await site.JoinAsync(Role.Administrator);
        await using var scope = site.Stand();
        var code = (await scope.Get<Invitations>().MakeAsync(Role.Member, "d", await site.ViewerAsync(inviter.Email))).Made!.Code;
        using var browser = site.Browser();
        using var answer = await JoinAsync(browser, code, "easy@quarry-bend.example", password);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        (await answer.Content.ReadAsStringAsync()).ShouldContain(said);
        (await (await Site.PostAsync(inviter.Browser, "/account", "password", ("Draft.Old", Site.Password),
            ("Draft.Password", password))).Content.ReadAsStringAsync()).ShouldNotContain("is set");
    }

    [Theory]
    [InlineData("all small letters and blanks")]
    [InlineData("ΑΒΓΔ日本語パスワードです")]
    [InlineData("1!x 1!x 1!x 7")]
    public void A_password_of_any_signs_is_taken_if_it_is_long_and_ones_own(string password)
    {
        Passwords.Problem(password, ["commonground", "Quarry Bend", "Ada"]).ShouldBeNull();
        Passwords.Problem(string.Concat(Enumerable.Repeat(password + " ", 10))[..128], []).ShouldBeNull();
    }

    // ASVS 5.0, 16.2.5.
    [Fact]
    public async Task Log_files_hold_no_password_no_code_no_token_and_no_address()
    {
        await using var own = await SetSite.StartAsync();
        var begin = own.Services.GetService(typeof(FirstRunSetup)) as FirstRunSetup;
        using var who = await own.JoinAsync(Role.Administrator);
        await using var scope = own.Stand();
        var code = (await scope.Get<Invitations>().MakeAsync(Role.Member, "hidden@quarry-bend.example",
            await own.ViewerAsync(who.Email))).Made!.Code;
        using var browser = own.Browser();
        (await browser.GetAsync("/join?code=" + code)).Dispose();
        (await Site.SignInAsync(browser, who.Email, "a wrong password typed")).Dispose();
        (await Site.SignInAsync(browser, "nobody-here@quarry-bend.example", "a wrong password typed")).Dispose();
        (await Site.PostAsync(browser, "/forgot", "forgot", ("Draft.Email", who.Email))).Dispose();
        (await browser.GetAsync("/new-password?account=1&code=SECRETRESETCODE")).Dispose();
        (await browser.GetAsync("/account/data.zip")).StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        var session = (await own.ViewerAsync(who.Email)).SessionId!.Value;
        var logs = string.Concat(own.ReadLogs());
        logs.ShouldContain("Sign-in refused: ");
        logs.ShouldContain("signed in at");
        logs.ShouldContain("Refused: ");
        foreach (var secret in new[] { Site.Password, "a wrong password typed", code, begin!.Code, "SECRETRESETCODE", session.ToString(),
            who.Email, "nobody-here", "hidden@", "CfDJ8" })
        {
            logs.ShouldNotContain(secret);
        }
    }

    [Fact]
    public async Task With_a_mail_server_letters_go_there_and_none_is_left_in_the_outbox()
    {
        using var server = new MailServer();
        await using var own = await SetSite.StartAsync(server.Settings);
        using var administrator = await own.AdministratorAsync();
        await using var scope = own.Stand();
        var by = await own.ViewerAsync("first@quarry-bend.example");
        var (made, _) = await scope.Get<Invitations>().MakeAsync(Role.Member, "new\r\nBcc: all@quarry-bend.example", by);
        made!.Sent.ShouldBeFalse("RFC 5321 injection: two lines are no address");
        (made, _) = await scope.Get<Invitations>().MakeAsync(Role.Member, "new@quarry-bend.example", by);
        made!.Sent.ShouldBeTrue();
        var (to, letter) = await server.NextAsync();
        to.ShouldBe(["<new@quarry-bend.example>"]);
        letter.TextBody!.ShouldContain("https://plants.quarry-bend.example/finish-sign-up?code=");
        Directory.Exists(Path.Combine(own.Data, "outbox")).ShouldBeFalse();
    }

    private static Task<HttpResponseMessage> JoinAsync(HttpClient browser, string code, string email, string password = Site.Password) =>
        Site.PostAsync(browser, "/join", "join", ("Draft.Code", code), ("Draft.Name", "Somebody"), ("Draft.Email", email),
            ("Draft.Password", password));

    private Task<bool> ConfirmedAsync(Somebody who) => site.AskAsync(db => db.Users.Where(a => a.Email == who.Email)
        .Select(a => a.EmailConfirmed).SingleAsync());

    private async Task ConfirmAsync(Somebody who)
    {
        var link = new Uri(Outbox.Link().Match((await Outbox.LetterAsync(site, who.Email, "Confirm your e-mail address")).TextBody!).Value);
        (await Site.PostAsync(who.Browser, link.PathAndQuery, "confirm")).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await ConfirmedAsync(who)).ShouldBeTrue();
    }

    private sealed class LetterLimitProbe
    {
        private readonly EmailLimit limit = new(TestClock.On(2026, 8, 19));

        public int CountOf(int tries) => Enumerable.Range(0, tries).Count(_ => limit.MaySend("somebody"));
    }
}
