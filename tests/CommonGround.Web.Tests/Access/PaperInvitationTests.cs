using System.Net;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Membership;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MimeKit;

namespace CommonGround.Web.Tests.Access;

/// <summary>
/// An invitation lets somebody in; it shows nothing about an address. Whoever types somebody else's address gets no account that counts as
/// that person's (ASVS 5.0, 6.3.8 and 6.4.1), and never keeps that person from an account of their own.
/// </summary>
public sealed class PaperInvitationTests
{
    private const string Victim = "victim@quarry-bend.example", Own = "six patient bumblebees";

    [Theory]
    [InlineData("the corner house")]
    [InlineData(Victim)]
    public async Task With_a_mail_server_a_code_alone_makes_no_account(string forWhom)
    {
        using var server = new MailServer();
        await using var site = await SetSite.StartAsync(server.Settings);
        using var stranger = site.Browser();
        var code = await InviteAsync(site, forWhom);
        if (forWhom == Victim)
        {
            (await server.NextAsync()).To.ShouldBe([$"<{Victim}>"]);
        }

        using var answer = await JoinAsync(stranger, code, Victim);
        (await answer.Content.ReadAsStringAsync()).ShouldContain("Check your mail");
        (await site.AskAsync(db => db.Users.CountAsync(a => a.Email == Victim))).ShouldBe(0);

        var (to, letter) = await server.NextAsync();
        to.ShouldBe([$"<{Victim}>"]);
        using var victim = site.Browser();
        (await FinishAsync(victim, Link(letter))).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await site.AskAsync(db => db.Users.SingleAsync(a => a.Email == Victim))).ShouldSatisfyAllConditions(a =>
            a.EmailConfirmed.ShouldBeTrue(), a => a.Name.ShouldBe("Vera"));
        (await site.AskAsync(db => db.Members.CountAsync(m => m.Name == "Vera" && m.Role == Role.Organiser))).ShouldBe(1);
        (await Site.SignInAsync(stranger, Victim)).StatusCode.ShouldBe(HttpStatusCode.OK, "the stranger's password opens nothing");
        (await (await FinishAsync(stranger, Link(letter))).Content.ReadAsStringAsync()).ShouldContain("too old");
    }

    [Fact]
    public async Task The_link_in_the_letter_of_an_invitation_is_proof_enough()
    {
        using var server = new MailServer();
        await using var site = await SetSite.StartAsync(server.Settings);
        await InviteAsync(site, Victim);
        using var victim = site.Browser();
        (await FinishAsync(victim, Link((await server.NextAsync()).Letter))).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await site.AskAsync(db => db.Users.SingleAsync(a => a.Email == Victim))).EmailConfirmed.ShouldBeTrue();
    }

    [Fact]
    public async Task Without_one_the_address_counts_as_nobodys_until_somebody_proves_it()
    {
        await using var site = await SetSite.StartAsync();
        using var stranger = site.Browser();
        (await JoinAsync(stranger, await InviteAsync(site, "the corner house"), Victim)).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await stranger.GetStringAsync("/account")).ShouldContain("You have not confirmed this address yet");
        using var victim = site.Browser();
        (await Site.PostAsync(victim, "/forgot", "forgot", ("Draft.Email", Victim))).Dispose();

        // The victim opens the letter that the stranger caused: it gives the stranger nothing.
        var confirm = Link(await Outbox.LetterAsync(site, Victim, "Confirm your e-mail address"));
        (await victim.GetAsync(confirm)).StatusCode.ShouldBe(HttpStatusCode.Found, "it asks to sign in first");
        (await Site.PostAsync(victim, confirm, "confirm")).Dispose();
        (await site.AskAsync(db => db.Users.SingleAsync(a => a.Email == Victim))).EmailConfirmed.ShouldBeFalse();
        (await Outbox.LettersAsync(site, Victim)).ShouldNotContain(l => l.Subject == "Set a new password");

        // The victim joins by a letter of their own; a password that is refused moves nothing.
        await OpenAsync(site);
        (await Site.PostAsync(victim, "/join", "ask", ("Draft.Name", "Vera"), ("Draft.Email", Victim))).Dispose();
        var link = Link(await Outbox.LetterAsync(site, Victim, "Join Our group"));
        (await victim.GetStringAsync(link)).ShouldContain("Somebody has an account with this address");
        (await FinishAsync(victim, link, "short")).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await site.AskAsync(db => db.Users.CountAsync(a => a.Email == Victim && !a.EmailConfirmed))).ShouldBe(1);
        (await FinishAsync(victim, link)).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await site.AskAsync(db => db.Users.SingleAsync(a => a.Email == Victim))).ShouldSatisfyAllConditions(a =>
            a.EmailConfirmed.ShouldBeTrue(), a => a.Name.ShouldBe("Vera"));
        using var browser = site.Browser();
        (await Site.SignInAsync(browser, Victim)).StatusCode.ShouldBe(HttpStatusCode.OK, "the stranger's password opens nothing");

        // Whoever was invited keeps what is theirs, under a name that is no address.
        var name = await site.AskAsync(db => db.Users.Where(a => a.Name == "Mallory").Select(a => a.UserName!).SingleAsync());
        name.ShouldStartWith("mallory-");
        (await stranger.GetStringAsync("/account")).ShouldContain($"You sign in as {name}");
        (await site.AskAsync(db => db.Members.CountAsync(m => m.Name == "Mallory" && m.Role == Role.Organiser))).ShouldBe(1);
        (await Site.SignInAsync(browser, name)).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await Site.PostAsync(browser, "/account", "password", ("Draft.Old", Site.Password),
            ("Draft.Password", "eight loud herons"))).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await Site.SignInAsync(browser, name, "eight loud herons")).StatusCode.ShouldBe(HttpStatusCode.Found);
    }

    [Fact]
    public async Task Where_an_address_is_held_by_somebody_without_proof_a_plain_name_will_do()
    {
        await using var site = await SetSite.StartAsync();
        using var first = site.Browser();
        using var second = site.Browser();
        (await JoinAsync(first, await InviteAsync(site, "the corner house"), Victim)).StatusCode.ShouldBe(HttpStatusCode.Found);
        var code = await InviteAsync(site, "the blue house");
        (await (await JoinAsync(second, code, Victim)).Content.ReadAsStringAsync()).ShouldContain("choose a name without @");
        (await (await JoinAsync(second, code, "x y")).Content.ReadAsStringAsync()).ShouldContain("3 to 40 letters");
        (await JoinAsync(second, code, "vera.blue")).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await second.GetStringAsync("/account")).ShouldContain("No e-mail address is known");
        (await Site.SignInAsync(second, "Vera.Blue")).StatusCode.ShouldBe(HttpStatusCode.Found);
        (await Site.PostAsync(second, "/forgot", "forgot", ("Draft.Email", "vera.blue"))).StatusCode.ShouldBe(HttpStatusCode.OK);
        using var download = await second.GetAsync("/account/data.zip");
        download.StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    private static async Task<string> InviteAsync(SetSite site, string forWhom)
    {
        using var administrator = await site.AdministratorAsync();
        await using var scope = site.Stand();
        return (await scope.Get<Invitations>().MakeAsync(Role.Organiser, forWhom,
            await site.ViewerAsync("first@quarry-bend.example"))).Made!.Code;
    }

    private static async Task OpenAsync(SetSite site)
    {
        await using var scope = site.Stand();
        var settings = scope.Get<GroupSettings>();
        (await settings.SaveAsync(await settings.FactsAsync() with { OpenSignUp = true },
            await site.ViewerAsync("first@quarry-bend.example"))).ShouldBeEmpty();
    }

    private static Task<HttpResponseMessage> JoinAsync(HttpClient browser, string code, string address) =>
        Site.PostAsync(browser, "/join?invited=true", "join", ("Draft.Code", code), ("Draft.Name", "Mallory"), ("Draft.Email", address),
            ("Draft.Password", Site.Password));

    private static Task<HttpResponseMessage> FinishAsync(HttpClient browser, string link, string password = Own) =>
        Site.PostAsync(browser, link, "finish", ("Draft.Name", "Vera"), ("Draft.Password", password));

    private static string Link(MimeMessage letter) => new Uri(Outbox.Link().Match(letter.TextBody!).Value).PathAndQuery;
}
