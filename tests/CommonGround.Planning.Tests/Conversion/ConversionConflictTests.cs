using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using FsCheck.Xunit;

namespace CommonGround.Planning.Tests.Conversion;

public class ConversionConflictTests
{
    private const string Sunny = "The ground has full sun and medium soil.";

    [Fact]
    public void Too_small_a_budget_is_named_and_the_least_that_is_enough_offered()
    {
        var request = Small() with { Budget = 2 };
        var none = Solve(request).None.ShouldNotBeNull();
        none.Conflict.ShouldContain("No more than 2.00 is to be spent on seed and plants.");
        // With 40 % grass at 0.35 and 60 % flowers at 0.9 the seed of 60 m² would be 17.54; half grass, the most allowed, makes it 16.125.
        none.Relaxed.ShouldBe(["Raise the budget from 2 to 17."]);
        none.Request.ShouldNotBeNull().Budget.ShouldBe(17);
        Solve(none.Request).Mix.ShouldNotBeNull().Cost.ShouldBeLessThanOrEqualTo(17);
        Solve(request with { Budget = 16.12 }).Mix.ShouldBeNull();
    }

    [Fact]
    public void Too_few_taxa_for_the_most_share_of_one_are_named_and_nothing_else()
    {
        var request = Small() with { MostTaxa = 4, MostShareOfOne = 0.2, FewestTaxa = 1, LeastGrassShare = 0 };
        var none = Solve(request).None.ShouldNotBeNull();
        none.Conflict.ShouldBe([Sunny, "There are at most 4 taxa.", "No taxon takes more than 20.0 % of the ground."], ignoreOrder: true);
        // One taxon more, a quarter, gives way as much as five hundredths of 20 %; either will do.
        none.Relaxed.Count.ShouldBe(1);
        none.Relaxed[0].ShouldBeOneOf("Allow up to 5 taxa instead of 4.", "Let one taxon take up to 25.0 % of the ground instead of 20.0 %.");
        Solve(none.Request.ShouldNotBeNull()).Mix.ShouldNotBeNull();
    }

    [Fact]
    public void A_must_have_that_the_height_limit_bars_is_in_conflict_with_it()
    {
        CatalogueTaxon[] catalogue = [.. InventedFlora.Plain(), InventedFlora.Forb("Altus") with { HeightMaxMetres = 2.5 }];
        var request = Small() with { MustHave = ["Altus"], TallestMetres = 1 };
        var none = Solve(request, catalogue).None.ShouldNotBeNull();
        none.Conflict.ShouldBe([Sunny, "Altus must be in.", "No plant is taller than 1 m."]);
        none.Relaxed.ShouldBe(["Do without Altus."]);
        Solve(none.Request!, catalogue).Mix.ShouldNotBeNull();
    }

    [Fact]
    public void A_height_limit_that_leaves_nothing_may_be_asked_about()
    {
        var none = Solve(Small() with { TallestMetres = 0.1 }).None.ShouldNotBeNull();
        none.Conflict.ShouldBe([Sunny, "No plant is taller than 0.1 m."]);
        none.Relaxed.ShouldBe(["Allow plants up to 0.8 m instead of 0.1 m, only if the local ordinance permits it: ask there first."]);
        Solve(none.Request!).Mix.ShouldNotBeNull();
    }

    [Fact]
    public void Toxic_taxa_are_never_let_in_to_make_a_plan()
    {
        var catalogue = InventedFlora.Plain().Select(t => t with { Toxicity = "seed" }).ToArray();
        var none = Solve(Small() with { KeepToxicOut = true }, catalogue).None.ShouldNotBeNull();
        none.Conflict.ShouldBe([Sunny, "Taxa with a toxicity note are kept out."]);
        none.Relaxed.ShouldBeEmpty();
        none.Request.ShouldBeNull();
    }

    [Fact]
    public void A_site_that_no_taxon_suits_is_said_with_the_reasons_counted()
    {
        var none = Solve(Small() with { Light = Light.Shade }).None.ShouldNotBeNull();
        none.Conflict.ShouldBe(["Nothing in the catalogue suits. The ground has shade and medium soil.", "9 taxa: wants other light"]);
        none.Request.ShouldBeNull();
    }

    [Fact]
    public void A_must_have_that_does_not_suit_the_ground_is_offered_to_be_dropped()
    {
        CatalogueTaxon[] catalogue = [.. InventedFlora.Plain(), InventedFlora.Forb("Umbrosus") with { Light = [Light.Shade] }];
        var none = Solve(Small() with { MustHave = ["Umbrosus", "Nullus"] }, catalogue).None.ShouldNotBeNull();
        none.Conflict.ShouldBe([Sunny, "Nullus must be in, but: the catalogue does not have it.", "Umbrosus must be in, but: wants other light."]);
        none.Relaxed.ShouldBe(["Do without Nullus.", "Do without Umbrosus."]);
        Solve(none.Request!, catalogue).Mix.ShouldNotBeNull();
    }

    [Fact]
    public void A_lock_above_the_most_share_of_one_is_in_conflict_with_it()
    {
        var none = Solve(Small() with { LockedShares = new Dictionary<string, double> { ["Flos a"] = 0.5 } }).None.ShouldNotBeNull();
        none.Conflict.ShouldBe([Sunny, "No taxon takes more than 35.0 % of the ground.", "Flos a keeps 50.0 % of the ground."]);
        Solve(none.Request!).Mix.ShouldNotBeNull();
    }

    [Property(MaxTest = 20)]
    public void The_nearest_request_really_has_a_mix_and_lets_no_toxic_taxon_in(int seed)
    {
        var random = new Random(seed);
        var catalogue = InventedFlora.Any(random, 20);
        var request = InventedFlora.Request() with
        {
            Budget = random.Next(3) == 0 ? random.Next(1, 20) : null,
            TallestMetres = random.Next(3) == 0 ? 0.3 + random.NextDouble() : null,
            KeepToxicOut = random.Next(2) == 0,
            MustHave = [catalogue[random.Next(20)].ScientificName, catalogue[random.Next(20)].ScientificName],
            Never = [.. catalogue.Where(_ => random.Next(4) == 0).Select(t => t.ScientificName)],
            FewestTaxa = random.Next(5, 20),
            MostTaxa = 20,
            MostShareOfOne = 0.05 + (0.15 * random.NextDouble()),
            LeastGrassShare = 0.1 * random.Next(5),
            Look = (Look)random.Next(3),
            Method = (Method)random.Next(3),
        };
        request = request with { Never = [.. request.Never.Except(request.MustHave)] };
        if (Solve(request, catalogue).None is not { } none)
        {
            return;
        }

        none.Conflict.Count.ShouldBeGreaterThan(1);
        none.Relaxed.Any().ShouldBe(none.Request is not null);
        if (none.Request is not null)
        {
            Solve(none.Request, catalogue).Mix.ShouldNotBeNull(string.Join(' ', none.Relaxed));
            none.Request.KeepToxicOut.ShouldBe(request.KeepToxicOut);
        }
    }

    [Property(MaxTest = 15)]
    public void The_limits_of_a_conflict_are_enough_for_it_and_each_of_them_is_needed(int seed)
    {
        var random = new Random(seed);
        var catalogue = InventedFlora.Any(random, 12, seedOnly: true);
        var request = InventedFlora.Request() with
        {
            Budget = random.Next(1, 15),
            TallestMetres = Math.Round(0.3 + random.NextDouble(), 1),
            KeepToxicOut = random.Next(2) == 0,
            FewestTaxa = random.Next(3, 10),
            MostTaxa = 10,
            MostShareOfOne = Math.Round(0.1 + (0.15 * random.NextDouble()), 2),
            LeastGrassShare = 0.1 * random.Next(5),
        };
        if (Solve(request, catalogue).None is not { } none)
        {
            return;
        }

        (string Words, Func<ConversionRequest, ConversionRequest> Off)[] limits =
        [
            ("is to be spent", r => r with { Budget = null }), ("take at least", r => r with { LeastGrassShare = 0 }), ("take at most", r => r with { MostGrassShare = 1 }),
            ("No taxon takes more", r => r with { MostShareOfOne = 1 }), ("There are at least", r => r with { FewestTaxa = 1 }), ("There are at most", r => r with { MostTaxa = 1000 }),
            ("No plant is taller", r => r with { TallestMetres = null }), ("toxicity", r => r with { KeepToxicOut = false }),
        ];
        var named = limits.Where(l => none.Conflict.Any(c => c.Contains(l.Words, StringComparison.Ordinal))).ToList();
        named.Count.ShouldBe(none.Conflict.Count - 1, string.Join(' ', none.Conflict));
        var only = limits.Except(named).Aggregate(request, (r, l) => l.Off(r));
        Solve(only, catalogue).Mix.ShouldBeNull(string.Join(' ', none.Conflict));
        foreach (var (words, off) in named)
        {
            Solve(off(only), catalogue).Mix.ShouldNotBeNull(words + " in " + string.Join(' ', none.Conflict));
        }
    }

    private static ConversionRequest Small() => InventedFlora.Request() with { FewestTaxa = 3, MostShareOfOne = 0.35 };

    private static MixOutcome Solve(ConversionRequest request, CatalogueTaxon[]? catalogue = null) =>
        ConversionPlanner.Solve(request, InventedFlora.Around(catalogue ?? InventedFlora.Plain()), InventedFlora.Prices);
}
