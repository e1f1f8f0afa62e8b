using CommonGround.Storage.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace CommonGround.Web.Features.Membership;

/// <summary>Accounts as the framework keeps them, with a lock that lasts longer each time.</summary>
public sealed class Accounts(
    IUserStore<Account> store, IOptions<IdentityOptions> options, IPasswordHasher<Account> hasher,
        IEnumerable<IUserValidator<Account>> users,
    IEnumerable<IPasswordValidator<Account>> passwords, ILookupNormalizer normalizer, IdentityErrorDescriber errors,
        IServiceProvider services, ILogger<UserManager<Account>> log)
    : UserManager<Account>(store, options, hasher, users, passwords, normalizer, errors, services, log)
{
    /// <summary>Wrong passwords before the first lock.</summary>
    public const int Tries = 5;
    private const int LongestMinutes = 60;

    /// <summary>Counts a wrong try. From the fifth on each locks the account twice as long as the one before: 1, 2, 4 … 60
    /// minutes.</summary>
    public override async Task<IdentityResult> AccessFailedAsync(Account user)
    {
        ArgumentNullException.ThrowIfNull(user);
        user.AccessFailedCount++;
        if (LockMinutes(user.AccessFailedCount) is > 0 and var minutes)
        {
            user.LockoutEnd = DateTimeOffset.UtcNow.AddMinutes(minutes);
        }

        return await UpdateUserAsync(user);
    }

    /// <summary>Whether somebody signed in who must prove it once more gave a wrong password. Counts like a wrong sign-in, and a locked
    /// account is always wrong.</summary>
    public async Task<bool> IsWrongAsync(Account account, string password)
    {
        if (await IsLockedOutAsync(account))
        {
            return true;
        }

        if (await CheckPasswordAsync(account, password))
        {
            return false;
        }

        await AccessFailedAsync(account);
        return true;
    }

    /// <summary>A key for an account that has none. Unlike the framework's own way it leaves the security stamp, and with it sessions and
    /// letters, as they are.</summary>
    public async Task MakeAuthenticatorKeyAsync(Account account)
    {
        if (await GetAuthenticatorKeyAsync(account) is null)
        {
            await ((IUserAuthenticatorKeyStore<Account>)Store).SetAuthenticatorKeyAsync(account, GenerateNewAuthenticatorKey(),
                CancellationToken);
            await UpdateUserAsync(account);
        }
    }

    /// <summary>Recovery codes are long enough that a plain hash keeps them (ASVS 5.0, 6.5.2: 112 bits), and only the hash is
    /// stored.</summary>
    public override async Task<IEnumerable<string>?> GenerateNewTwoFactorRecoveryCodesAsync(Account user, int number)
    {
        ArgumentNullException.ThrowIfNull(user);
        var codes = Enumerable.Range(0, number).Select(_ => Codes.New(groups: 6)).ToList();
        await ((IUserTwoFactorRecoveryCodeStore<Account>)Store).ReplaceCodesAsync(user, codes.Select(Codes.Hash), CancellationToken);
        return (await UpdateUserAsync(user)).Succeeded ? codes : null;
    }

    public override Task<IdentityResult> RedeemTwoFactorRecoveryCodeAsync(Account user, string code) =>
        base.RedeemTwoFactorRecoveryCodeAsync(user, Codes.Hash(code));

    public static int LockMinutes(int failed) => failed < Tries ? 0
        : (int)Math.Min(LongestMinutes, Math.Pow(2, Math.Min(failed - Tries, 30)));
}
