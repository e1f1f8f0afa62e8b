using CommonGround.Storage.Accounts;
using Microsoft.AspNetCore.Identity;

namespace CommonGround.Web.Features.Membership;

/// <summary>How a try to sign in ended, and what the page says of it.</summary>
public enum Entrance { In, NeedsSecond, Refused }

/// <summary>Signs in with a password, then perhaps a second factor. Says the same whether the address is unknown or the password wrong, and
/// takes as long.</summary>
public sealed partial class SignInFlow(Accounts accounts, SessionSignIn signIn, Invitations invitations, IPasswordHasher<Account> hasher,
    ILogger<SignInFlow> log)
{
    private const string Wrong =
        "This address and password do not belong together, or the account is locked: after five wrong tries for a minute, then for two, "
        + "four and so on, up to an hour. Wait, or set a new password.";

    /// <summary>The hash of no password, in the framework's third format: its number, HMAC-SHA-512, rounds, length of the salt, salt,
    /// key.</summary>
    private static readonly string NobodysHash = Convert.ToBase64String([1, 0, 0, 0, 2, .. BigEndian(Passwords.Rounds), 0, 0, 0, 16,
        .. new byte[16], .. new byte[32]]);

    public Task<(Entrance Entrance, string Words)> TryAsync(string email, string password, bool stays)
    {
        ArgumentNullException.ThrowIfNull(email);
        return InWordsAsync(() => FirstAsync(email, password, stays));
    }

    /// <summary>The second step, with a code of the authenticator app or one of the recovery codes.</summary>
    public Task<(Entrance Entrance, string Words)> SecondAsync(string code)
    {
        ArgumentNullException.ThrowIfNull(code);
        return InWordsAsync(() => SecondStepAsync(code));
    }

    /// <summary>A database that takes no session lets nobody in, and says why.</summary>
    private static async Task<(Entrance Entrance, string Words)> InWordsAsync(Func<Task<(Entrance Entrance, string Words)>> enter)
    {
        var entered = (Entrance.Refused, "");
        var problems = await Door.TryAsync(async () =>
        {
            entered = await enter();
            return [];
        });
        return problems.Count > 0 ? (Entrance.Refused, problems[0].Message) : entered;
    }

    private async Task<(Entrance Entrance, string Words)> FirstAsync(string email, string password, bool stays)
    {
        var account = await accounts.FindByNameAsync(email.Trim());
        if (account is null)
        {
            WorkAllTheSame(password);
            Failed("unknown account", null);
            return (Entrance.Refused, Wrong);
        }

        if (await accounts.IsLockedOutAsync(account))
        {
            // Said like any other refusal: that an account can be locked tells that there is one.
            WorkAllTheSame(password);
            Failed("locked account", account.Id);
            return (Entrance.Refused, Wrong);
        }

        if (!await accounts.CheckPasswordAsync(account, password))
        {
            await accounts.AccessFailedAsync(account);
            Failed("wrong password", account.Id);
            return (Entrance.Refused, Wrong);
        }

        // Made before addresses were proven first: whoever set this password may not be who reads its letters.
        if (await invitations.IsUnprovenAsync(account))
        {
            return (Entrance.Refused,
                "This address was never proven, so the account cannot be used. Join once more: the letter’s link lets you choose a "
                    + "password.");
        }

        var result = await signIn.PasswordSignInAsync(account, password, stays, lockoutOnFailure: false);
        return result.RequiresTwoFactor ? (Entrance.NeedsSecond, "") : result.Succeeded ? (Entrance.In, "") : (Entrance.Refused, Wrong);
    }

    private async Task<(Entrance Entrance, string Words)> SecondStepAsync(string code)
    {
        if (await signIn.GetTwoFactorAuthenticationUserAsync() is not { } account)
        {
            return (Entrance.Refused, "The first step has run out. Sign in again.");
        }

        if (await accounts.IsLockedOutAsync(account))
        {
            return (Entrance.Refused, "This account is locked for a while after wrong tries. Wait up to an hour.");
        }

        var bare = code.Replace(" ", "", StringComparison.Ordinal).Trim();
        var ofTheApp = bare.Length == 6 && bare.All(char.IsAsciiDigit);
        var result = ofTheApp
            ? await signIn.TwoFactorAuthenticatorSignInAsync(bare, isPersistent: false, rememberClient: false)
            : await signIn.TwoFactorRecoveryCodeSignInAsync(bare);
        if (result.Succeeded)
        {
            return (Entrance.In, "");
        }

        if (!ofTheApp)
        {
            // The framework counts wrong app codes, not wrong recovery codes.
            await accounts.AccessFailedAsync(account);
        }

        Failed("wrong second factor", account.Id);
        return (Entrance.Refused, "This is not the code. Type the six figures your app shows now, or one of your recovery codes.");
    }

    /// <summary>As much work as for a password that is looked at: time tells nothing.</summary>
    private void WorkAllTheSame(string password)
    {
        hasher.VerifyHashedPassword(new Account { Name = "" }, NobodysHash, password);
    }

    private static byte[] BigEndian(int number)
    {
        var bytes = new byte[4];
        System.Buffers.Binary.BinaryPrimitives.WriteInt32BigEndian(bytes, number);
        return bytes;
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "Sign-in refused: {Why}, account {Account}")]
    private partial void Failed(string why, long? account);
}
