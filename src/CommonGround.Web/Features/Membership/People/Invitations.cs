using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>An invitation just made: the code is shown once and not stored.</summary>
public sealed record MadeInvitation(string Code, DateTime EndsAtUtc, bool Sent)
{
    /// <summary>Whom it is for, as it was said.</summary>
    public string ForWhom { get; init; } = "";
}

/// <summary>Invitations to a neighbourhood: each serves one person, once, for two weeks.</summary>
public sealed class Invitations(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, Mail mail, SignUpLetters letters,
    SessionEvents standings, TimeProvider time)
{
    public const int Days = 14;
    public const string NoGood = "This invitation is used, too old, or mistyped. Ask the person who gave it to you for a new one.";

    /// <summary>As many invitations as are made at once.</summary>
    public const int MostAtOnce = 100;

    public async Task<(MadeInvitation? Made, IReadOnlyList<Problem> Problems)> MakeAsync(Role role, string forWhom, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(forWhom);
        var (made, problems) = await MakeManyAsync(role, [forWhom], by, cancel);
        return (made.Count == 0 ? null : made[0], problems);
    }

    /// <summary>Invites several people at once, all or none of them; those with an address get a letter where the site sends any.</summary>
    public async Task<(IReadOnlyList<MadeInvitation> Made, IReadOnlyList<Problem> Problems)> MakeManyAsync(Role role,
        IReadOnlyList<string> forWhom, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(forWhom);
        ArgumentNullException.ThrowIfNull(by);
        var whom = forWhom.Select(w => w.Trim()).Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        if (Wrong(role, whom, by) is { } wrong)
        {
            return ([], [wrong]);
        }

        var now = time.GetUtcNow().UtcDateTime;
        var endsAt = now.AddDays(Days);
        var codes = whom.ConvertAll(_ => Codes.New());
        var saved = await database.WriteAsync(
            db =>
            {
                db.Invitations.AddRange(whom.Select((w, i) => new Invitation
                {
                    NeighbourhoodId = neighbourhood.Id,
                    CodeHash = Codes.Hash(codes[i]),
                    Role = role,
                    ForWhom = w,
                    MadeById = by.MemberId,
                    MadeAtUtc = now,
                    EndsAtUtc = endsAt
                }));
                return Task.FromResult(Intent.Store(by.Note(whom.Count == 1 ? $"invited somebody as {role.ToString().ToLowerInvariant()}"
                    : $"invited {whom.Count} people as {role.ToString().ToLowerInvariant()}s")));
            }, cancel);
        if (!saved.IsStored)
        {
            return ([], saved.Problems);
        }

        var made = new List<MadeInvitation>();
        foreach (var (person, code) in whom.Zip(codes))
        {
            made.Add(new MadeInvitation(code, endsAt, await SendAsync(person, code, endsAt, by.Name, cancel)) { ForWhom = person });
        }

        return (made, []);
    }

    private Problem? Wrong(Role role, List<string> whom, CurrentUser by) =>
        neighbourhood.IsDemo ? new("", "Nobody can join the demo: its accounts are invented.")
            : !by.May(Permission.Invite) || (role != Role.Member && !by.May(Permission.Administer)) || role == Role.Visitor
                || !Enum.IsDefined(role)
            ? new("", "Organisers invite members; only administrators invite organisers and administrators.")
            : whom.Count == 0 || whom.Exists(w => w.Length is 0 or > 250)
            ? new(nameof(Invitation.ForWhom), "Say whom it is for: an e-mail address, or a word that reminds you.")
            : whom.Count > MostAtOnce
            ? new(nameof(Invitation.ForWhom), $"Invite at most {MostAtOnce} people at once; these are {whom.Count}.") : null;

    private async Task<bool> SendAsync(string whom, string code, DateTime endsAt, string from, CancellationToken cancel) =>
        mail.HasServer && whom.Contains('@', StringComparison.Ordinal)
            && await mail.SendAsync(whom, $"You are invited to {neighbourhood.Name}",
            $"{from} invites you to the record of native plantings of {neighbourhood.Name}. Open this link before "
                + $"{Words.Date(DateOnly.FromDateTime(endsAt))} to join:\n\n"
                + $"{letters.Write(new(neighbourhood.Id, "", whom, code), TimeSpan.FromDays(Days))}\n\nIt serves one person, once.\n",
            cancel);

    /// <summary>The open invitation of a code, of whichever neighbourhood.</summary>
    public async Task<Invitation?> FindAsync(string code, CancellationToken cancel = default)
    {
        var (hash, now) = (Codes.Hash(code), time.GetUtcNow().UtcDateTime);
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Invitations.AcrossNeighbourhoods().AsNoTracking().SingleOrDefaultAsync(i => i.CodeHash == hash
            && i.UsedAtUtc == null && i.WithdrawnAtUtc == null && i.EndsAtUtc > now, cancel);
    }

    /// <summary>Whether nobody has shown that an account's address is theirs: neither a letter nor an invitation was used.</summary>
    public async Task<bool> IsUnprovenAsync(Account account, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(account);
        // Who has asked to leave belongs nowhere any more, and must still find the way back.
        if (account.EmailConfirmed || account.DeletionAskedAtUtc is not null)
        {
            return false;
        }

        await using var db = await database.CreateDbContextAsync(cancel);
        return !await db.Members.AcrossNeighbourhoods()
            .AnyAsync(m => m.AccountId == account.Id && db.Invitations.Any(i => i.NeighbourhoodId == m.NeighbourhoodId
            && i.UsedById == m.Id), cancel);
    }

    /// <summary>Makes somebody what the invitation says. Of two who use it at the same moment one gets in.</summary>
    public async Task<IReadOnlyList<Problem>> UseAsync(Invitation invitation, Account account, string from,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(invitation);
        ArgumentNullException.ThrowIfNull(account);
        long joined = 0;
        var saved = await database.WriteAsync(
            async db =>
            {
                db.In(invitation.NeighbourhoodId);
                var stored = await db.Invitations.SingleAsync(i => i.Id == invitation.Id, cancel);
                var member = await db.Members.SingleOrDefaultAsync(m => m.AccountId == account.Id, cancel);
                if (stored.Version != invitation.Version || stored.UsedAtUtc is not null)
                {
                    return Intent.Refuse(nameof(JoinDraft.Code), NoGood);
                }

                if (member is null)
                {
                    member = new Member
                    {
                        NeighbourhoodId = invitation.NeighbourhoodId,
                        Id = RowIds.Next(),
                        Name = account.Name,
                        Role = invitation.Role,
                        AccountId = account.Id
                    };
                    db.Members.Add(member);
                }
                else if (member.Role < invitation.Role)
                {
                    member.Role = invitation.Role;
                }
                else
                {
                    return Intent.Refuse("", "You belong to this neighbourhood already; the invitation is still good for somebody else.");
                }

                (stored.UsedAtUtc, stored.UsedById) = (time.GetUtcNow().UtcDateTime, member.Id);
                joined = member.Id;
                return new ChangeNote(
                    invitation.NeighbourhoodId, $"joined as {invitation.Role.ToString().ToLowerInvariant()} by invitation", null, null,
                        from);
            }, cancel);
        if (saved.IsStored)
        {
            standings.Changed(null, joined);
        }

        return saved.Problems;
    }

    public async Task<IReadOnlyList<Problem>> WithdrawAsync(long id, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        return (await database.WriteAsync(
            async db =>
            {
                var invitation = await db.Invitations.SingleOrDefaultAsync(i => i.Id == id && i.UsedAtUtc == null, cancel);
                if (invitation is null || !by.May(Permission.Invite))
                {
                    return Intent.Refuse("", "This invitation was used already, or it is not yours to withdraw.");
                }

                invitation.WithdrawnAtUtc = time.GetUtcNow().UtcDateTime;
                return by.Note("withdrew an invitation");
            }, cancel)).Problems;
    }

    public async Task<IReadOnlyList<Invitation>> OpenAsync(CurrentUser currentUser, CancellationToken cancel = default)
    {
        if (!currentUser.May(Permission.Invite))
        {
            return [];
        }

        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Invitations.AsNoTracking().Where(i => i.UsedAtUtc == null && i.WithdrawnAtUtc == null && i.EndsAtUtc > now)
            .OrderBy(i => i.EndsAtUtc).ToListAsync(cancel);
    }
}
