using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Invasives;

/// <summary>One unwanted plant at one place: a yard, or a block where the yard is not known.</summary>
/// <param name="Yard">The yard's code; empty for a block.</param>
/// <param name="BlockId">The block; 0 for a yard.</param>
/// <param name="Plant">Address word or scientific name of the plant.</param>
public sealed record CaseAt(string Yard, long BlockId, string Plant)
{
    public string Address => Yard.Length > 0 ? $"/unwanted/yards/{Yard}/{PlantLink.Slug(Plant)}"
        : $"/unwanted/blocks/{BlockId.ToString(System.Globalization.CultureInfo.InvariantCulture)}/{PlantLink.Slug(Plant)}";
}

/// <summary>A case's rows in the database, and how the reader calls the place.</summary>
internal sealed record CaseGround(long BlockId, Yard? Yard, int TaxonId, CatalogueTaxon Taxon, string Place)
{
    public static readonly Problem Denied = new("",
        "There is no such place or plant, or it is not yours to record in. Organisers record on blocks; a household in its yard.");

    public long? YardId => Yard?.Id;

    /// <summary>The place, where this reader may record there; null otherwise.</summary>
    public static async Task<CaseGround?> FindAsync(CommonGroundDb db, LoadedCommunity loaded, CaseAt at, CurrentUser by,
        CancellationToken cancel)
    {
        var slug = PlantLink.Slug(at.Plant);
        var known = loaded.TaxonIndex.FirstOrDefault(t => PlantLink.Slug(loaded.Matrix.Taxa[t.Value].ScientificName) == slug,
            new KeyValuePair<int, int>(0, -1));
        if (known.Value < 0)
        {
            return null;
        }

        var taxon = loaded.Matrix.Taxa[known.Value];
        if (at.Yard.Length > 0)
        {
            var yard = await db.Yards.AsNoTracking().SingleOrDefaultAsync(y => y.Code == at.Yard, cancel);
            return yard is null || !by.MayRecord(yard.OwnerId) ? null : new(yard.BlockId, yard, known.Key, taxon, $"yard {yard.Code}");
        }

        var block = await db.Blocks.AsNoTracking().SingleOrDefaultAsync(b => b.Id == at.BlockId, cancel);
        return block is null || !by.MayOrganise ? null : new(block.Id, null, known.Key, taxon,
            $"{await db.Streets.Where(s => s.Id == block.StreetId).Select(s => s.Name).SingleAsync(cancel)}, {block.Name}");
    }

    /// <summary>A look of a day, stored with what the caller fills in.</summary>
    public Storage.Infestations.InfestationRecord NewLook(CommonGroundDb db, int neighbourhood, DateOnly day)
    {
        var look = new Storage.Infestations.InfestationRecord
        {
            NeighbourhoodId = neighbourhood,
            Id = RowIds.Next(),
            BlockId = BlockId,
            YardId = YardId,
            TaxonId = TaxonId,
            ObservedOn = day,
        };
        db.Infestations.Add(look);
        return look;
    }

    public IQueryable<Storage.Infestations.InfestationRecord> Looks(CommonGroundDb db) => Yard is { } yard
        ? db.Infestations.Where(i => i.YardId == yard.Id && i.TaxonId == TaxonId)
        : db.Infestations.Where(i => i.YardId == null && i.BlockId == BlockId && i.TaxonId == TaxonId);

    public IQueryable<Storage.Infestations.Treatment> Treatments(CommonGroundDb db) => Yard is { } yard
        ? db.Treatments.Where(i => i.YardId == yard.Id && i.TaxonId == TaxonId)
        : db.Treatments.Where(i => i.YardId == null && i.BlockId == BlockId && i.TaxonId == TaxonId);

    public IQueryable<Storage.Infestations.CaseStep> Steps(CommonGroundDb db) => Yard is { } yard
        ? db.CaseSteps.Where(i => i.YardId == yard.Id && i.TaxonId == TaxonId)
        : db.CaseSteps.Where(i => i.YardId == null && i.BlockId == BlockId && i.TaxonId == TaxonId);
}
