using CommonGround.Interchange;
using CommonGround.Interchange.Names;
using CommonGround.Storage;
using CommonGround.Storage.Plans;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Import;

/// <summary>Prices of seed and plants, one row a taxon.</summary>
internal static class PriceImport
{
    public static async Task TakeAsync(CommonGroundDb db, int neighbourhoodId, IReadOnlyList<ImportFile> files, TaxonLookup names,
        ImportFindings ledger, CancellationToken cancel)
    {
        if (!files.Any(f => f.Prices.Count > 0))
        {
            return;
        }

        var prices = await db.Prices.ToDictionaryAsync(p => p.TaxonId, cancel);
        foreach (var file in files)
        {
            foreach (var row in file.Prices)
            {
                if (names.Resolve(new TaxonName(row.ScientificName, ""), file.FileName, row.Line, ledger) is not { } taxon)
                {
                    continue;
                }

                var added = !prices.TryGetValue(taxon.Id, out var price);
                if (price is null)
                {
                    price = new PriceRow { NeighbourhoodId = neighbourhoodId, TaxonId = taxon.Id };
                    prices[taxon.Id] = price;
                    db.Prices.Add(price);
                }

                var changed = (price.SeedPerGram, price.PlugEach) != (row.SeedPerGram, row.PlugEach);
                (price.SeedPerGram, price.PlugEach) = (row.SeedPerGram, row.PlugEach);
                ledger.Count("prices", added, changed);
            }
        }
    }
}
