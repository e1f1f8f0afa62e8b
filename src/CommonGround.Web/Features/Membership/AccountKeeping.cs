using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>Looks after one's own account: name, password, second step.</summary>
public sealed class AccountKeeping(Accounts accounts, Sessions sessions, Mail mail, IDbContextFactory<CommonGroundDb> database)
{
    private static readonly Problem WrongPassword = new("Old", "This is not your password until now.");

    public async Task<IReadOnlyList<Problem>> RenameAsync(Account account, string name, string from, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(account);
        if (Joining.CheckPerson(name, account.Email!) is { Count: > 0 } problems)
        {
            return problems;
        }

        account.Name = name.Trim();
        await accounts.UpdateAsync(account);
        await using var db = await database.CreateDbContextAsync(cancel);
        foreach (var member in await db.Members.AcrossNeighbourhoods().Where(m => m.AccountId == account.Id).ToListAsync(cancel))
        {
            member.Name = account.Name;
            await db.SaveAsync(new ChangeNote(member.NeighbourhoodId, "took another name", member.Id, member.Role, from), cancel);
        }

        return [];
    }

    /// <summary>Sets a new password; every session but this one ends, and a letter says that it happened.</summary>
    public async Task<IReadOnlyList<Problem>> SetPasswordAsync(Account account, string old, string wanted, Guid? session)
    {
        ArgumentNullException.ThrowIfNull(account);
        if (await accounts.IsWrongAsync(account, old))
        {
            return [WrongPassword];
        }

        var result = await accounts.ChangePasswordAsync(account, old, wanted);
        if (!result.Succeeded)
        {
            return [.. result.Errors.Select(e => new Problem("Password", Passwords.Words(e, wanted))).DistinctBy(p => p.Message)];
        }

        await sessions.EndAllAsync(account.Id, session);
        await mail.SendAsync(account.Email!, "Your password was changed", $"Your password was changed just now. If it was not you, set a new one at once:\n\n{mail.Link(EntryPages.Forgot)}\n");
        return [];
    }

    /// <summary>Switches the second step on once a code shows that the app is set up; the recovery codes, or nothing when the code is wrong.</summary>
    public async Task<IReadOnlyList<string>> SecondStepOnAsync(Account account, string code, Guid? session)
    {
        ArgumentNullException.ThrowIfNull(account);
        ArgumentNullException.ThrowIfNull(code);
        if (!await accounts.VerifyTwoFactorTokenAsync(account, accounts.Options.Tokens.AuthenticatorTokenProvider, code.Replace(" ", "", StringComparison.Ordinal)))
        {
            return [];
        }

        await accounts.SetTwoFactorEnabledAsync(account, true);
        await sessions.EndAllAsync(account.Id, session);
        return [.. await accounts.GenerateNewTwoFactorRecoveryCodesAsync(account, 8) ?? []];
    }

    public async Task<IReadOnlyList<Problem>> SecondStepOffAsync(Account account, string password)
    {
        ArgumentNullException.ThrowIfNull(account);
        if (await accounts.IsWrongAsync(account, password))
        {
            return [WrongPassword];
        }

        await accounts.SetTwoFactorEnabledAsync(account, false);
        await accounts.ResetAuthenticatorKeyAsync(account);
        await mail.SendAsync(account.Email!, "The second step was switched off", $"The second step at sign-in was switched off just now. If it was not you, set a new password at once:\n\n{mail.Link(EntryPages.Forgot)}\n");
        return [];
    }
}
