using CommonGround.Interchange;
using CommonGround.Interchange.Catalogue;
using CommonGround.Interchange.Names;
using CommonGround.Storage;
using CommonGround.Storage.Taxa;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>Values of plants that the group has put in the catalogue's place.</summary>
internal static class PlantOverrideImport
{
    public static async Task TakeAsync(CommonGroundDb db, int neighbourhoodId, IReadOnlyList<ImportFile> files, TaxonLookup names,
        ImportFindings ledger, ImportChoices choices, CancellationToken cancel)
    {
        if (!files.Any(f => f.Overrides.Count > 0))
        {
            return;
        }

        var stored = await db.PlantOverrides.ToDictionaryAsync(o => (o.TaxonId, o.Trait), cancel);
        // Whether a plant is native comes first: its C value depends on it.
        foreach (var (file, row) in files.SelectMany(f => f.Overrides.Select(o => (f, o))).OrderBy(p => p.o.Trait != "nativity"))
        {
            if (names.Resolve(new TaxonName(row.ScientificName, ""), file.FileName, row.Line, ledger) is not { } taxon)
            {
                continue;
            }

            var before = Plants.GroupTraits.Of(taxon.Traits, stored.Values.Where(o => o.TaxonId == taxon.Id && o.Trait != row.Trait));
            if (PlantTraits.Apply(before, row.Trait, row.Value, "") is { Taxon: null } refused)
            {
                ledger.Refuse(file.FileName, row.Line, "override_value", row.Value, "The value cannot be read.", refused.Problem);
                continue;
            }

            var added = !stored.TryGetValue((taxon.Id, row.Trait), out var own);
            if (own is null)
            {
                own = new PlantOverride { NeighbourhoodId = neighbourhoodId, TaxonId = taxon.Id, Trait = row.Trait };
                stored[(taxon.Id, row.Trait)] = own;
                db.PlantOverrides.Add(own);
            }

            var changed = (own.Value, own.Reason) != (row.Value, row.Reason);
            if (added || changed)
            {
                (own.Value, own.Reason, own.SetById, own.SetAtUtc) = (row.Value, row.Reason, choices.By?.MemberId,
                    TimeProvider.System.GetUtcNow().UtcDateTime);
            }

            ledger.Count("overridden values", added, changed);
        }
    }
}
