using System.Net;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Membership;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Access;

/// <summary>Open sign-up: nothing is prepared for an address before it is proven, and known and unknown addresses are told apart by nothing
/// (ASVS 5.0, 6.3.8).</summary>
public sealed class SignUpTests(SignUpTests.CountingSite site) : IClassFixture<SignUpTests.CountingSite>
{
    private const string Own = "six patient bumblebees";

    [Fact]
    public async Task Whoever_signs_somebody_else_up_prepares_no_password_and_no_name_for_them()
    {
        await OpenAsync();
        const string Email = "victim@quarry-bend.example";
        using var stranger = site.Browser();
        (await Site.PostAsync(stranger, "/join", "ask", ("Draft.Name", "Mallory"), ("Draft.Email", Email),
            ("Draft.Password", Site.Password))).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await site.AskAsync(db => db.Users.CountAsync(a => a.Email == Email))).ShouldBe(0,
            "an address that nobody has proven has no account");

        var link = new Uri(Outbox.Link().Match((await Outbox.LetterAsync(site, Email, "Join Our group")).TextBody!).Value).PathAndQuery;
        using var victim = site.Browser();
        (await victim.GetAsync(link)).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await site.AskAsync(db => db.Users.CountAsync(a => a.Email == Email))).ShouldBe(0, "opening the link alone makes nothing");
        (await (await Site.PostAsync(victim, link, "finish", ("Draft.Name", "Vera"), ("Draft.Password", "short"))).Content
            .ReadAsStringAsync()).ShouldContain("A password has 10 to 128 characters");
        (await Site.PostAsync(victim, link, "finish", ("Draft.Name", "Vera"), ("Draft.Password", Own))).StatusCode
            .ShouldBe(HttpStatusCode.Found);
        (await victim.GetAsync("/account")).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await site.AskAsync(db => db.Users.SingleAsync(a => a.Email == Email))).ShouldSatisfyAllConditions(a =>
            a.EmailConfirmed.ShouldBeTrue(), a => a.Name.ShouldBe("Vera"));
        (await Site.SignInAsync(stranger, Email)).StatusCode.ShouldBe(HttpStatusCode.OK, "the stranger's password opens nothing");
        (await (await Site.PostAsync(stranger, link, "finish", ("Draft.Name", "Mallory"), ("Draft.Password", Site.Password))).Content
            .ReadAsStringAsync()).ShouldContain("used already");
        (await (await stranger.GetAsync(link[..^4])).Content.ReadAsStringAsync()).ShouldContain("no longer works");
    }

    [Fact]
    public async Task An_account_from_before_whose_address_was_never_proven_is_made_anew_by_its_letter()
    {
        await OpenAsync();
        const string Email = "waiting@quarry-bend.example";
        string confirm;
        await using (var scope = site.Stand())
        {
            var accounts = scope.Get<Accounts>();
            var prepared = new Account { Name = "Mallory", Email = Email, UserName = Email, CreatedAtUtc = DateTime.UtcNow };
            (await accounts.CreateAsync(prepared, Site.Password)).Succeeded.ShouldBeTrue();
            confirm = $"/confirm?account={prepared.Id}&code={Uri.EscapeDataString(await accounts.GenerateEmailConfirmationTokenAsync(prepared))}";
        }

        using var browser = site.Browser();
        (await Site.PostAsync(browser, confirm, "confirm")).Dispose();
        (await Site.SignInAsync(browser, Email)).StatusCode.ShouldBe(HttpStatusCode.OK, "neither its old letter nor its password opens it");
        (await Site.PostAsync(browser, "/join", "ask", ("Draft.Name", "Wanda"), ("Draft.Email", Email))).Dispose();
        var link = new Uri(Outbox.Link().Match((await Outbox.LetterAsync(site, Email, "Join Our group")).TextBody!).Value).PathAndQuery;
        (await Site.PostAsync(browser, link, "finish", ("Draft.Name", "Wanda"), ("Draft.Password", Own))).StatusCode
            .ShouldBe(HttpStatusCode.Found);
        using var stranger = site.Browser();
        (await Site.SignInAsync(stranger, Email)).StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Fact]
    public async Task Known_and_unknown_addresses_get_the_same_words_and_the_same_work()
    {
        await OpenAsync();
        using var known = await site.JoinAsync(Role.Member);
        var proof = new Uri(Outbox.Link()
            .Match((await Outbox.LetterAsync(site, known.Email, "Confirm your e-mail address")).TextBody!).Value).PathAndQuery;
        (await Site.PostAsync(known.Browser, proof, "confirm")).Dispose();
        using var browser = site.Browser();
        async Task<(string Words, int Hashes)> AskAsync(string email, string name, string password)
        {
            site.Hashes = 0;
            using var answer = await Site.PostAsync(browser, "/join", "ask", ("Draft.Name", name), ("Draft.Email", email),
                ("Draft.Password", password));
            var main = (await answer.Content.ReadAsStringAsync()).Split("<main")[1].Split("</main>")[0].Replace(email, "ADDRESS",
                StringComparison.Ordinal);
            return (System.Text.RegularExpressions.Regex.Replace(main, "(name=\"__RequestVerificationToken\" value=|<!--Blazor:)[^>]*>",
                ""), site.Hashes);
        }

        // A short password tells nothing any more: none is asked for.
        foreach (var (name, password) in new[] { ("Somebody", "x"), ("Somebody", Site.Password), ("", "x") })
        {
            var ofKnown = await AskAsync(known.Email, name, password);
            var ofUnknown = await AskAsync($"unknown{password.Length}{name.Length}@quarry-bend.example", name, password);
            ofKnown.ShouldBe(ofUnknown);
            ofKnown.Hashes.ShouldBe(0);
        }

        (await Outbox.LetterAsync(site, known.Email, "You have an account already", 2)).ShouldNotBeNull();
        (await Outbox.LetterAsync(site, "unknown18@quarry-bend.example", "Join Our group")).ShouldNotBeNull();
        // Signing in: one comparison of a password, whoever is asked for.
        foreach (var email in new[] { known.Email, "nobody@quarry-bend.example", known.Email, "nobody@quarry-bend.example" })
        {
            site.Hashes = 0;
            (await Site.SignInAsync(browser, email, "not the password at all")).Dispose();
            site.Hashes.ShouldBe(1, email);
        }
    }

    // ASVS 5.0, 3.5.3; the walk over all pages is in MatrixTests.
    [Fact]
    public async Task Setting_up_the_second_step_leaves_waiting_letters_good()
    {
        using var who = await site.JoinAsync(Role.Member);
        var link = new Uri(Outbox.Link()
            .Match((await Outbox.LetterAsync(site, who.Email, "Confirm your e-mail address")).TextBody!).Value).PathAndQuery;
        (await who.Browser.GetStringAsync("/account/second-step")).ShouldNotContain("class=\"key\"");
        (await (await Site.PostAsync(who.Browser, "/account/second-step", "begin")).Content.ReadAsStringAsync()).ShouldContain(
            "class=\"key\"");
        (await Site.PostAsync(who.Browser, link, "confirm")).Dispose();
        (await site.AskAsync(db => db.Users.Where(a => a.Email == who.Email).Select(a => a.EmailConfirmed).SingleAsync())).ShouldBeTrue();
    }

    private async Task OpenAsync()
    {
        using var administrator = await site.AdministratorAsync();
        await using var scope = site.Stand();
        var settings = scope.Get<GroupSettings>();
        (await settings.SaveAsync(await settings.FactsAsync() with { OpenSignUp = true },
            await site.ViewerAsync("first@quarry-bend.example"))).ShouldBeEmpty();
    }

    /// <summary>A site that counts the slow work on passwords.</summary>
    public sealed class CountingSite() : SetSite
    {
        public int Hashes { get; set; }

        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            base.ConfigureWebHost(builder);
            builder.ConfigureTestServices(services => services.AddScoped<IPasswordHasher<Account>>(s =>
                new Counting(ActivatorUtilities.CreateInstance<PasswordHasher<Account>>(s), this)));
        }

        private sealed class Counting(PasswordHasher<Account> inner, CountingSite site) : IPasswordHasher<Account>
        {
            public string HashPassword(Account user, string password)
            {
                site.Hashes++;
                return inner.HashPassword(user, password);
            }

            public PasswordVerificationResult VerifyHashedPassword(Account user, string hashedPassword, string providedPassword)
            {
                site.Hashes++;
                return inner.VerifyHashedPassword(user, hashedPassword, providedPassword);
            }
        }
    }
}
