using CommonGround.Storage;
using CommonGround.Storage.History;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Community;

/// <summary>Reads in history which yards' plantings changed.</summary>
internal static class ChangedYards
{
    /// <summary>With more yards it is quicker to read all.</summary>
    private const int Most = 20;

    private static readonly HashSet<string> OfAYard = [RowKinds.Sighting, RowKinds.Bed];
    private static readonly HashSet<string> OfAll = [RowKinds.Neighbourhood, RowKinds.Street, RowKinds.Block, RowKinds.Yard,
        RowKinds.Taxon, RowKinds.PlantOverride, RowKinds.Infestation, RowKinds.Weather];

    /// <summary>The yards recorded in between two changes; null where the history does not say, or something else changed that the matrix
    /// rests on.</summary>
    /// <param name="after">Number of the change that is known.</param>
    /// <param name="upTo">Number of the newest.</param>
    public static async Task<IReadOnlyCollection<long>?> SinceAsync(CommonGroundDb db, long after, long upTo, CancellationToken cancel)
    {
        if (upTo < after || upTo - after > Most)
        {
            return null;
        }

        var rows = await db.ChangedRows.Where(r => r.ChangeId > after && r.ChangeId <= upTo)
            .Select(r => new { r.ChangeId, r.Kind, r.YardId }).Distinct().ToListAsync(cancel);
        // What the program brought in itself keeps no rows.
        if (rows.Select(r => r.ChangeId).Distinct().Count() != upTo - after
            || rows.Exists(r => OfAll.Contains(r.Kind) || (OfAYard.Contains(r.Kind) && r.YardId is null)))
        {
            return null;
        }

        var yards = rows.Where(r => OfAYard.Contains(r.Kind)).Select(r => r.YardId!.Value).ToHashSet();
        return yards.Count > Most ? null : yards;
    }
}
