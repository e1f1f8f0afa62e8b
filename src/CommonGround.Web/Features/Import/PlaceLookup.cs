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

    /// <summary>The yard of a code; else the only one whose code is the same but for blanks, hyphens and leading zeros, or whose household
    /// has this label.</summary>
    public Yard? Yard(string code)
    {
        if (yards.TryGetValue(code, out var exact))
        {
            return exact;
        }

        return Coded(code) ?? (households ??= Unique(y => y.Household.Trim())).GetValueOrDefault(code.Trim());
    }

    /// <summary>The yard of a code, or the only one whose code is the same but for blanks, hyphens and leading zeros.</summary>
    public Yard? Coded(string code) => yards.TryGetValue(code, out var exact) ? exact
        : (looseCodes ??= Unique(y => Loose(y.Code))).GetValueOrDefault(Loose(code));

    private Dictionary<string, Yard?>? looseCodes, households;

    /// <summary>Yards by a word of theirs; nothing where two share it.</summary>
    private Dictionary<string, Yard?> Unique(Func<Yard, string> word)
    {
        var found = new Dictionary<string, Yard?>(ByName);
        foreach (var yard in yards.Values)
        {
            Note(found, word(yard), yard);
        }

        return found;
    }

    private static void Note(Dictionary<string, Yard?> found, string word, Yard yard)
    {
        if (word.Length > 0 && !found.TryAdd(word, yard))
        {
            found[word] = null;
        }
    }

    private static string Loose(string code) => string.Concat(new string([.. code.ToUpperInvariant()
        .Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')]).Split('-', StringSplitOptions.RemoveEmptyEntries).SelectMany(Pieces));

    /// <summary>Letters and numbers apart, numbers without zeros in front: "KI05" is KI and 5.</summary>
    private static IEnumerable<string> Pieces(string part)
    {
        var cut = part.AsSpan().IndexOfAnyInRange('0', '9');
        return cut <= 0 ? [part.TrimStart('0')] : [part[..cut], part[cut..].TrimStart('0')];
    }

    /// <summary>The yard of a household on a block, where the file has no codes.</summary>
    public Yard? OfHousehold(long block, string household) => yards.Values.FirstOrDefault(y => y.BlockId == block
        && ByName.Equals(y.Household, household));

    /// <summary>A code for a new yard of a street, as registering by hand proposes it.</summary>
    public string NextCode(string street) => Yards.RegisterYard.NextCode(street, yards.Keys);

    /// <summary>The blocks of a street most like a name that none of them has, best first.</summary>
    public IReadOnlyList<string> NearestBlocks(string streetName, string block) => !streets.TryGetValue(streetName, out var street) ? []
        : [.. blocks.Values.Where(b => b.StreetId == street.Id && b.MiddleLatitude is not null).OrderBy(b => Interchange.Names.EditDistance
            .Between(Fold(block), Fold(b.Name))).ThenBy(b => b.Name, StringComparer.Ordinal).Take(3).Select(b => b.Name)];

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
        households = null;
        if (looseCodes is not null)
        {
            Note(looseCodes, Loose(yard.Code), yard);
        }

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
