using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Yards;

/// <summary>Whether a yard counts in what the public sees: given and withdrawn by its household or an organiser, with effect at once.</summary>
public sealed class YardConsent(IDbContextFactory<CommonGroundDb> database, CurrentNeighbourhood neighbourhood, LiveCommunity live)
{
    public async Task<IReadOnlyList<Problem>> SetAsync(long yardId, bool shared, Viewer by, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var yard = await db.Yards.SingleOrDefaultAsync(y => y.NeighbourhoodId == neighbourhood.Id && y.Id == yardId, cancel);
        if (yard is null || !by.MayRecord(yard.OwnerId))
        {
            return [new("", "This yard is gone, or not yours to decide for.")];
        }

        yard.Shared = shared;
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return [new("", "Somebody else changed this yard at the same moment. Look at it again, then choose.")];
        }

        live.Drop();
        return [];
    }
}
