using CommonGround.Storage;
using CommonGround.Storage.Places;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>The streets, blocks, yards and beds of a neighbourhood by name, with what an import adds to them.</summary>
internal sealed class PlaceLookup
{
    private static readonly StringComparer ByName = StringComparer.OrdinalIgnoreCase;
    private readonly CommonGroundDb db;
    private readonly Dictionary<string, Street> streets = new(ByName);
    private readonly Dictionary<(long Street, string Block), StreetBlock> blocks = [];
    private readonly Dictionary<string, Yard> yards = new(ByName);
    private readonly Dictionary<(long Yard, string Bed), Bed> beds = [];

    private PlaceLookup(CommonGroundDb db, int neighbourhoodId)
    {
        this.db = db;
        NeighbourhoodId = neighbourhoodId;
    }

    public int NeighbourhoodId { get; }

    /// <summary>Where a file names thousands of unknown yards, only the first get suggestions: comparing takes time.</summary>
    private const int MostCompared = 200;

    private readonly Dictionary<string, IReadOnlyList<string>> nearestYards = new(ByName);

    /// <summary>The codes most like one that no yard has, best first.</summary>
    public IReadOnlyList<string> NearestYards(string code)
    {
        if (nearestYards.TryGetValue(code, out var known))
        {
            return known;
        }

        if (nearestYards.Count >= MostCompared)
        {
            return [];
        }

        IReadOnlyList<string> near = [.. yards.Keys.OrderBy(c => Interchange.Names.EditDistance.Between(code.ToUpperInvariant(),
            c.ToUpperInvariant())).ThenBy(c => c, StringComparer.Ordinal).Take(3)];
        nearestYards[code] = near;
        return near;
    }

    public bool HasYards => yards.Count > 0;

    public IReadOnlyCollection<StreetBlock> Blocks => blocks.Values;

    public static async Task<PlaceLookup> OpenAsync(CommonGroundDb db, int neighbourhoodId, CancellationToken cancel)
    {
        var book = new PlaceLookup(db, neighbourhoodId);
        foreach (var street in await db.Streets.ToListAsync(cancel))
        {
            book.streets[street.Name] = street;
        }

        foreach (var block in await db.Blocks.ToListAsync(cancel))
        {
            book.blocks[(block.StreetId, Fold(block.Name))] = block;
        }

        foreach (var yard in await db.Yards.ToListAsync(cancel))
        {
            book.yards[yard.Code] = yard;
        }

        foreach (var bed in await db.Beds.ToListAsync(cancel))
        {
            book.beds[(bed.YardId, Fold(bed.Name))] = bed;
        }

        return book;
    }

    public Yard? Yard(string code) => yards.GetValueOrDefault(code);

    public Bed? Bed(Yard yard, string name) => beds.GetValueOrDefault((yard.Id, Fold(name)));

    /// <summary>The block of that street and name; both are made when new.</summary>
    public (StreetBlock Block, bool Added) EnsureBlock(string streetName, string blockName)
    {
        if (!streets.TryGetValue(streetName, out var street))
        {
            street = new Street { NeighbourhoodId = NeighbourhoodId, Id = RowIds.Next(), Name = streetName };
            streets[streetName] = street;
            db.Streets.Add(street);
        }

        var key = (street.Id, Fold(blockName));
        if (blocks.TryGetValue(key, out var block))
        {
            return (block, false);
        }

        block = new StreetBlock { NeighbourhoodId = NeighbourhoodId, Id = RowIds.Next(), StreetId = street.Id, Name = blockName };
        blocks[key] = block;
        db.Blocks.Add(block);
        return (block, true);
    }

    public void Add(Yard yard)
    {
        yards[yard.Code] = yard;
        db.Yards.Add(yard);
    }

    public void Add(Bed bed)
    {
        beds[(bed.YardId, Fold(bed.Name))] = bed;
        db.Beds.Add(bed);
    }

    /// <summary>Blocks called <paramref name="written"/>: a block's name, or "street, block".</summary>
    public IReadOnlyList<StreetBlock> FindBlocks(string written)
    {
        var comma = written.IndexOf(',', StringComparison.Ordinal);
        if (comma > 0 && streets.TryGetValue(written[..comma].Trim(), out var street)
            && blocks.TryGetValue((street.Id, Fold(written[(comma + 1)..])), out var exact))
        {
            return [exact];
        }

        return [.. blocks.Where(b => b.Key.Block == Fold(written)).Select(b => b.Value)];
    }

    private static string Fold(string name) => name.Trim().ToUpperInvariant();
}
