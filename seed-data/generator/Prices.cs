using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.DemoData;

/// <summary>Invented prices: small, scarce seed costs more a gram; three plants in four have one.</summary>
internal static class Prices
{
    public static IEnumerable<PlantPriceRow> Of(IEnumerable<CatalogueTaxon> taxa)
    {
        var chance = new Chance("prices");
        foreach (var taxon in taxa.Where(t => t is { Nativity: Nativity.Native, C: >= 2 }
            && t.LifeForm is not (LifeForm.Tree or LifeForm.Vine or LifeForm.Turf)))
        {
            var known = chance.Happens(0.75);
            var grass = taxon.LifeForm is LifeForm.Grass or LifeForm.Sedge;
            var seed = taxon.SeedsPerGram is { } perGram ? Math.Round((grass ? 0.12 : 0.3) * (1 + (0.12 * (taxon.C ?? 4)))
                * Math.Pow(perGram / 400, 0.35) * chance.Between(0.8, 1.3), 2) : (double?)null;
            var plug = Math.Round(taxon.LifeForm == LifeForm.Shrub ? chance.Between(18, 32) : chance.Between(2.2, 3.9), 2);
            if (known) yield return new PlantPriceRow(0, taxon.ScientificName, seed, plug);
        }
    }
}
