using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>Looks after one's own account: name, password, second step.</summary>
public sealed class AccountSettings(Accounts accounts, Sessions sessions, Mail mail, IDbContextFactory<CommonGroundDb> database)
{
    private static readonly Problem WrongPassword = new("Old", "This is not your password until now.");

    public async Task<IReadOnlyList<Problem>> RenameAsync(Account account, string name, string from, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(account);
        if (JoinDraft.CheckPerson(name, account.UserName!, orName: true) is { Count: > 0 } problems)
        {
            return problems;
        }

        var wanted = name.Trim();
        var saved = await database.WriteTogetherAsync(
            async (db, save) =>
            {
                await db.Users.Where(a => a.Id == account.Id).ExecuteUpdateAsync(set => set.SetProperty(a => a.Name, wanted), cancel);
                foreach (var member in await db.Members.AcrossNeighbourhoods().Where(m => m.AccountId == account.Id).ToListAsync(cancel))
                {
                    member.Name = wanted;
                    await save(new ChangeNote(member.NeighbourhoodId, "took another name", member.Id, member.Role, from));
                }

                return [];
            }, cancel);
        if (saved.IsStored)
        {
            account.Name = wanted;
        }

        return saved.Problems;
    }

    /// <summary>Sets a new password; every session but this one ends, and a letter says that it happened.</summary>
    public Task<IReadOnlyList<Problem>> SetPasswordAsync(Account account, string old, string wanted, Guid? session)
    {
        ArgumentNullException.ThrowIfNull(account);
        return Door.TryAsync(() => PasswordSetAsync(account, old, wanted, session));
    }

    private async Task<IReadOnlyList<Problem>> PasswordSetAsync(Account account, string old, string wanted, Guid? session)
    {
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
        await mail.SendAsync(account.Email!,
            "Your password was changed", $"Your password was changed just now. If it was not you, set a new one at once:\n\n"
                + $"{mail.Link(EntryPages.Forgot)}\n");
        return [];
    }

    /// <summary>Makes the key of the authenticator app, for an account that has none. It opens nothing yet, so letters that wait to be
    /// opened stay good.</summary>
    public Task<IReadOnlyList<Problem>> SecondStepKeyAsync(Account account)
    {
        ArgumentNullException.ThrowIfNull(account);
        return Door.TryAsync(async () =>
        {
            await accounts.MakeAuthenticatorKeyAsync(account);
            return [];
        });
    }

    /// <summary>Switches the second step on once a code shows that the app is set up; the recovery codes, or why not.</summary>
    public async Task<(IReadOnlyList<string> Codes, IReadOnlyList<Problem> Problems)> SecondStepOnAsync(Account account, string code,
        Guid? session)
    {
        ArgumentNullException.ThrowIfNull(account);
        ArgumentNullException.ThrowIfNull(code);
        IReadOnlyList<string> codes = [];
        var problems = await Door.TryAsync(async () =>
        {
            if (!await accounts.VerifyTwoFactorTokenAsync(account, accounts.Options.Tokens.AuthenticatorTokenProvider,
                code.Replace(" ", "", StringComparison.Ordinal)))
            {
                return [new("Code",
                    "This is not the code the app shows now. Codes change every half minute; check that the phone’s clock is right.")];
            }

            await accounts.SetTwoFactorEnabledAsync(account, true);
            codes = [.. await accounts.GenerateNewTwoFactorRecoveryCodesAsync(account, 8) ?? []];
            await sessions.EndAllAsync(account.Id, session);
            return [];
        });
        return (codes, problems);
    }

    public Task<IReadOnlyList<Problem>> SecondStepOffAsync(Account account, string password)
    {
        ArgumentNullException.ThrowIfNull(account);
        return Door.TryAsync(() => SecondStepEndedAsync(account, password));
    }

    private async Task<IReadOnlyList<Problem>> SecondStepEndedAsync(Account account, string password)
    {
        if (await accounts.IsWrongAsync(account, password))
        {
            return [WrongPassword];
        }

        await accounts.SetTwoFactorEnabledAsync(account, false);
        await accounts.ResetAuthenticatorKeyAsync(account);
        await mail.SendAsync(account.Email!,
            "The second step was switched off", $"The second step at sign-in was switched off just now. If it was not you, set a new "
                + $"password at once:\n\n{mail.Link(EntryPages.Forgot)}\n");
        return [];
    }
}
