using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Membership;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using OtpNet;

namespace CommonGround.Web.Tests.Access;

/// <summary>Codes of an authenticator app and recovery codes. The test reckons codes by itself, after RFC 6238.</summary>
public sealed partial class SecondStepTests(FreshSite site) : IClassFixture<FreshSite>
{
    // RFC 6238, appendix B, rows of SHA-1: the secret is "12345678901234567890"; of its eight figures an app shows the last six.
    [Theory]
    [InlineData(59, "94287082")]
    [InlineData(1111111109, "07081804")]
    [InlineData(1111111111, "14050471")]
    [InlineData(1234567890, "89005924")]
    [InlineData(2000000000, "69279037")]
    [InlineData(20000000000, "65353130")]
    public async Task Codes_are_those_of_the_standards_own_table(long seconds, string eight)
    {
        var secret = "12345678901234567890"u8.ToArray();
        Reckoned(secret, seconds / 30, 8).ShouldBe(eight);
        using var who = await site.JoinAsync(Role.Member);
        await using var scope = site.Stand();
        var accounts = scope.Get<Accounts>();
        var account = (await accounts.FindByEmailAsync(who.Email))!;
        // Where the framework's own store of users keeps the key.
        await accounts.SetAuthenticationTokenAsync(account, "[AspNetUserStore]", "AuthenticatorKey", Base32Encoding.ToString(secret));
        var clock = TestClock.On(2026, 8, 19);
        clock.Now = DateTimeOffset.FromUnixTimeSeconds(seconds);
        var codes = new OneTimeCodes(new UsedSteps(), clock);
        (await codes.ValidateAsync("TwoFactor", eight[..6], accounts, account)).ShouldBeFalse();
        (await codes.ValidateAsync("TwoFactor", eight, accounts, account)).ShouldBeFalse();
        (await codes.ValidateAsync("TwoFactor", eight[2..], accounts, account)).ShouldBeTrue();
    }

    // RFC 4648, section 10.
    [Theory]
    [InlineData("MY======", "f")]
    [InlineData("MZXQ====", "fo")]
    [InlineData("MZXW6===", "foo")]
    [InlineData("MZXW6YQ=", "foob")]
    [InlineData("MZXW6YTB", "fooba")]
    [InlineData("MZXW6YTBOI======", "foobar")]
    public void Keys_are_read_as_base_32(string written, string bytes) => Encoding.ASCII.GetString(Base32Encoding.ToBytes(written))
    .ShouldBe(bytes);

    // RFC 6238, section 5.2: a code is accepted once; ASVS 5.0, 6.5.1.
    [Fact]
    public void A_half_minute_serves_once_and_never_an_earlier_one_after_it()
    {
        var used = new UsedSteps();
        used.Take(1, 100).ShouldBeTrue();
        used.Take(1, 100).ShouldBeFalse();
        used.Take(1, 99).ShouldBeFalse();
        used.Take(2, 100).ShouldBeTrue();
        used.Take(1, 101).ShouldBeTrue();
    }

    [Fact]
    public async Task A_code_of_the_app_opens_once_and_only_near_its_half_minute()
    {
        using var who = await site.JoinAsync(Role.Member);
        await using var scope = site.Stand();
        var accounts = scope.Get<Accounts>();
        var account = (await accounts.FindByEmailAsync(who.Email))!;
        await accounts.ResetAuthenticatorKeyAsync(account);
        var secret = Base32Encoding.ToBytes((await accounts.GetAuthenticatorKeyAsync(account))!);
        var clock = TestClock.On(2026, 8, 19);
        var codes = new OneTimeCodes(new UsedSteps(), clock);
        var step = clock.Now.ToUnixTimeSeconds() / 30;
        Task<bool> OpensAsync(long at) => codes.ValidateAsync("TwoFactor", Reckoned(secret, at, 6), accounts, account);
        (await OpensAsync(step - 2)).ShouldBeFalse();
        (await OpensAsync(step + 2)).ShouldBeFalse();
        (await OpensAsync(step)).ShouldBeTrue();
        (await OpensAsync(step)).ShouldBeFalse();
        clock.Now += TimeSpan.FromSeconds(30);
        (await OpensAsync(step)).ShouldBeFalse();
        (await OpensAsync(step + 1)).ShouldBeTrue();
    }

    // ASVS 5.0, 6.5.1 and 6.5.2; 6.4.3: a new password does not switch the second step off.
    [Fact]
    public async Task Switched_on_the_second_step_is_asked_for_and_a_recovery_code_opens_once()
    {
        using var who = await site.JoinAsync(Role.Member);
        var page = await (await Site.PostAsync(who.Browser, "/account/second-step", "begin")).Content.ReadAsStringAsync();
        var secret = Base32Encoding.ToBytes(KeyPattern().Match(page).Groups[1].Value.Replace(" ", "", StringComparison.Ordinal));
        var now = DateTimeOffset.UtcNow.ToUnixTimeSeconds() / 30;
        var on = await (await Site.PostAsync(who.Browser, "/account/second-step", "on", ("Draft.Code", Reckoned(secret, now, 6)))).Content
            .ReadAsStringAsync();
        var recovery = RecoveryPattern().Matches(on).Select(m => m.Groups[1].Value).ToList();
        recovery.Count.ShouldBe(8);
        var stored = await site.AskAsync(db => db.UserTokens.Where(t => t.Name == "RecoveryCodes"
            && db.Users.Any(a => a.Id == t.UserId && a.Email == who.Email)).Select(t => t.Value).SingleAsync());
        recovery.ShouldAllBe(code => !stored!.Contains(code)
            && stored.Contains(Convert.ToHexString(SHA256.HashData(Encoding.ASCII.GetBytes(code.Replace("-", ""))))));

        using var browser = site.Browser();
        async Task<bool> SecondAsync(string code)
        {
            var first = await Site.SignInAsync(browser, who.Email);
            first.Headers.Location!.OriginalString.ShouldContain("/sign-in/second");
            (await browser.GetAsync("/account")).StatusCode.ShouldBe(HttpStatusCode.Found, "the first step alone opens nothing");
            using var second = await Site.PostAsync(browser, "/sign-in/second", "second", ("Draft.Code", code));
            var opened = second.StatusCode == HttpStatusCode.Found && (await browser.GetAsync("/account")).StatusCode == HttpStatusCode.OK;
            await site.AskAsync(db => db.Sessions.Where(s => db.Users.Any(a => a.Id == s.AccountId && a.Email == who.Email))
                .ExecuteDeleteAsync());
            return opened;
        }

        (await SecondAsync(Reckoned(secret, now, 6))).ShouldBeFalse("the code that switched it on is used");
        (await SecondAsync(Reckoned(secret, now + 1, 6))).ShouldBeTrue();
        (await SecondAsync(Reckoned(secret, now + 1, 6))).ShouldBeFalse();
        (await SecondAsync(recovery[0])).ShouldBeTrue();
        (await SecondAsync(recovery[0])).ShouldBeFalse();
        (await SecondAsync(recovery[1].ToLowerInvariant().Replace('-', ' '))).ShouldBeTrue();

        await using var scope = site.Stand();
        var accounts = scope.Get<Accounts>();
        var account = (await accounts.FindByEmailAsync(who.Email))!;
        (await scope.Get<PasswordReset>().SetAsync(account.Id.ToString(CultureInfo.InvariantCulture),
            await accounts.GeneratePasswordResetTokenAsync(account), Site.Password + " anew")).ShouldBeEmpty();
        var again = await Site.SignInAsync(browser, who.Email, Site.Password + " anew");
        again.Headers.Location!.OriginalString.ShouldContain("/sign-in/second");
    }

    // ASVS 5.0, 6.5.4 is about 20 bits; a million codes need a lock besides.
    [Fact]
    public async Task Wrong_codes_lock_the_account_like_wrong_passwords()
    {
        using var who = await site.JoinAsync(Role.Member);
        await using var scope = site.Stand();
        var accounts = scope.Get<Accounts>();
        var account = (await accounts.FindByEmailAsync(who.Email))!;
        await accounts.ResetAuthenticatorKeyAsync(account);
        await accounts.SetTwoFactorEnabledAsync(account, true);
        using var browser = site.Browser();
        (await Site.SignInAsync(browser, who.Email)).StatusCode.ShouldBe(HttpStatusCode.Found);
        for (var i = 0; i < Accounts.Tries; i++)
        {
            (await Site.PostAsync(browser, "/sign-in/second", "second", ("Draft.Code", i % 2 == 0 ? "00000x" : "AAAA-BBBB"))).StatusCode
                .ShouldBe(HttpStatusCode.OK);
        }

        (await site.AskAsync(db => db.Users.SingleAsync(a => a.Email == who.Email))).LockoutEnd.ShouldNotBeNull()
            .ShouldBeGreaterThan(DateTimeOffset.UtcNow);
    }

    /// <summary>RFC 4226, section 5.3, written once more.</summary>
    private static string Reckoned(byte[] secret, long step, int digits)
    {
        var counter = BitConverter.GetBytes(step);
        Array.Reverse(counter);
#pragma warning disable CA5350 // The standard's own function.
        using var mac = new HMACSHA1(secret);
#pragma warning restore CA5350
        var hash = mac.ComputeHash(counter);
        var from = hash[19] & 15;
        var number = (((long)hash[from] & 127) << 24) | ((long)hash[from + 1] << 16) | ((long)hash[from + 2] << 8) | hash[from + 3];
        return (number % (long)Math.Pow(10, digits)).ToString(CultureInfo.InvariantCulture).PadLeft(digits, '0');
    }

    [GeneratedRegex("<p class=\"key\">([^<]+)</p>")]
    private static partial Regex KeyPattern();

    [GeneratedRegex("<li>([A-Z0-9]{4}(?:-[A-Z0-9]{4}){5})</li>")]
    private static partial Regex RecoveryPattern();
}
