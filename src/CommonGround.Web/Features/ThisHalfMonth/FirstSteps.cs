using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Membership;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.ThisHalfMonth;

/// <summary>How far a new group is on the way to its first map.</summary>
/// <param name="HasBegun">Somebody can sign in.</param>
/// <param name="HasPlace">It is said where the group is.</param>
/// <param name="Most">Yards on the block that has the most.</param>
/// <param name="Plantings">Plants recorded.</param>
/// <param name="Others">People beside the one who began, or codes given to them.</param>
public sealed record FirstSteps(bool HasBegun, bool HasPlace, int Blocks, int Yards, int Most, int Plantings, int Others)
{
    /// <summary>A block is shown once so many of its yards take part.</summary>
    public const int YardsOfABlock = 3;

    public bool IsEmpty => Yards == 0;

    public bool HasMap => Most >= YardsOfABlock && Plantings > 0;
}

/// <summary>Reads how far a new group is.</summary>
public sealed class FirstStepsQueries(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, FirstRunSetup setup)
{
    public async Task<FirstSteps> ReadAsync(CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var yards = await db.Yards.GroupBy(y => y.BlockId).Select(g => g.Count()).ToListAsync(cancel);
        return new FirstSteps(!await setup.IsNeededAsync(cancel), neighbourhood.Locality is not null, await db.Blocks.CountAsync(cancel),
            yards.Sum(), yards.DefaultIfEmpty(0).Max(), await db.Sightings.CountAsync(cancel),
            Math.Max(0, await db.Members.CountAsync(cancel) - 1) + await db.Invitations.CountAsync(cancel));
    }
}
