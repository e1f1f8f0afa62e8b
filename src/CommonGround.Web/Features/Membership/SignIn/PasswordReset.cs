using System.Collections.Concurrent;
using CommonGround.Storage.Accounts;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Membership;

/// <summary>Letters to one address: a few an hour, so that nobody's mailbox is filled by a stranger.</summary>
public sealed class EmailLimit(TimeProvider time)
{
    private const int AnHour = 3;
    private const int MostKept = 10_000;
    private readonly ConcurrentDictionary<string, List<DateTimeOffset>> sent = new();

    public bool MaySend(string to)
    {
        var now = time.GetUtcNow();
        if (sent.Count > MostKept)
        {
            // Addresses are typed by strangers: what has run out is forgotten.
            foreach (var (old, times) in sent)
            {
                lock (times)
                {
                    if (times.TrueForAll(at => at < now.AddHours(-1)))
                    {
                        sent.TryRemove(old, out _);
                    }
                }
            }
        }

        var list = sent.GetOrAdd(to, _ => []);
        lock (list)
        {
            list.RemoveAll(at => at < now.AddHours(-1));
            if (list.Count >= AnHour)
            {
                return false;
            }

            list.Add(now);
            return true;
        }
    }
}

/// <summary>Sets a forgotten password anew by a letter to the confirmed address.</summary>
public sealed class PasswordReset(Accounts accounts, Sessions sessions, Mail mail, EmailLimit limit)
{
    /// <summary>Sends the link where there is somebody to send it to; says nothing about it, and does not wait for the letter.</summary>
    public async Task SendAsync(string email)
    {
        ArgumentNullException.ThrowIfNull(email);
        var known = await accounts.FindByEmailAsync(email.Trim()) is { EmailConfirmed: true } found ? found : null;
        // Made for nobody too: an unknown address costs the same.
        var account = known ?? new Account { Id = 1, Name = "", SecurityStamp = Guid.NewGuid().ToString() };
        var code = await accounts.GeneratePasswordResetTokenAsync(account);
        if (known is null || !limit.MaySend("password " + accounts.NormalizeEmail(known.Email)))
        {
            return;
        }

        var link = mail.Link(EntryPages.NewPassword, ("account", account.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)),
            ("code", code));
        mail.Begin(() => mail.SendAsync(account.Email!,
            "Set a new password", $"Open this link to set a new password. It serves once, for two hours.\n\n{link}\n\nIf you did not ask "
                + $"for it, throw this letter away: nothing was changed.\n"));
    }

    /// <summary>Sets the password; every session of the account ends, on every device.</summary>
    public Task<IReadOnlyList<Problem>> SetAsync(string accountId, string code, string password) =>
        Door.TryAsync(() => SetAnewAsync(accountId, code, password));

    private async Task<IReadOnlyList<Problem>> SetAnewAsync(string accountId, string code, string password)
    {
        if (await accounts.FindByIdAsync(accountId) is not { } account)
        {
            return [new("", NoGood)];
        }

        var result = await accounts.ResetPasswordAsync(account, code, password);
        if (!result.Succeeded)
        {
            return [.. result.Errors.Select(e => e.Code == "InvalidToken" ? new Problem("", NoGood)
                : new Problem("Password", Passwords.Words(e, password))).DistinctBy(p => p.Message)];
        }

        account.AccessFailedCount = 0;
        await accounts.SetLockoutEndDateAsync(account, null);
        await sessions.EndAllAsync(account.Id);
        return [];
    }

    private const string NoGood = "This link is too old or was used already. Ask for a new one.";
}
