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
public sealed record MadeInvitation(string Code, DateTime EndsAtUtc, bool Sent);

/// <summary>Invitations to a neighbourhood: each serves one person, once, for two weeks.</summary>
public sealed class Invitations(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, Mail mail, SignUpLetters letters,
    SessionEvents standings, TimeProvider time)
{
    public const int Days = 14;
    public const string NoGood = "This invitation is used, too old, or mistyped. Ask the person who gave it to you for a new one.";

    public async Task<(MadeInvitation? Made, IReadOnlyList<Problem> Problems)> MakeAsync(Role role, string forWhom, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(forWhom);
        ArgumentNullException.ThrowIfNull(by);
        var whom = forWhom.Trim();
        if (neighbourhood.IsDemo)
        {
            return (null, [new("", "Nobody can join the demo: its accounts are invented.")]);
        }

        if (!by.May(Permission.Invite) || (role != Role.Member && !by.May(Permission.Administer)) || role == Role.Visitor
            || !Enum.IsDefined(role))
        {
            return (null, [new("", "Organisers invite members; only administrators invite organisers and administrators.")]);
        }

        if (whom.Length is 0 or > 250)
        {
            return (null, [new(nameof(Invitation.ForWhom), "Say whom it is for: an e-mail address, or a word that reminds you.")]);
        }

        var code = Codes.New();
        var now = time.GetUtcNow().UtcDateTime;
        var endsAt = now.AddDays(Days);
        var saved = await database.WriteAsync(
            db =>
            {
                db.Invitations.Add(new Invitation
                {
                    NeighbourhoodId = neighbourhood.Id,
                    CodeHash = Codes.Hash(code),
                    Role = role,
                    ForWhom = whom,
                    MadeById = by.MemberId,
                    MadeAtUtc = now,
                    EndsAtUtc = endsAt
                });
                return Task.FromResult(Intent.Store(by.Note($"invited somebody as {role.ToString().ToLowerInvariant()}")));
            }, cancel);
        if (!saved.IsStored)
        {
            return (null, saved.Problems);
        }

        var sent = mail.HasServer && whom.Contains('@', StringComparison.Ordinal)
            && await mail.SendAsync(whom, $"You are invited to {neighbourhood.Name}",
            $"{by.Name} invites you to the record of native plantings of {neighbourhood.Name}. Open this link before {endsAt:MMMM d, yyyy} "
                + $"to join:\n\n{letters.Write(new(neighbourhood.Id, "", whom, code), TimeSpan.FromDays(Days))}\n\nIt serves one person, "
                + $"once.\n", cancel);
        return (new MadeInvitation(code, endsAt, sent), []);
    }

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
