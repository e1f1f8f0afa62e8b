using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Yards;

namespace CommonGround.Web.Features.Record;

/// <summary>A yard's native taxa in flower, with lines that are not saved yet.</summary>
public static class SeasonWith
{
    public static int[] Lines(YardView view, IReadOnlyList<PlantingDraft> lines)
    {
        var taxa = view.Beds.SelectMany(b => b.Plantings).Select(p => p.Taxon)
            .Concat(lines.Where(l => l.Cover > 0).Select(l => l.Taxon).OfType<CatalogueTaxon>())
            .Where(t => t is { Nativity: Nativity.Native, Bloom: not null }).DistinctBy(t => t.ScientificName);
        return [.. BloomCoverage.Of(taxa.Select(t => new FloweringTaxon(true, t.Bloom, t.PollinatorValue, 1)),
            view.Season).HalfMonths.Select(h => h.N)];
    }
}
