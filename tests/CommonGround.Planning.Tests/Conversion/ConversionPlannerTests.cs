using CommonGround.Ecology.Seeding;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using FsCheck.Xunit;

namespace CommonGround.Planning.Tests.Conversion;

public class ConversionPlannerTests
{
    [Property(MaxTest = 25)]
    public void Every_limit_is_obeyed(int seed)
    {
        var random = new Random(seed);
        var catalogue = InventedFlora.Any(random, 40);
        var request = AnyRequest(random, catalogue);
        if (Solve(request, catalogue).Mix is not { } mix)
        {
            return;
        }

        mix.Taxa.Sum(t => t.Share).ShouldBe(1, 1e-9);
        mix.Taxa.Count.ShouldBeInRange(request.FewestTaxa, request.MostTaxa);
        mix.Taxa.ShouldAllBe(t => t.Share <= request.MostShareOfOne + 1e-9 && t.Share >= 0.01 - 1e-9);
        GrassShare(mix).ShouldBeInRange(request.LeastGrassShare - 1e-9, request.MostGrassShare + 1e-9);
        mix.Cost.ShouldBeLessThanOrEqualTo(request.Budget ?? double.MaxValue);
        mix.Taxa.ShouldAllBe(t => t.Taxon.HeightMaxMetres <= (request.TallestMetres ?? 100) && (!request.KeepToxicOut || t.Taxon.Toxicity.Length == 0));
        mix.Taxa.Select(t => t.Taxon.ScientificName).Intersect(request.Never).ShouldBeEmpty();
        request.MustHave.Except(mix.Taxa.Select(t => t.Taxon.ScientificName)).ShouldBeEmpty();
        var sown = mix.Taxa.Where(t => t.As == PlantedAs.Seed).ToList();
        if (sown.Count > 0)
        {
            (sown.Sum(t => t.SeedsPerSquareMetre) / sown.Sum(t => t.Share)).ShouldBeInRange(request.FewestSeedsPerSquareMetre - 1e-6, request.MostSeedsPerSquareMetre + 1e-6);
        }
    }

    [Property(MaxTest = 12)]
    public void The_order_of_the_catalogue_does_not_matter_and_a_second_run_says_the_same(int seed)
    {
        var random = new Random(seed);
        var catalogue = InventedFlora.Any(random, 30);
        var request = AnyRequest(random, catalogue);
        var first = Words(Solve(request, catalogue));
        random.Shuffle(catalogue);
        Words(Solve(request, catalogue)).ShouldBe(first);
        Words(Solve(request, catalogue)).ShouldBe(first);
    }

    [Fact]
    public void A_locked_share_stays_exactly_and_the_rest_is_made_anew()
    {
        var catalogue = InventedFlora.Plain();
        var request = Small() with { LockedShares = new Dictionary<string, double> { ["Flos b"] = 0.137, ["Gramen c"] = 0.005 } };
        var mix = Solve(request, catalogue).Mix.ShouldNotBeNull();
        mix.Taxa.Single(t => t.Taxon.ScientificName == "Flos b").Share.ShouldBe(0.137, 1e-12);
        mix.Taxa.Single(t => t.Taxon.ScientificName == "Gramen c").Share.ShouldBe(0.005, 1e-12);
        mix.Taxa.Sum(t => t.Share).ShouldBe(1, 1e-9);
    }

    [Fact]
    public void Covering_half_months_goes_before_support_and_support_before_cost()
    {
        // The late one has hardly any visitors and costs most; without it two half-months have two in flower.
        CatalogueTaxon[] catalogue = [.. InventedFlora.Plain()[..2].Select(t => t with { PollinatorValue = 0.9 }), InventedFlora.Forb("Praecox", 6, 17, 0.9), InventedFlora.Forb("Serus", 18, 19, 0.01), InventedFlora.Grass("Gramen")];
        var request = InventedFlora.Request() with { FewestTaxa = 1, MostTaxa = 4, MostShareOfOne = 0.9, LeastGrassShare = 0 };
        var mix = Solve(request, catalogue).Mix.ShouldNotBeNull();
        mix.Quality.CoveredHalves.ShouldBe(14);
        mix.Taxa.Single(t => t.Taxon.ScientificName == "Serus").Share.ShouldBe(0.01, 1e-9);

        // Equal twins: the cheaper takes all it may.
        CatalogueTaxon[] twins = [InventedFlora.Forb("Carus", 6, 19), InventedFlora.Forb("Vilis", 6, 19) with { SeedsPerGram = 5000 }];
        var cheap = Solve(request with { MostShareOfOne = 0.7, MostTaxa = 2 }, twins).Mix.ShouldNotBeNull();
        cheap.Taxa.Select(t => (t.Taxon.ScientificName, Math.Round(t.Share, 3))).ShouldBe([("Vilis", 0.7), ("Carus", 0.3)]);
    }

    [Fact]
    public void What_the_street_lacks_counts_more()
    {
        CatalogueTaxon[] catalogue = [InventedFlora.Forb("Autumnalis", 15, 18, 0.5), InventedFlora.Forb("Vernus", 7, 10, 0.5)];
        var request = InventedFlora.Request() with { FewestTaxa = 2, MostShareOfOne = 0.6, LeastGrassShare = 0 };
        var around = InventedFlora.Around(catalogue);
        string Most(IReadOnlyList<int> street, params string[] grown) => ConversionPlanner
            .Solve(request, around with { StreetInFlower = street, GrownOnStreet = grown.ToHashSet() }, InventedFlora.Prices).Mix!.Taxa[0].Taxon.ScientificName;
        Most([.. Enumerable.Range(0, 24).Select(t => t < 12 ? 0 : 3)]).ShouldBe("Vernus");
        Most([.. Enumerable.Range(0, 24).Select(t => t < 12 ? 3 : 0)]).ShouldBe("Autumnalis");
        Most(around.StreetInFlower, "Vernus").ShouldBe("Autumnalis");
        Most(around.StreetInFlower, "Autumnalis").ShouldBe("Vernus");
    }

    [Fact]
    public void Amounts_follow_from_shares_by_the_published_formulas()
    {
        var catalogue = InventedFlora.Plain().Select(t => t.LifeForm == LifeForm.Grass ? t with { C = 9 } : t).ToList();
        var request = Small() with { Areas = InventedFlora.Request(33, 20, 1).Areas };
        var mix = Solve(request, catalogue).Mix.ShouldNotBeNull();
        var sown = mix.Taxa.First(t => t.As == PlantedAs.Seed);
        sown.SeedsPerSquareMetre.ShouldBe(430 * sown.Share, 1e-9);
        sown.PlsGrams.ShouldBe(430 * sown.Share * 54 / 1000, 1e-9);
        sown.BulkGrams.ShouldBe(sown.PlsGrams / (0.95 * 0.8), 1e-9);
        sown.Cost.ShouldBe(sown.PlsGrams * 0.9, 1e-9);
        sown.PriceEstimated.ShouldBeTrue();
        var plugs = mix.Taxa.First(t => t.As == PlantedAs.Plug);
        plugs.Plugs.ShouldBe((int)Math.Ceiling(plugs.Share * 54 / (0.866 * 0.35 * 0.35)));
        plugs.Cost.ShouldBe(plugs.Plugs * 2.8, 1e-9);
        mix.Cost.ShouldBe(mix.Taxa.Sum(t => t.Cost), 1e-9);
    }

    [Property(MaxTest = 15)]
    public void Amounts_of_the_areas_add_up_to_the_whole(int seed)
    {
        var random = new Random(seed);
        var catalogue = InventedFlora.Any(random, 40);
        var request = InventedFlora.Request([.. Enumerable.Range(0, random.Next(1, 5)).Select(_ => Math.Round(0.5 + (random.NextDouble() * 60), 1))]);
        var mix = Solve(request, catalogue).Mix.ShouldNotBeNull();
        foreach (var taxon in mix.Taxa)
        {
            var parts = mix.Areas.SelectMany(a => a.Taxa).Where(t => t.Taxon.ScientificName == taxon.Taxon.ScientificName).ToList();
            parts.Sum(p => p.Plugs).ShouldBe(taxon.Plugs);
            parts.Sum(p => p.PlsGrams).ShouldBe(taxon.PlsGrams, 1e-6);
            parts.Sum(p => p.Cost).ShouldBe(taxon.Cost, 1e-6);
        }
    }

    [Fact]
    public void Steep_ground_takes_the_most_seed_and_flat_ground_the_fewest()
    {
        ConversionConvention.SownSeedsPerSquareMetre(InventedFlora.Request()).ShouldBe(430);
        ConversionConvention.SownSeedsPerSquareMetre(InventedFlora.Request() with { SlopePercent = 60 }).ShouldBe(645);
        ConversionConvention.SownSeedsPerSquareMetre(InventedFlora.Request() with { SlopePercent = 16.5 }).ShouldBe(537.5, 1e-9);
        // The usual bounds are 40 and 60 seeds a square foot (common guidance, from memory).
        SeedRate.PerSquareFoot(430).ShouldBe(40, 0.06);
        SeedRate.PerSquareFoot(645).ShouldBe(60, 0.1);
    }

    [Fact]
    public void Each_look_keeps_its_convention()
    {
        var catalogue = InventedFlora.Any(new Random(7), 80);
        var ordered = Solve(InventedFlora.Request() with { Look = Look.Ordered }, catalogue).Mix.ShouldNotBeNull();
        ordered.Taxa.Count.ShouldBeLessThanOrEqualTo(12);
        ordered.Taxa.ShouldAllBe(t => t.Share >= 0.04 - 1e-9 && t.Taxon.HeightMaxMetres <= 1.2);
        var edges = Solve(InventedFlora.Request() with { Look = Look.EdgeFriendly }, catalogue).Mix.ShouldNotBeNull();
        edges.Taxa.Where(t => t.Taxon.HeightMaxMetres <= 0.9).Sum(t => t.Share).ShouldBeGreaterThanOrEqualTo(0.5 - 1e-9);
        var free = Solve(InventedFlora.Request(), catalogue).Mix.ShouldNotBeNull();
        free.Quality.Objective.ShouldBeGreaterThan(Math.Max(ordered.Quality.Objective, edges.Quality.Objective));
    }

    [Fact]
    public void What_the_mix_has_run_up_against_is_said()
    {
        var mix = Solve(Small() with { MostTaxa = 6 }, InventedFlora.Plain()).Mix.ShouldNotBeNull();
        mix.Binding.ShouldContain("Grasses and sedges: 30.0 % of the ground, and at least 30.0 % is asked for.");
        mix.Binding.ShouldContain(b => b.StartsWith("Most share of one taxon, 35.0 %: reached by Flos f", StringComparison.Ordinal));
        var shorter = Solve(Small(), [.. InventedFlora.Plain().Select(t => t.Bloom is null ? t : t with { Bloom = new(6, 17) })]).Mix.ShouldNotBeNull();
        shorter.Quality.CoveredHalves.ShouldBe(12);
        shorter.Binding.ShouldContain("early October: only 0 suitable taxa flower then, and 3 cover a half-month.");
    }

    private static ConversionRequest Small() => InventedFlora.Request() with { FewestTaxa = 3, MostShareOfOne = 0.35 };

    private static double GrassShare(ConversionMix mix) => mix.Taxa.Where(t => t.Taxon.LifeForm == LifeForm.Grass).Sum(t => t.Share);

    private static MixOutcome Solve(ConversionRequest request, IReadOnlyList<CatalogueTaxon> catalogue) => ConversionPlanner.Solve(request, InventedFlora.Around(catalogue, 2), InventedFlora.Prices);

    private static ConversionRequest AnyRequest(Random random, CatalogueTaxon[] catalogue) => InventedFlora.Request(10 + random.Next(90)) with
    {
        Budget = random.Next(2) == 0 ? null : random.Next(10, 600),
        TallestMetres = random.Next(2) == 0 ? null : 1.4,
        KeepToxicOut = random.Next(2) == 0,
        MustHave = [catalogue[random.Next(catalogue.Length)].ScientificName],
        Never = [catalogue[random.Next(catalogue.Length)].ScientificName],
        MostTaxa = random.Next(8, 20),
        MostShareOfOne = 0.1 + (0.05 * random.Next(4)),
        LeastGrassShare = 0.1 * random.Next(4),
        Method = (Method)random.Next(3),
        SlopePercent = random.Next(40),
    };

    private static string Words(MixOutcome outcome) => outcome.Mix is { } mix
        ? string.Join('|', mix.Taxa.Select(t => $"{t.Taxon.ScientificName} {t.As} {t.Share:R} {t.Cost:R}"))
        : string.Join('|', outcome.None!.Conflict.Concat(outcome.None.Relaxed));
}
