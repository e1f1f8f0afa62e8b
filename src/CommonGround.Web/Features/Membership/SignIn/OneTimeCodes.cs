using System.Collections.Concurrent;
using CommonGround.Storage.Accounts;
using Microsoft.AspNetCore.Identity;
using OtpNet;

namespace CommonGround.Web.Features.Membership;

/// <summary>The half minute that each account last signed in with: no code serves twice. A restart forgets it, and a code is then good for
/// a minute more at most.</summary>
public sealed class UsedSteps
{
    private readonly ConcurrentDictionary<long, long> last = new();

    /// <summary>Takes a half minute for an account; false when it, or a later one, was taken before.</summary>
    public bool Take(long account, long step)
    {
        var taken = false;
        last.AddOrUpdate(account, _ => Taken(step), (_, before) => step > before ? Taken(step) : Refused(before));
        return taken;

        long Taken(long now)
        {
            taken = true;
            return now;
        }

        long Refused(long before)
        {
            taken = false;
            return before;
        }
    }
}

/// <summary>
/// Codes of an authenticator app: RFC 6238 with HMAC-SHA-1, half a minute and six figures, as every such app makes them. One step of drift
/// to either side (section 5.2), each code once.
/// </summary>
public sealed class OneTimeCodes(UsedSteps used, TimeProvider time) : AuthenticatorTokenProvider<Account>
{
    private const int StepSeconds = 30, Figures = 6;
    private static readonly VerificationWindow Drift = new(previous: 1, future: 1);

    public override async Task<bool> ValidateAsync(string purpose, string token, UserManager<Account> manager, Account user)
    {
        ArgumentNullException.ThrowIfNull(manager);
        ArgumentNullException.ThrowIfNull(user);
        if (token is not { Length: Figures } || await manager.GetAuthenticatorKeyAsync(user) is not { Length: > 0 } key)
        {
            return false;
        }

        var codes = new Totp(Base32Encoding.ToBytes(key), StepSeconds, OtpHashMode.Sha1, Figures);
        return codes.VerifyTotp(time.GetUtcNow().UtcDateTime, token, out var step, Drift) && used.Take(user.Id, step);
    }
}
