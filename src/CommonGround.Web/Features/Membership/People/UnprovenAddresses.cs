using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>
/// Accounts whose address nobody has shown to be theirs. Where the site sends no mail, an invitation on paper makes such an account; its
/// address is only the name it signs in with. Whoever proves the address by a letter gets it, and the account steps aside with everything
/// it has.
/// </summary>
public sealed class UnprovenAddresses(Accounts accounts, Invitations invitations, IDbContextFactory<CommonGroundDb> database)
{
    /// <summary>Whether an account without proof stands under an address and belongs to somebody who was invited.</summary>
    public async Task<bool> IsHeldAsync(string email, CancellationToken cancel = default) =>
        await accounts.FindByNameAsync(email) is { EmailConfirmed: false } account && !await invitations.IsUnprovenAsync(account, cancel);

    /// <summary>Makes room for whoever has proven the address of an account that has not.</summary>
    /// <exception cref="NotStoredException">The database did not take it; the message says why.</exception>
    public async Task ClearAsync(Account account, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(account);
        var saved = await invitations.IsUnprovenAsync(account, cancel) ? await DropAsync(account, cancel)
            : await StepAsideAsync(account, cancel);
        if (!saved.IsStored)
        {
            throw new NotStoredException(saved.Problems[0]);
        }
    }

    /// <summary>Somebody was invited: they keep account, password, sessions and yards, and from now on sign in with a name that is no
    /// address.</summary>
    private async Task<Saved> StepAsideAsync(Account account, CancellationToken cancel)
    {
        var letters = new string([.. account.Name.Where(char.IsAsciiLetter).Take(12)]);
        var name = $"{(letters.Length > 0 ? letters : "member")}-{Codes.New(groups: 1)}".ToLowerInvariant();
        var normalized = accounts.NormalizeName(name);
        return await database.WriteUnnotedAsync(db => db.Users.Where(a => a.Id == account.Id && !a.EmailConfirmed)
            .ExecuteUpdateAsync(set => set
            .SetProperty(a => a.UserName, name).SetProperty(a => a.NormalizedUserName, normalized)
            .SetProperty(a => a.Email, (string?)null).SetProperty(a => a.NormalizedEmail, (string?)null)
            .SetProperty(a => a.ConcurrencyStamp, Guid.NewGuid().ToString()), cancel), cancel);
    }

    /// <summary>Nobody was invited: its memberships lose it and its name, and it goes.</summary>
    private Task<Saved> DropAsync(Account account, CancellationToken cancel) => database.WriteTogetherAsync(
        async (db, save) =>
        {
            foreach (var member in await db.Members.AcrossNeighbourhoods().Where(m => m.AccountId == account.Id).ToListAsync(cancel))
            {
                (member.AccountId, member.Role, member.Name) = (null, Role.Visitor, AccountDeletion.Gone);
                await save(ChangeNote.OfProgram(member.NeighbourhoodId, "took out a member whose address was never proven"));
            }

            await db.Users.Where(a => a.Id == account.Id).ExecuteDeleteAsync(cancel);
            return [];
        }, cancel);
}
