using System.Collections.Concurrent;
using CommonGround.Storage.Accounts;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Membership;

/// <summary>Letters to one account: a few an hour, so that nobody's mailbox is filled by a stranger.</summary>
public sealed class EmailLimit(TimeProvider time)
{
    private const int AnHour = 3;
    private readonly ConcurrentDictionary<long, List<DateTimeOffset>> sent = new();

    public bool MaySend(long account)
    {
        var now = time.GetUtcNow();
        var list = sent.GetOrAdd(account, _ => []);
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
        if (await accounts.FindByEmailAsync(email.Trim()) is not { EmailConfirmed: true } account || !limit.MaySend(account.Id))
        {
            return;
        }

        var code = await accounts.GeneratePasswordResetTokenAsync(account);
        var link = mail.Link(EntryPages.NewPassword, ("account", account.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)), ("code", code));
        _ = Task.Run(() => mail.SendAsync(account.Email!, "Set a new password", $"Open this link to set a new password. It serves once, for two hours.\n\n{link}\n\nIf you did not ask for it, throw this letter away: nothing was changed.\n"));
    }

    /// <summary>Sets the password; every session of the account ends, on every device.</summary>
    public Task<IReadOnlyList<Problem>> SetAsync(string accountId, string code, string password) => Door.TryAsync(() => SetAnewAsync(accountId, code, password));

    private async Task<IReadOnlyList<Problem>> SetAnewAsync(string accountId, string code, string password)
    {
        if (await accounts.FindByIdAsync(accountId) is not { } account)
        {
            return [new("", NoGood)];
        }

        var result = await accounts.ResetPasswordAsync(account, code, password);
        if (!result.Succeeded)
        {
            return [.. result.Errors.Select(e => e.Code == "InvalidToken" ? new Problem("", NoGood) : new Problem("Password", Passwords.Words(e, password))).DistinctBy(p => p.Message)];
        }

        account.AccessFailedCount = 0;
        await accounts.SetLockoutEndDateAsync(account, null);
        await sessions.EndAllAsync(account.Id);
        return [];
    }

    private const string NoGood = "This link is too old or was used already. Ask for a new one.";
}
