using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

public class ConflictTests
{
    private const string Sunny = "The ground has full sun and medium soil.";

    [Fact]
    public void A_must_have_that_the_height_limit_bars_is_in_conflict_with_it()
    {
        var none = QuarryFlora.Solve(QuarryFlora.Request(20) with { MustHave = ["Silphium terebinthinaceum"], TallestMetres = 1 }).None
            .ShouldNotBeNull();
        none.Conflict.ShouldBe([Sunny, "No plant is taller than 1 m.", "Silphium terebinthinaceum must be in."], ignoreOrder: true);
        none.Relaxed.ShouldBe(["Do without Silphium terebinthinaceum."]);
        QuarryFlora.Solve(none.Request!, Effort.Quick).Mix.ShouldNotBeNull();
    }

    [Fact]
    public void A_rule_of_a_sound_mix_is_named_where_it_stands_in_the_way()
    {
        // Eight taxa cannot hold what ground of 132 m² must have at least.
        var none = QuarryFlora.Solve(QuarryFlora.Request(132) with { MostTaxa = 6 }).None.ShouldNotBeNull();
        none.Conflict.ShouldContain("There are at most 6 taxa.");
        none.Conflict.ShouldContain(c => c.StartsWith("A sound mix: ", StringComparison.Ordinal));
        none.Relaxed.ShouldHaveSingleItem().ShouldStartWith("Allow up to ");
        QuarryFlora.Solve(none.Request!, Effort.Quick).Mix.ShouldNotBeNull(
            ).Taxa.Count.ShouldBeLessThanOrEqualTo(none.Request!.MostTaxa!.Value);
    }

    [Fact]
    public void A_height_limit_that_leaves_nothing_may_be_asked_about()
    {
        var none = QuarryFlora.Solve(QuarryFlora.Request(20) with { TallestMetres = 0.1 }).None.ShouldNotBeNull();
        none.Conflict.ShouldContain("No plant is taller than 0.1 m.");
        none.Relaxed.ShouldHaveSingleItem().ShouldEndWith("only if the local ordinance permits it: ask there first.");
        QuarryFlora.Solve(none.Request!, Effort.Quick).Mix.ShouldNotBeNull();
    }

    [Fact]
    public void Toxic_taxa_are_never_let_in_to_make_a_plan()
    {
        var around = QuarryFlora.Around with { Catalogue = [.. QuarryFlora.Catalogue.Select(t => t with { Toxicity = "seed" })] };
        var none = ConversionPlanner.Solve(QuarryFlora.Request(20) with { KeepToxicOut = true }, around,
            QuarryFlora.Prices).None.ShouldNotBeNull();
        none.Conflict.ShouldContain("Plants known to harm people are kept out.");
        (none.Request?.KeepToxicOut ?? true).ShouldBeTrue();
    }

    [Fact]
    public void A_site_that_no_taxon_suits_is_said_with_the_reasons_counted()
    {
        var around = QuarryFlora.Around with { Catalogue = [.. QuarryFlora.Catalogue.Select(t => t with { Light = [Light.FullSun] })] };
        var none = ConversionPlanner.Solve(QuarryFlora.Request(20, Light.Shade), around, QuarryFlora.Prices).None.ShouldNotBeNull();
        none.Conflict[0].ShouldBe("Nothing in the catalogue suits. The ground has shade and medium soil.");
        none.Conflict.ShouldContain(c => c.EndsWith("wants other light", StringComparison.Ordinal));
        none.Request.ShouldBeNull();
    }

    [Fact]
    public void A_must_have_that_does_not_suit_the_ground_is_offered_to_be_dropped()
    {
        var none = QuarryFlora.Solve(QuarryFlora.Request(20) with { MustHave = ["Asarum canadense", "Planta nulla"] }).None
            .ShouldNotBeNull();
        none.Conflict.ShouldBe([Sunny, "Asarum canadense must be in, but: wants other light.",
            "Planta nulla must be in, but: the catalogue does not have it."]);
        none.Relaxed.ShouldBe(["Do without Asarum canadense.", "Do without Planta nulla."]);
        QuarryFlora.Solve(none.Request!, Effort.Quick).Mix.ShouldNotBeNull();
    }

    [Fact]
    public void A_lock_that_breaks_a_rule_is_named_and_unlocked()
    {
        var request = QuarryFlora.Request(20) with
        {
            LockedAmounts = new Dictionary<string, PlantedAmount>
            {
                ["Dalea purpurea"] = new(0,
            150)
            }
        };
        var none = QuarryFlora.Solve(request).None.ShouldNotBeNull();
        none.Conflict.ShouldContain("Dalea purpurea keeps its seed and plugs as they were shown.");
        none.Relaxed.ShouldBe(["Unlock Dalea purpurea."]);
        QuarryFlora.Solve(none.Request!, Effort.Quick).Mix.ShouldNotBeNull();
    }

    [Theory]
    [InlineData(132, 6)]
    [InlineData(20, 3)]
    public void The_limits_of_a_conflict_are_enough_for_it_and_each_of_them_is_needed(double area, int most)
    {
        var request = QuarryFlora.Request(area) with { MostTaxa = most };
        var search = new ConflictSearch(request, QuarryFlora.Around, QuarryFlora.Prices, 2);
        var found = search.Smallest().ToHashSet();
        found.ShouldContain(new Limit(LimitKind.MostTaxa));
        bool? Possible(HashSet<Limit> on)
        {
            var of = on.Contains(new(LimitKind.MostTaxa)) ? request : request with { MostTaxa = null };
            var model = new MixModel(MixSite.Of(of), ConversionCandidates.Of(of, QuarryFlora.Catalogue), QuarryFlora.Around,
                QuarryFlora.Prices);
            return LinearSolver.IsPossible(model.Linear, r => r.Limit is not { Kind: LimitKind.Guild } l || on.Contains(l), 5);
        }

        Possible(found).ShouldBe(false);
        foreach (var limit in found)
        {
            Possible([.. found.Where(f => f != limit)]).ShouldBe(true, limit.Name);
        }
    }
}
