using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>What somebody types who joins.</summary>
public sealed class JoinDraft
{
    public string Code { get; set; } = "";
    public string Name { get; set; } = "";
    public string Email { get; set; } = "";
    public string Password { get; set; } = "";
}

/// <summary>Joins a neighbourhood: with an invitation, or freely where the group allows it.</summary>
public sealed class SignUp(Accounts accounts, Invitations invitations, Mail mail, SignUpLetters letters, EmailLimit limit,
    IDbContextFactory<CommonGroundDb> database, NeighbourhoodContext whereabouts)
{
    /// <summary>Makes an account and its membership from an invitation; the account, or what is wrong.</summary>
    public async Task<(Account? Account, IReadOnlyList<Problem> Problems)> ByInvitationAsync(JoinDraft draft, string from,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(draft);
        Account? account = null;
        var problems = await Door.TryAsync(async () =>
        {
            (account, var wrong) = await InvitedAsync(draft, from, cancel);
            return wrong;
        });
        return (account, problems);
    }

    private async Task<(Account? Account, IReadOnlyList<Problem> Problems)> InvitedAsync(JoinDraft draft, string from,
        CancellationToken cancel)
    {
        if (await invitations.FindAsync(draft.Code, cancel) is not { } invitation)
        {
            return (null, [new(nameof(JoinDraft.Code), Invitations.NoGood)]);
        }

        if (CheckPerson(draft.Name, draft.Email) is { Count: > 0 } wrong)
        {
            return (null, wrong);
        }

        // An invitation that was sent to an address proves it; a code on paper does not.
        var proved = string.Equals(invitation.ForWhom.Trim(), draft.Email.Trim(), StringComparison.OrdinalIgnoreCase) && mail.HasServer;
        var (account, problems) = await MakeAccountAsync(accounts, draft.Name, draft.Email, draft.Password, proved);
        if (account is null)
        {
            return (null, problems);
        }

        if (await invitations.UseAsync(invitation, account, from, cancel) is { Count: > 0 } late)
        {
            await DropAsync(accounts, account);
            return (null, late);
        }

        if (!proved)
        {
            await SendConfirmationAsync(account, cancel);
        }

        return (account, []);
    }

    /// <summary>
    /// Asks for an account where sign-up is open. Nothing is stored, and no password is asked for, until the address is proven by its
    /// letter: whoever types somebody else's address prepares nothing for them.
    /// Known and unknown addresses cost the same: one look-up, one link, one letter.
    /// </summary>
    public Task<IReadOnlyList<Problem>> AskAsync(JoinDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        return Door.TryAsync(() => AskedAsync(draft));
    }

    private async Task<IReadOnlyList<Problem>> AskedAsync(JoinDraft draft)
    {
        var here = whereabouts.Here;
        if (IsClosed(here))
        {
            return [Closed];
        }

        if (CheckPerson(draft.Name, draft.Email) is { Count: > 0 } wrong)
        {
            return wrong;
        }

        var email = draft.Email.Trim();
        var link = letters.Write(new(here.Neighbourhood.Id, draft.Name.Trim(), email));
        var known = await accounts.FindByEmailAsync(email);
        if (!limit.MaySend("sign-up " + accounts.NormalizeEmail(email)))
        {
            return [];
        }

        // The page says the same to everybody; only the letter says that there is an account. Which one it is and its way out are not
        // waited for: both may take longer for some addresses.
        mail.Begin(() => Door.TryAsync(async () =>
        {
            var (subject, text) = known is null || await invitations.IsUnprovenAsync(known, CancellationToken.None)
                ? letters.ToNew(here.Neighbourhood.Name, link)
                : letters.ToKnown(here.Neighbourhood.Name);
            await mail.SendAsync(email, subject, text, CancellationToken.None);
            return [];
        }));
        return [];
    }

    /// <summary>Makes the account of somebody who opened the letter, with the password chosen now; the account, or what is wrong.</summary>
    public async Task<(Account? Account, IReadOnlyList<Problem> Problems)> FinishAsync(string code, string name, string password,
        string from, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(code);
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(password);
        Account? account = null;
        var problems = await Door.TryAsync(async () =>
        {
            (account, var wrong) = await FinishedAsync(code, name, password, from, cancel);
            return wrong;
        });
        return (account, problems);
    }

    private async Task<(Account? Account, IReadOnlyList<Problem> Problems)> FinishedAsync(string code, string name, string password,
        string from, CancellationToken cancel)
    {
        var here = whereabouts.Here;
        if (letters.Read(code) is not { } asked || asked.Neighbourhood != here.Neighbourhood.Id)
        {
            return (null, [new("", SignUpLetters.NoGood)]);
        }

        if (IsClosed(here))
        {
            return (null, [Closed]);
        }

        if (CheckPerson(name, asked.Email) is { Count: > 0 } wrong)
        {
            return (null, wrong);
        }

        if (await accounts.FindByEmailAsync(asked.Email) is { } known)
        {
            if (!await invitations.IsUnprovenAsync(known, cancel))
            {
                return (null,
                    [new("", "This link was used already: there is an account with this address. Sign in, or set a new password.")]);
            }

            // Made before addresses were proven first, by whoever typed it: what they prepared goes.
            await DropUnprovenAsync(known, cancel);
        }

        var (account, problems) = await MakeAccountAsync(accounts, name, asked.Email, password, confirmed: true);
        if (account is null)
        {
            return (null, problems);
        }

        var saved = await database.WriteAsync(
            db =>
            {
                db.Members.Add(new Member
                {
                    NeighbourhoodId = here.Neighbourhood.Id,
                    Name = account.Name,
                    Role = Role.Member,
                    AccountId = account.Id
                });
                return Task.FromResult(Intent.Store(ChangeNote.OfProgram(here.Neighbourhood.Id,
                    "took in a member who signed up") with
                { From = from }));
            }, cancel);
        if (!saved.IsStored)
        {
            await DropAsync(accounts, account);
            return (null, saved.Problems);
        }

        return (account, []);
    }

    private static readonly Problem Closed = new("", "Joining needs an invitation here. Ask an organiser for one.");

    private static bool IsClosed(Place here) => !here.OpenSignUp || here.Neighbourhood.IsDemo;

    /// <summary>An account whose address nobody proved: its memberships lose it and its name, and it goes.</summary>
    private async Task DropUnprovenAsync(Account account, CancellationToken cancel)
    {
        var saved = await database.WriteTogetherAsync(
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
        if (!saved.IsStored)
        {
            throw new NotStoredException(saved.Problems[0]);
        }
    }

    public async Task<bool> SendConfirmationAsync(Account account, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(account);
        var code = await accounts.GenerateEmailConfirmationTokenAsync(account);
        var link = mail.Link(EntryPages.Confirm, ("account", account.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)),
            ("code", code));
        return await mail.SendAsync(account.Email!,
            "Confirm your e-mail address", $"Open this link to confirm that this address is yours. It serves for two hours.\n\n{link}\n\n"
                + $"If you did not ask for it, throw this letter away.\n", cancel);
    }

    /// <summary>Takes back an account whose membership could not be stored, so that the same address can be used for the next
    /// try.</summary>
    internal static Task DropAsync(Accounts accounts, Account account) => Door.TryAsync(async () =>
    {
        await accounts.DeleteAsync(account);
        return [];
    });

    internal static List<Problem> CheckPerson(string name, string email)
    {
        var problems = new List<Problem>();
        if (name.Trim().Length is 0 or > 100)
        {
            problems.Add(new(nameof(JoinDraft.Name),
                "Give a name, up to 100 characters; it may be a first name. Members of the group see it."));
        }

        if (email.Trim().Length is < 3 or > 254 || !MimeKit.MailboxAddress.TryParse(email.Trim(), out var box) || box.Domain.Length == 0)
        {
            problems.Add(new(nameof(JoinDraft.Email), $"“{email}” is not an e-mail address. Write it like name@example.org."));
        }

        return problems;
    }

    internal static async Task<(Account? Account, IReadOnlyList<Problem> Problems)> MakeAccountAsync(Accounts accounts, string name,
        string email, string password, bool confirmed)
    {
        var account = new Account
        {
            Name = name.Trim(),
            Email = email.Trim(),
            UserName = email.Trim(),
            EmailConfirmed = confirmed,
            CreatedAtUtc = DateTime.UtcNow
        };
        var made = await accounts.CreateAsync(account, password);
        return made.Succeeded ? (account, [])
            : (null, [.. made.Errors.DistinctBy(e => e.Description).Where(e => e.Code != nameof(IdentityErrorDescriber.DuplicateUserName))
            .Select(e => e.Code.StartsWith("Password", StringComparison.Ordinal)
            ? new Problem(nameof(JoinDraft.Password), Passwords.Words(e, password))
            : new Problem(nameof(JoinDraft.Email), e.Code == nameof(IdentityErrorDescriber.DuplicateEmail)
            ? "This address cannot be used for a new account. If you have one, sign in and open the invitation again." : e.Description))
            .DistinctBy(p => (p.Field, p.Message))]);
    }
}
