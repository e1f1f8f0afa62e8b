using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Storage;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Features.Regions;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Plants;

/// <summary>
/// What holds in a group: the catalogue's values as they stand at the group's place, and those the group has put in their place. The one
/// way from stored taxa to measures and plans.
/// </summary>
internal static class GroupTraits
{
    /// <summary>The traits of each taxon, in the same order.</summary>
    public static async Task<List<CatalogueTaxon>> OfAsync(CommonGroundDb db, IReadOnlyList<Taxon> taxa, CancellationToken cancel)
    {
        var place = (await db.Neighbourhoods.AsNoTracking().SingleAsync(n => n.Id == db.NeighbourhoodId, cancel)).ToLocality();
        var here = place is null ? null : RegionFiles.At(place);
        var own = (await db.PlantOverrides.AsNoTracking().ToListAsync(cancel)).ToLookup(o => o.TaxonId);
        return [.. taxa.Select(t => (t.Id, Traits: here?.Of(t.Traits) ?? t.Traits)).Select(t => own.Contains(t.Id)
            ? Of(t.Traits, own[t.Id]) : t.Traits)];
    }

    /// <summary>One taxon with its overrides; a value that can no longer be read is left out, and the check command names it.</summary>
    public static CatalogueTaxon Of(CatalogueTaxon traits, IEnumerable<PlantOverride> overrides)
    {
        foreach (var own in overrides.OrderBy(o => Place(o.Trait)))
        {
            traits = PlantTraits.Apply(traits, own.Trait, own.Value, Source(own.Reason)).Taxon ?? traits;
        }

        return traits;
    }

    public static string Source(string reason) => $"this group: {reason}";

    private static int Place(string trait) => PlantTraits.All.Index().FirstOrDefault(t => t.Item.Column == trait).Index;
}
