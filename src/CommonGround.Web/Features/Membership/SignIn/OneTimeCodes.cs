using System.Buffers.Binary;
using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using CommonGround.Storage.Accounts;
using Microsoft.AspNetCore.Identity;

namespace CommonGround.Web.Features.Membership;

/// <summary>The half minute that each account last signed in with: no code serves twice. A restart forgets it, and a code is then good for a minute more at most.</summary>
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

/// <summary>Codes of an authenticator app: RFC 6238 with HMAC-SHA-1, half a minute and six figures, as every such app makes them. One step of drift to either side (section 5.2), each code once.</summary>
public sealed class OneTimeCodes(UsedSteps used, TimeProvider time) : AuthenticatorTokenProvider<Account>
{
    public const int StepSeconds = 30;
    private const int Drift = 1;

    public override async Task<bool> ValidateAsync(string purpose, string token, UserManager<Account> manager, Account user)
    {
        ArgumentNullException.ThrowIfNull(manager);
        ArgumentNullException.ThrowIfNull(user);
        if (token is not { Length: 6 } || await manager.GetAuthenticatorKeyAsync(user) is not { Length: > 0 } key)
        {
            return false;
        }

        var (secret, now, found) = (Base32(key), time.GetUtcNow().ToUnixTimeSeconds() / StepSeconds, (long?)null);
        for (var step = now - Drift; step <= now + Drift; step++)
        {
            // All of them are looked at: time does not tell which one fits.
            var same = CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(Code(secret, step)), Encoding.UTF8.GetBytes(token));
            found = same ? step : found;
        }

        return found is { } fits && used.Take(user.Id, fits);
    }

    /// <summary>The six figures of a half minute.</summary>
    public static string Code(byte[] secret, long step)
    {
        Span<byte> counter = stackalloc byte[8];
        BinaryPrimitives.WriteInt64BigEndian(counter, step);
        Span<byte> hash = stackalloc byte[HMACSHA1.HashSizeInBytes];
#pragma warning disable CA5350 // RFC 4226 section B.2: HMAC-SHA-1 is not touched by collisions, and apps know nothing else.
        HMACSHA1.HashData(secret, counter, hash);
#pragma warning restore CA5350
        var cut = BinaryPrimitives.ReadInt32BigEndian(hash[(hash[^1] & 0x0f)..]) & 0x7fff_ffff;
        return (cut % 1_000_000).ToString("D6", CultureInfo.InvariantCulture);
    }

    /// <summary>RFC 4648 section 6, as keys are written.</summary>
    public static byte[] Base32(string key)
    {
        ArgumentNullException.ThrowIfNull(key);
        var bytes = new List<byte>();
        var (bits, held) = (0, 0);
        foreach (var letter in key.TrimEnd('=').ToUpperInvariant())
        {
            held = (held << 5) | "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567".IndexOf(letter, StringComparison.Ordinal);
            bits += 5;
            if (bits >= 8)
            {
                bits -= 8;
                bytes.Add((byte)(held >> bits));
                held &= (1 << bits) - 1;
            }
        }

        return [.. bytes];
    }
}
