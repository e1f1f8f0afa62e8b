using CommonGround.Storage;
using CommonGround.Storage.Accounts;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.History;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>Leaving for good: yards, name and account go at once, can be taken back for thirty days, and are then erased.</summary>
public sealed class AccountDeletion(IDbContextFactory<CommonGroundDb> database, Neighbourhoods neighbourhoods, Accounts accounts,
    Sessions sessions, TimeProvider time)
{
    public const int Days = YardSettings.DaysToReturn;
    internal const string Gone = "a former member";

    public async Task<IReadOnlyList<Problem>> AskAsync(Account account, string password, string from, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(account);
        if (await Door.TryAsync(async () => await accounts.IsWrongAsync(account, password)
            ? [new("Password", "This is not your password.")] : []) is { Count: > 0 } wrong)
        {
            return wrong;
        }

        List<Member> memberships = [];
        var saved = await database.WriteTogetherAsync(
            async (db, save) =>
            {
                memberships = await db.Members.AcrossNeighbourhoods().Where(m => m.AccountId == account.Id).ToListAsync(cancel);
                foreach (var member in memberships.Where(m => m.Role == Role.Administrator))
                {
                    if (!await db.In(member.NeighbourhoodId).Members.AnyAsync(m => m.Id != member.Id && m.Role == Role.Administrator
                        && m.AccountId != null, cancel))
                    {
                        return [new("", $"You are the only administrator of "
                            + $"{neighbourhoods.Find(member.NeighbourhoodId)?.Neighbourhood.Name}. Make somebody else administrator "
                            + $"first.")];
                    }
                }

                var now = time.GetUtcNow().UtcDateTime;
                foreach (var member in memberships)
                {
                    var note = new ChangeNote(member.NeighbourhoodId, "a member left, with all yards of theirs", member.Id, member.Role,
                        from)
                    { EraseAtUtc = now.AddDays(Days) };
                    await TakeOutAsync(db, member, cancel);
                    await save(note);
                }

                await db.Users.Where(a => a.Id == account.Id).ExecuteUpdateAsync(set => set.SetProperty(a => a.DeletionAskedAtUtc, now),
                    cancel);
                return [];
            }, cancel);
        if (!saved.IsStored)
        {
            return saved.Problems;
        }

        // They belong nowhere any more; a session that cannot be ended just now ends by itself.
        await Door.TryAsync(async () =>
        {
            await sessions.EndAllAsync(account.Id);
            return [];
        });
        return [];
    }

    /// <summary>Takes the leaving back: everything stands as before.</summary>
    public Task<IReadOnlyList<Problem>> ReturnAsync(Account account, string from, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(account);
        return Door.TryAsync(() => ReturnedAsync(account, from, cancel));
    }

    private async Task<IReadOnlyList<Problem>> ReturnedAsync(Account account, string from, CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var now = time.GetUtcNow().UtcDateTime;
        var mark = $"\"{RowKinds.AccountId}\":{account.Id}";
        var left = await db.ChangedRows.AcrossNeighbourhoods().Where(r => r.Kind == RowKinds.Member && r.Before != null
            && r.Before.Contains(mark)
                && db.Changes.Any(c => c.NeighbourhoodId == r.NeighbourhoodId && c.Id == r.ChangeId && c.EraseAtUtc > now)
                && !db.Changes.Any(c => c.NeighbourhoodId == r.NeighbourhoodId && c.UndoOfId == r.ChangeId))
            .Select(r => new { r.NeighbourhoodId, r.ChangeId }).ToListAsync(cancel);
        foreach (var change in left)
        {
            var place = neighbourhoods.Find(change.NeighbourhoodId)!;
            var note = new ChangeNote(change.NeighbourhoodId, "a member who had left came back", null, null,
                from)
            { UndoOfId = change.ChangeId };
            if (await new UndoChange(database.In(place.Neighbourhood.Id), place.Clock).ReturnAsync(change.ChangeId, note,
                cancel) is { Count: > 0 } problems)
            {
                return problems;
            }
        }

        return (await database.WriteUnnotedAsync(there => there.Users.Where(a => a.Id == account.Id)
            .ExecuteUpdateAsync(set => set.SetProperty(a => a.DeletionAskedAtUtc, (DateTime?)null), cancel), cancel)).Problems;
    }

    private static async Task TakeOutAsync(CommonGroundDb db, Member member, CancellationToken cancel)
    {
        db.In(member.NeighbourhoodId);
        var yards = await db.Yards.Where(y => y.OwnerId == member.Id).ToListAsync(cancel);
        foreach (var yard in yards)
        {
            await YardSettings.RemoveAsync(db, yard, cancel);
        }

        // What they saw in other yards stays, without their name.
        var own = yards.Select(y => y.Id).ToHashSet();
        foreach (var sighting in await db.Sightings
            .Where(s => s.RecordedById == member.Id && s.Observer != "" && !own.Contains(s.YardId)).ToListAsync(cancel))
        {
            sighting.Observer = "";
        }

        // A name they checked stays checked, by somebody who is gone.
        foreach (var sighting in await db.Sightings.Where(s => s.VerifiedBy == member.Name && !own.Contains(s.YardId))
            .ToListAsync(cancel))
        {
            sighting.VerifiedBy = Gone;
        }

        foreach (var walk in await db.Walks.Where(w => w.RecordedById == member.Id && w.Observer != "" && !own.Contains(w.YardId))
            .ToListAsync(cancel))
        {
            walk.Observer = "";
        }

        foreach (var wildlife in await db.Wildlife.Where(w => w.RecordedById == member.Id && w.Observer != "" && !own.Contains(w.YardId))
            .ToListAsync(cancel))
        {
            wildlife.Observer = "";
        }

        foreach (var treatment in await db.Treatments.Where(t => t.RecordedById == member.Id
            && !(t.YardId != null && own.Contains(t.YardId.Value))).ToListAsync(cancel))
        {
            (treatment.Who, treatment.Qualification) = ("", "");
        }

        foreach (var step in await db.CaseSteps.Where(s => s.RecordedById == member.Id
            && !(s.YardId != null && own.Contains(s.YardId.Value))).ToListAsync(cancel))
        {
            step.Who = "";
        }

        // Their notes about plants are their own words and go; a value the group took over stays, without who set it.
        db.PlantNotes.RemoveRange(await db.PlantNotes.Where(n => n.WrittenById == member.Id).ToListAsync(cancel));
        foreach (var value in await db.PlantOverrides.Where(o => o.SetById == member.Id).ToListAsync(cancel))
        {
            value.SetById = null;
        }

        foreach (var invitation in await db.Invitations.Where(i => i.UsedById == member.Id).ToListAsync(cancel))
        {
            invitation.ForWhom = "";
        }

        (member.Name, member.Role, member.AccountId) = (Gone, Role.Visitor, null);
    }
}
