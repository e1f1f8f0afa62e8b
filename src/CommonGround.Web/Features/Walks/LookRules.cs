using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Features.Record;

namespace CommonGround.Web.Features.Walks;

/// <summary>The rules of recording, for what a walker said; pure.</summary>
internal static class LookRules
{
    private const int LongestRemark = Correction.LongestRemark;
    private const double MostSeedGrams = 100_000;

    /// <summary>What is wrong with it, in words for the walker; null when it can be stored.</summary>
    /// <param name="known">The planting as known before; null where it is new.</param>
    public static string? Check(LookSaid said, CatalogueTaxon taxon, Sighting? known, string patch, DateOnly day, DateOnly today, Bed bed,
        Yard yard)
    {
        var line = new PlantingDraft
        {
            Typed = taxon.ScientificName,
            Taxon = taxon,
            CoverSquareMetres = said.CoverSquareMetres,
            Count = said.Count,
            GrowthStage = said.GrowthStage,
            Origin = said.Origin,
            Certainty = said.Certainty,
            Qualifier = said.Qualifier ?? "",
            Patch = patch,
            Finding = said.Finding ?? Finding.Growing,
        };
        // A look at a plant that has ended, or was only looked for, says nothing of its ground: then the walker must.
        var problems = line.Check(day, today, bed.AreaSquareMetres, yard.AreaSquareMetres, knownSquareMetres: known?.CoverSquareMetres);
        return problems is [var problem, ..] ? problem.Message
            : said.Qualifier is not (null or "" or "cf." or "aff.") ? "Doubt in the name is cf., aff. or nothing."
            : said.Remark?.Length > LongestRemark ? $"A remark has at most {LongestRemark:#,0} letters."
            : said.Place?.Length > Sighting.LongestPlace ? $"A place in the bed has at most {Sighting.LongestPlace} letters."
            : said.SeedCollectedGrams is { } seed && !(seed is > 0 and <= MostSeedGrams)
                ? "Give the seed collected in grams, more than nothing and at most 100 kg."
            : null;
    }
}
