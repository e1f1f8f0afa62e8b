using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>From thousandths of ground to grams, plugs and money.</summary>
internal static class MixAmounts
{
    public static ConversionMix Of(SolvedMix solved, ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices, ConversionCandidates candidates)
    {
        var taxa = solved.Pool.Zip(solved.Shares).Where(p => p.Second > 0)
            .Select(p => Planned(p.First.Candidate, p.Second, request, surroundings, prices))
            .OrderByDescending(t => t.Share).ThenBy(t => t.Taxon.ScientificName, StringComparer.Ordinal).ToList();
        int[] inFlower = [.. Enumerable.Range(0, HalfMonth.Count).Select(t => taxa.Count(p => p.Taxon.Bloom?.Contains(t) ?? false))];
        var cost = taxa.Sum(t => t.Cost);
        var quality = QualityOf(solved, request, taxa, inFlower);
        return new(taxa, [.. request.Areas.Select((_, i) => AreaOf(i, request, taxa))], inFlower, cost, quality, MixBinding.Of(taxa, inFlower, cost, request, candidates));
    }

    private static PlannedTaxon Planned(ConversionCandidate candidate, int steps, ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        var taxon = candidate.Taxon;
        var share = (double)steps / ConversionConvention.ShareSteps;
        var ground = request.SquareMetres * share;
        var unit = Pricing.Unit(taxon, candidate.As, prices);
        var reasons = MixReasons.Of(taxon, request, surroundings);
        if (candidate.As == PlantedAs.Plug)
        {
            var plugs = PlugSpacing.WholePlants(ground, taxon.SpacingMetres!.Value);
            return new(taxon, PlantedAs.Plug, share, ground, 0, 0, 0, plugs, plugs * unit, candidate.PriceEstimated, reasons);
        }

        var seeds = ConversionConvention.SownSeedsPerSquareMetre(request) * share;
        var grams = SeedRate.Grams(seeds, request.SquareMetres, taxon.SeedsPerGram!.Value);
        var bulk = PureLiveSeed.Bulk(grams, PureLiveSeed.Fraction(prices.Purity, prices.Germination));
        return new(taxon, PlantedAs.Seed, share, ground, seeds, grams, bulk, 0, grams * unit, candidate.PriceEstimated, reasons);
    }

    /// <summary>The same shares everywhere; whole plugs by largest remainder, so that they add up. A taxon of which an area gets no plug is not in it.</summary>
    private static AreaPlanting AreaOf(int index, ConversionRequest request, List<PlannedTaxon> taxa)
    {
        double[] sizes = [.. request.Areas.Select(a => a.SquareMetres)];
        var part = sizes[index] / request.SquareMetres;
        return new(request.Areas[index], [.. taxa.Select(t => Part(t, t.As == PlantedAs.Plug ? PlugSpacing.Apportion(t.Plugs, sizes)[index] : 0)).Where(t => t.As == PlantedAs.Seed || t.Plugs > 0)]);

        PlannedTaxon Part(PlannedTaxon whole, int plugs) => whole with
        {
            SquareMetres = whole.SquareMetres * part,
            PlsGrams = whole.PlsGrams * part,
            BulkGrams = whole.BulkGrams * part,
            Plugs = plugs,
            Cost = whole.As == PlantedAs.Plug ? whole.Cost / whole.Plugs * plugs : whole.Cost * part,
        };
    }

    private static MixQuality QualityOf(SolvedMix solved, ConversionRequest request, List<PlannedTaxon> taxa, int[] inFlower)
    {
        var season = request.Season;
        var halves = Enumerable.Range(season.First, season.Last - season.First + 1).ToList();
        var support = taxa.Sum(t => t.Share * (t.Taxon.PollinatorValue ?? 0) * halves.Count(h => t.Taxon.Bloom?.Contains(h) ?? false));
        const double Scale = MixModel.SupportScale * ConversionConvention.ShareSteps;
        var (objective, bound) = (solved.Support / Scale, solved.SupportBound / Scale);
        var gap = solved.SupportBound == 0 ? 0 : (bound - objective) / Math.Abs(bound);
        // More may flower than was asked for, when a half-month fills up by itself.
        var covered = halves.Count(h => inFlower[h] >= season.Norm);
        return new(covered, halves.Count, support, objective, bound, gap, solved.SupportBound == solved.Support && solved.CoveredBound == solved.Covered && solved.CheapestProven)
        {
            CoveredBound = solved.CoveredBound,
        };
    }
}

/// <summary>Why a taxon is in, for the reader.</summary>
internal static class MixReasons
{
    public static IReadOnlyList<string> Of(CatalogueTaxon taxon, ConversionRequest request, ConversionSurroundings surroundings)
    {
        var season = request.Season;
        var halves = Enumerable.Range(season.First, season.Last - season.First + 1).Where(t => taxon.Bloom?.Contains(t) ?? false).ToList();
        var reasons = new List<string>();
        void When(bool holds, string reason)
        {
            if (holds && reasons.Count < 3) reasons.Add(reason);
        }

        When(request.MustHave.Contains(taxon.ScientificName, StringComparer.Ordinal), "you asked for it");
        When(request.LockedShares.ContainsKey(taxon.ScientificName), "you locked its share");
        When(halves.Any(t => surroundings.StreetInFlower[t] == 0), "flowers when the street has nothing");
        When(halves.Any(t => surroundings.StreetInFlower[t] is > 0 and var n && n < season.Norm), "helps a gap of the street");
        When(halves.Any(t => surroundings.YardInFlower[t] < season.Norm), "helps a gap of the yard");
        When(taxon.LifeForm is LifeForm.Grass or LifeForm.Sedge, "holds soil, props flowers");
        When(taxon.PollinatorValue >= 0.7, "many kinds of visitors");
        When(!surroundings.GrownOnStreet.Contains(taxon.ScientificName), "new to the street");
        When(halves.Exists(t => t >= season.LateFrom), "flowers late");
        return reasons;
    }
}

/// <summary>Limits a mix has run up against.</summary>
internal static class MixBinding
{
    public static IReadOnlyList<string> Of(List<PlannedTaxon> taxa, int[] inFlower, double cost, ConversionRequest request, ConversionCandidates candidates)
    {
        var found = new List<string>();
        var grass = taxa.Where(t => t.Taxon.LifeForm is LifeForm.Grass or LifeForm.Sedge).Sum(t => t.Share);
        const double Step = 1.0 / ConversionConvention.ShareSteps;
        void When(bool holds, string words)
        {
            if (holds) found.Add(words);
        }

        var capped = taxa.Where(t => t.Share > request.MostShareOfOne - Step).Select(t => t.Taxon.DisplayName).ToList();
        When(request.Budget is { } budget && cost > 0.98 * budget, $"Budget: {cost:0.00} of {request.Budget:0.00} is spent.");
        When(request.LeastGrassShare > 0 && grass < request.LeastGrassShare + Step, $"Grasses and sedges: {grass:P1} of the ground, and at least {request.LeastGrassShare:P1} is asked for.");
        When(grass > request.MostGrassShare - Step, $"Grasses and sedges: {grass:P1} of the ground, and at most {request.MostGrassShare:P1} is allowed.");
        When(capped.Count > 0, $"Most share of one taxon, {request.MostShareOfOne:P1}: reached by {string.Join(", ", capped)}.");
        When(taxa.Count == request.MostTaxa, $"Number of taxa: all {request.MostTaxa} are used.");
        When(taxa.Count == request.FewestTaxa, $"Number of taxa: no more than the {request.FewestTaxa} asked for at least.");
        When(request.Look == Look.Ordered && taxa.Count == ConversionConvention.OrderedMostTaxa, $"An ordered planting has at most {ConversionConvention.OrderedMostTaxa} taxa.");
        for (var t = request.Season.First; t <= request.Season.Last; t++)
        {
            var suited = candidates.Suitable.Count(c => c.Taxon.Bloom?.Contains(t) ?? false);
            if (inFlower[t] < request.Season.Norm)
            {
                found.Add(suited < request.Season.Norm
                    ? $"{HalfMonthWords.Of(t)}: only {suited} suitable {(suited == 1 ? "taxon flowers" : "taxa flower")} then, and {request.Season.Norm} cover a half-month."
                    : $"{HalfMonthWords.Of(t)}: {inFlower[t]} in flower; the limits leave no room for {request.Season.Norm}.");
            }
        }

        return found;
    }
}
