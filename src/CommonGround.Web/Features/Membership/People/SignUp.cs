using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Shared;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>Joins a neighbourhood: with an invitation, or freely where the group allows it.</summary>
public sealed class SignUp(Accounts accounts, Invitations invitations, UnprovenAddresses unproven, Mail mail, SignUpLetters letters,
    EmailLimit limit, IDbContextFactory<CommonGroundDb> database, NeighbourhoodContext context)
{
    /// <summary>
    /// Joins with an invitation's code. Where the site sends mail the address is proven first: a letter is on its way, and there is no
    /// account yet. Where it sends none, the account is made at once, and its address counts as nobody's. The account, or what is wrong, or
    /// neither where a letter was sent.
    /// </summary>
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

        if (mail.HasServer)
        {
            return (null, JoinDraft.CheckPerson(draft.Name, draft.Email) is { Count: > 0 } faults ? faults
                : await SendProofAsync(draft, invitation.NeighbourhoodId, draft.Code.Trim(), cancel));
        }

        if (JoinDraft.CheckPerson(draft.Name, draft.Email, orName: true) is { Count: > 0 } wrong)
        {
            return (null, wrong);
        }

        var joined = await JoinedAsync(invitation, from, () => MakeAccountAsync(accounts, draft.Name, draft.Email, draft.Password,
            confirmed: false), cancel);
        if (joined.Account is { Email: not null } account)
        {
            // Into the outbox, for whoever looks after the site to pass on.
            await SendConfirmationAsync(account, cancel);
        }

        return joined;
    }

    /// <summary>Makes the account and uses the invitation, or neither.</summary>
    private async Task<(Account? Account, IReadOnlyList<Problem> Problems)> JoinedAsync(
        Invitation invitation, string from, Func<Task<(Account? Account, IReadOnlyList<Problem> Problems)>> make, CancellationToken cancel)
    {
        var (account, problems) = await make();
        if (account is null)
        {
            return (null, problems);
        }

        if (await invitations.UseAsync(invitation, account, from, cancel) is { Count: > 0 } late)
        {
            await DropAsync(accounts, account);
            return (null, late);
        }

        return (account, []);
    }

    /// <summary>
    /// Asks for an account where sign-up is open. Nothing is stored, and no password is asked for, until the address is proven by its
    /// letter: whoever types somebody else's address prepares nothing for them. Known and unknown addresses cost the same: one look-up, one
    /// link, one letter.
    /// </summary>
    public Task<IReadOnlyList<Problem>> AskAsync(JoinDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        return Door.TryAsync(() => AskedAsync(draft));
    }

    private async Task<IReadOnlyList<Problem>> AskedAsync(JoinDraft draft)
    {
        var here = context.Current;
        if (IsClosed(here))
        {
            return [Closed];
        }

        if (JoinDraft.CheckPerson(draft.Name, draft.Email) is { Count: > 0 } wrong)
        {
            return wrong;
        }

        return await SendProofAsync(draft, here.Neighbourhood.Id, null, CancellationToken.None);
    }

    /// <summary>Sends the letter whose link proves the address. The page says the same to everybody; only the letter says that there is an
    /// account.</summary>
    private async Task<IReadOnlyList<Problem>> SendProofAsync(JoinDraft draft, int neighbourhood, string? invitation,
        CancellationToken cancel)
    {
        var (email, group) = (draft.Email.Trim(), context.Of(neighbourhood).Neighbourhood.Name);
        var link = letters.Write(new(neighbourhood, draft.Name.Trim(), email, invitation));
        var known = await accounts.FindByNameAsync(email);
        if (!limit.MaySend("sign-up " + accounts.NormalizeEmail(email)))
        {
            return [];
        }

        // Its way out is not waited for: it may take longer for some addresses.
        mail.Begin(() => Door.TryAsync(async () =>
        {
            var (subject, text) = known is not { EmailConfirmed: true } ? letters.ToNew(group, link) : letters.ToKnown(group, invitation);
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
        var here = context.Current;
        if (letters.Read(code) is not { } asked || (asked.Invitation is null && asked.Neighbourhood != here.Neighbourhood.Id))
        {
            return (null, [new("", SignUpLetters.NoGood)]);
        }

        var invitation = asked.Invitation is null ? null : await invitations.FindAsync(asked.Invitation, cancel);
        if (invitation is null && (asked.Invitation is not null || IsClosed(here)))
        {
            return (null, [asked.Invitation is null ? Closed : new("", Invitations.NoGood)]);
        }

        if (JoinDraft.CheckPerson(name, asked.Email) is { Count: > 0 } wrong)
        {
            return (null, wrong);
        }

        if (await accounts.FindByNameAsync(asked.Email) is { } known)
        {
            if (known.EmailConfirmed)
            {
                return (null,
                    [new("", "This link was used already: there is an account with this address. Sign in, or set a new password.")]);
            }

            if (await PasswordProblemsAsync(name, asked.Email, password) is { Count: > 0 } weak)
            {
                return (null, weak);
            }

            // Whoever typed the address there has not shown that it is theirs; whoever opened this letter has.
            await unproven.ClearAsync(known, cancel);
        }

        Task<(Account? Account, IReadOnlyList<Problem> Problems)> MakeAsync() => MakeAccountAsync(accounts, name, asked.Email, password,
            confirmed: true);
        if (invitation is not null)
        {
            return await JoinedAsync(invitation, from, MakeAsync, cancel);
        }

        var (account, problems) = await MakeAsync();
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

    /// <summary>Asked before an older account is moved out of the way, so that a password refused moves nothing.</summary>
    private async Task<List<Problem>> PasswordProblemsAsync(string name, string email, string password)
    {
        var somebody = new Account { Name = name.Trim(), Email = email, UserName = email };
        var problems = new List<Problem>();
        foreach (var rule in accounts.PasswordValidators)
        {
            problems.AddRange((await rule.ValidateAsync(accounts, somebody, password)).Errors
                .Select(e => new Problem(nameof(JoinDraft.Password), Passwords.Words(e, password))));
        }

        return [.. problems.DistinctBy(p => p.Message)];
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

    internal static async Task<(Account? Account, IReadOnlyList<Problem> Problems)> MakeAccountAsync(Accounts accounts, string name,
        string email, string password, bool confirmed)
    {
        var signIn = email.Trim();
        var account = new Account
        {
            Name = name.Trim(),
            Email = signIn.Contains('@', StringComparison.Ordinal) ? signIn : null,
            UserName = signIn,
            EmailConfirmed = confirmed,
            CreatedAtUtc = DateTime.UtcNow,
        };
        var made = await accounts.CreateAsync(account, password);
        return made.Succeeded ? (account, []) : (null, [.. made.Errors.Select(e => e.Code.StartsWith("Password", StringComparison.Ordinal)
            ? new Problem(nameof(JoinDraft.Password), Passwords.Words(e, password))
            : new Problem(nameof(JoinDraft.Email), e.Code == nameof(IdentityErrorDescriber.DuplicateUserName)
                ? "This cannot be used for a new account. If the account is yours, sign in and open the invitation again; else choose a "
                + "name without @."
                : e.Description))
            .DistinctBy(p => (p.Field, p.Message))]);
    }
}
