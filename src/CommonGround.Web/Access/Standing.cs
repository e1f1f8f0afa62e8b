using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Access;

/// <summary>Whether somebody still is who a page was made for: signed in by the same session, with the same role here.</summary>
public sealed class Standing(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, TimeProvider time)
{
    /// <summary>One small query; in the demo, where accounts are for everybody to try, none.</summary>
    public async Task<bool> HoldsAsync(CurrentUser currentUser, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        if (currentUser.SessionId is not { } session)
        {
            return neighbourhood.IsDemo || currentUser.Role == Role.Visitor;
        }

        var now = time.GetUtcNow().UtcDateTime;
        var begun = now - Sessions.Longest;
        await using var db = await database.CreateDbContextAsync(cancel);
        var stands = await db.Sessions.Where(s => s.Id == session && s.AccountId == currentUser.AccountId && s.EndsAtUtc > now
            && s.StartedAtUtc > begun)
            .Select(s => new
            {
                Member = db.Members.Where(m => m.AccountId == s.AccountId).OrderBy(m => m.Id)
            .Select(m => new { m.Id, m.Role }).FirstOrDefault()
            })
            .FirstOrDefaultAsync(cancel);
        return stands is not null && (stands.Member is { Role: not Role.Visitor } member ? member.Role == currentUser.Role
            && member.Id == currentUser.MemberId : currentUser.Role == Role.Visitor);
    }
}
