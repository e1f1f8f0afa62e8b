using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>What is put in of one taxon, in the program's units.</summary>
internal readonly record struct ChosenAmount(ConversionCandidate Candidate, long SeedSteps, int Plugs);

/// <summary>From steps of seed and plugs to grams, money and areas.</summary>
internal static class MixAmounts
{
    private const double FineSeedsPerGram = 10_000, FineFactor = 0.3;

    /// <summary>The mix of some amounts; bound and gap are put in by whoever knows them.</summary>
    public static ConversionMix Of(IReadOnlyList<ChosenAmount> chosen, MixSite site, ConversionSurroundings surroundings,
        PriceTable prices, ConversionCandidates candidates)
    {
        var request = site.Request;
        // The planted band is mulched and weeded: seed there would be lost.
        var sown = site.SquareMetres - PlantedBand.SquareMetres(request, site.Method, chosen.Sum(c => c.Plugs),
            chosen.Any(c => c.SeedSteps > 0));
        double[] ground = [.. chosen.Select(c => ExpectedSquareMetres(c, site, sown))];
        var whole = Math.Max(1e-12, ground.Sum());
        var bare = chosen.Select((c, i) => Planned(c, ground[i] / whole, site, sown, prices)).ToList();
        var names = bare.Select(t => t.Taxon.ScientificName).ToList();
        var taxa = bare.Select(t => t with
        {
            Reasons = MixReasons.Of(t, names, request, surroundings),
            VisitorKinds = surroundings.Forage.Of([t.Taxon.ScientificName]).ByGroup,
            VisitorBasis = surroundings.Forage.BasisOf(t.Taxon.ScientificName),
        })
            .OrderBy(t => t.Traits.Role).ThenByDescending(t => t.SeedsPerSquareMetre).ThenByDescending(t => t.Plugs)
            .ThenBy(t => t.Taxon.ScientificName, StringComparer.Ordinal).ToList();
        int[] inFlower = [.. Enumerable.Range(0, HalfMonth.Count).Select(h => chosen.Count(c => c.Candidate.Flowers(h)))];
        var visitors = surroundings.Forage.Of(names);
        var season = Enumerable.Range(request.Season.First, request.Season.Last - request.Season.First + 1).ToList();
        var quality = new MixQuality(season.Count(h => inFlower[h] >= request.Season.Norm), season.Count, visitors.Bees, 0, 0, 0, false)
        {
            CoveredBound = season.Count(h => candidates.Suitable.Count(c => c.Flowers(h)) >= request.Season.Norm),
            BeesPossible = surroundings.Forage.Of(candidates.Suitable.Where(c => !c.IsGrass).Select(c => c.Taxon.ScientificName)).Bees,
        };
        var cost = taxa.Sum(t => t.Cost);
        return new(taxa, [.. request.Areas.Select((_, i) => AreaOf(i, request, taxa))], inFlower, cost, quality,
            MixBinding.Of(taxa, inFlower, cost, site, candidates))
        {
            Visitors = visitors,
            LeftOut = [.. candidates.LeftOut.Where(l => l.Reasons.All(PracticeWords.IsPractice))],
            Method = site.Method,
        };
    }

    /// <summary>Ground that a taxon's plants are expected to take, m²: seedlings to be hoped for and plugs that live, times their spacing
    /// squared.</summary>
    /// <remarks>5–15 % of seeds become plants, nine plugs of ten live: from memory; no decision rests on it.</remarks>
    private static double ExpectedSquareMetres(ChosenAmount chosen, MixSite site, double sownGround)
    {
        var (taxon, traits) = (chosen.Candidate.Taxon, chosen.Candidate.Traits);
        var comesUp = (traits.Longevity == Longevity.AnnualBiennial ? 0.15 : traits.FromSeed == FromSeed.Slow ? 0.04 : 0.10)
            * (taxon.SeedsPerGram > FineSeedsPerGram ? FineFactor : 1);
        var plants = (MixSite.SeedsPerSquareMetre(chosen.SeedSteps) * sownGround * comesUp) + (chosen.Plugs * 0.9);
        var spacing = taxon.SpacingMetres ?? site.Spacing;
        return plants * spacing * spacing;
    }

    private static PlannedTaxon Planned(ChosenAmount chosen, double share, MixSite site, double sownGround, PriceTable prices)
    {
        var (taxon, plugs) = (chosen.Candidate.Taxon, chosen.Plugs);
        var sown = chosen.SeedSteps > 0;
        var (seedPrice, plugPrice) = (Pricing.Unit(taxon, PlantedAs.Seed, prices), Pricing.Unit(taxon, PlantedAs.Plug, prices));
        var seeds = MixSite.SeedsPerSquareMetre(chosen.SeedSteps);
        var grams = sown ? SeedRate.Grams(seeds, sownGround, taxon.SeedsPerGram!.Value) : 0;
        var bought = sown ? Math.Max(grams, MixMoney.Packet(taxon, prices)) : 0;
        var bulk = sown ? PureLiveSeed.Bulk(grams, PureLiveSeed.Fraction(prices.Purity, prices.Germination)) : 0;
        var form = (sown, plugs > 0) switch { (true, true) => PlantedAs.SeedAndPlug, (true, false) => PlantedAs.Seed, _ => PlantedAs.Plug };
        var estimated = (sown && Pricing.IsEstimated(taxon, PlantedAs.Seed, prices))
            || (plugs > 0 && Pricing.IsEstimated(taxon, PlantedAs.Plug, prices));
        return new(taxon, form, share, share * site.SquareMetres, seeds, grams, bulk, plugs, (bought * seedPrice) + (plugs * plugPrice),
            estimated, [])
        {
            BoughtGrams = bought,
            SeedCost = bought * seedPrice,
        };
    }

    /// <summary>The same seed everywhere; whole plugs by largest remainder, so that they add up. A taxon of which an area gets nothing is
    /// not in it.</summary>
    private static AreaPlanting AreaOf(int index, ConversionRequest request, List<PlannedTaxon> taxa)
    {
        double[] sizes = [.. request.Areas.Select(a => a.SquareMetres)];
        var part = sizes[index] / request.SquareMetres;
        return new(request.Areas[index], [.. taxa.Select(t => Part(t, PlugSpacing.Apportion(t.Plugs, sizes)[index]))
            .Where(t => t.SeedsPerSquareMetre > 0 || t.Plugs > 0)]);

        PlannedTaxon Part(PlannedTaxon whole, int plugs) => whole with
        {
            SquareMetres = whole.SquareMetres * part,
            PlsGrams = whole.PlsGrams * part,
            BulkGrams = whole.BulkGrams * part,
            BoughtGrams = whole.BoughtGrams * part,
            Plugs = plugs,
            SeedCost = whole.SeedCost * part,
            Cost = (whole.SeedCost * part) + (whole.Plugs == 0 ? 0 : (whole.Cost - whole.SeedCost) / whole.Plugs * plugs),
        };
    }
}
