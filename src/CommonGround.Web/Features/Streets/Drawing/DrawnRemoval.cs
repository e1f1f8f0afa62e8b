using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Streets;

/// <summary>What goes with the blocks and streets that a drawing has deleted.</summary>
internal sealed class DrawnRemoval(CommonGroundDb db, DrawnGround ground, Dictionary<long, Street> streets,
    Dictionary<long, StreetBlock> blocks, Dictionary<long, Yard> yards)
{
    private readonly List<long> gone = [.. blocks.Keys.Where(b => ground.Known.Contains(b) && ground.Block(b) is null)];

    /// <summary>A block goes only where nothing stays behind on it.</summary>
    public async Task<Problem?> RefusedAsync(CancellationToken cancel)
    {
        var moved = ground.Yards.ToDictionary(y => y.Id, y => y.BlockId);
        foreach (var block in gone)
        {
            var left = yards.Values.Count(y => y.BlockId == block && moved.GetValueOrDefault(y.Id, block) == block);
            if (left > 0)
            {
                return new("", $"{Words.Count(left, "yard stands", "yards stand")} on {Name(block)} by now, so it is not deleted. "
                    + "Load the page again, move what stands there, then delete it.");
            }

            if (!ground.Heirs.ContainsKey(block) && await db.Infestations.AnyAsync(i => i.BlockId == block && i.YardId == null, cancel))
            {
                return new("", $"Unwanted plants are recorded on {Name(block)}, so it is not deleted. Undo, and choose which block takes "
                    + "them over.");
            }
        }

        return null;
    }

    public async Task ApplyAsync(CancellationToken cancel)
    {
        var places = ground.Yards.ToDictionary(y => y.Id, y => y.BlockId);
        foreach (var record in await db.Infestations.Where(i => gone.Contains(i.BlockId)).ToListAsync(cancel))
        {
            record.BlockId = record.YardId is { } yard ? places.GetValueOrDefault(yard, record.BlockId) : ground.Heirs[record.BlockId];
        }

        foreach (var done in await db.Treatments.Where(t => gone.Contains(t.BlockId)).ToListAsync(cancel))
        {
            done.BlockId = done.YardId is { } yard ? places.GetValueOrDefault(yard, done.BlockId) : ground.Heirs[done.BlockId];
        }

        foreach (var step in await db.CaseSteps.Where(s => gone.Contains(s.BlockId)).ToListAsync(cancel))
        {
            step.BlockId = step.YardId is { } yard ? places.GetValueOrDefault(yard, step.BlockId) : ground.Heirs[step.BlockId];
        }

        // What the public has seen of a block is not forgotten with it: a later figure of the same yards must not differ by one of them.
        foreach (var seen in await db.PublishedYards.Where(p => gone.Contains(p.BlockId)).ToListAsync(cancel))
        {
            if (HeirOf(seen, places) is { } heir)
            {
                seen.BlockId = heir;
            }
        }

        db.Blocks.RemoveRange(gone.Select(b => blocks[b]));
        db.Streets.RemoveRange(streets.Values.Where(s => ground.Known.Contains(s.Id) && !ground.Streets.Any(d => d.Id == s.Id)
            && !blocks.Values.Any(b => b.StreetId == s.Id && !gone.Contains(b.Id))));
    }

    /// <summary>The block that was chosen, else one on which any of the yards stands now, else any: the set is looked up by its
    /// yards.</summary>
    private long? HeirOf(PublishedYards seen, Dictionary<long, long> places)
    {
        if (ground.Heirs.TryGetValue(seen.BlockId, out var chosen) && ground.Block(chosen) is not null)
        {
            return chosen;
        }

        var now = seen.Yards.Split(' ').Select(y => long.Parse(y, System.Globalization.CultureInfo.InvariantCulture))
            .Where(places.ContainsKey).Select(y => (long?)places[y]).FirstOrDefault();
        return now;
    }

    private string Name(long block) => $"{streets[blocks[block].StreetId].Name}, {blocks[block].Name}";
}
