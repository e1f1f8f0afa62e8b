using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using Google.OrTools.LinearSolver;

namespace CommonGround.Planning.Tests.Conversion;

public class PlannerTests
{
    private static readonly Lazy<ConversionMix> Sunny = new(() => QuarryFlora.Solve(QuarryFlora.Request(132)).Mix!);

    [Fact]
    public void A_sunny_lawn_is_proven_and_looks_like_a_prairie_planting()
    {
        var mix = Sunny.Value;
        mix.Quality.ProvenBest.ShouldBeTrue();
        mix.Quality.Gap.ShouldBe(0);
        mix.Quality.Objective.ShouldBeGreaterThanOrEqualTo(0.9 * mix.Quality.Best - 0.2);
        var names = mix.Taxa.Select(t => t.Taxon.ScientificName).ToList();
        names.ShouldContain("Schizachyrium scoparium");
        names.ShouldContain("Rudbeckia hirta");
        names.ShouldContain(n => n.StartsWith("Dalea "));
        names.ShouldContain(n => n.StartsWith("Asclepias "));
        foreach (var weed in new[] { "Helianthus grosseserratus", "Erigeron strigosus", "Symphyotrichum lanceolatum", "Juncus tenuis",
            "Rudbeckia triloba" })
        {
            names.ShouldNotContain(weed);
        }

        mix.Taxa.ShouldAllBe(t => t.Reasons[0] == RoleWords.Of(t.Traits.Role));
        mix.Taxa.Sum(t => t.Share).ShouldBe(1, 1e-9);
    }

    [Theory]
    [InlineData(132, Light.FullSun, Moisture.Medium)]
    [InlineData(60, Light.FullSun, Moisture.Dry)]
    [InlineData(200, Light.FullSun, Moisture.Moist)]
    public void Money_is_saved_last_and_costs_no_bloom_no_visitor_and_no_plug(double area, Light light, Moisture moisture)
    {
        var request = QuarryFlora.Request(area, light, moisture);
        var candidates = ConversionCandidates.Of(request, QuarryFlora.Catalogue);
        var model = new MixModel(MixSite.Of(request), candidates, QuarryFlora.Around, QuarryFlora.Prices);
        var solved = LinearSolver.Solve(model.Linear, Effort.Quick).ShouldNotBeNull();
        long Sum(IEnumerable<Term> terms, IReadOnlyList<long> values) => terms.Sum(t => t.Factor * values[t.Variable]);
        foreach (var kept in new[] { model.Linear.Aims[0].Terms, model.Linear.Aims[1].Terms, model.Sum(t => t.Plugs) })
        {
            Sum(kept, solved.Values).ShouldBeGreaterThanOrEqualTo(Sum(kept, solved.BeforeLast));
        }

        Sum(model.Cost, solved.Values).ShouldBeLessThanOrEqualTo(Sum(model.Cost, solved.BeforeLast));
        // The plan is the cheaper one, as long as it covers as much and feeds as many by the measures of the page.
        var plan = QuarryFlora.Solve(request, Effort.Quick).Mix.ShouldNotBeNull();
        var dearer = MixAmounts.Of([.. model.Pool.Where(t => solved.BeforeLast[t.Chosen] == 1)
            .Select(t => new ChosenAmount(t.Candidate, solved.BeforeLast[t.Seeds], (int)solved.BeforeLast[t.Plugs]))],
            model.Site, QuarryFlora.Around, QuarryFlora.Prices, candidates);
        plan.Cost.ShouldBeLessThanOrEqualTo(dearer.Cost);
        plan.Quality.CoveredHalves.ShouldBeGreaterThanOrEqualTo(dearer.Quality.CoveredHalves);
        plan.Quality.Support.ShouldBeGreaterThanOrEqualTo(dearer.Quality.Support);
    }

    [Fact]
    public void No_loosened_program_of_another_solver_is_below_the_bound()
    {
        // COIN-OR's CLP, the simplex method, on the same rows with parts of taxa allowed: the proven optimum can only lie under it.
        foreach (var request in new[] { QuarryFlora.Request(132), QuarryFlora.Request(6), QuarryFlora.Request(80, Light.Shade) })
        {
            var model = new MixModel(MixSite.Of(request), ConversionCandidates.Of(request, QuarryFlora.Catalogue), QuarryFlora.Around,
                QuarryFlora.Prices);
            var solved = LinearSolver.Solve(model.Linear, Effort.Full).ShouldNotBeNull();
            var (bloom, loosened) = Loosened(model.Linear, (int)solved.Stages[0].Value);
            bloom.ShouldBeGreaterThanOrEqualTo(solved.Stages[0].Bound - 1e-3);
            loosened.ShouldBeGreaterThanOrEqualTo(solved.Stages[1].Bound - 1e-3);
            // And near: the rules leave little room for parts of taxa.
            ((double)solved.Stages[1].Value).ShouldBeGreaterThan(0.7 * loosened);
            foreach (var row in model.Linear.Rows)
            {
                row.Terms.Sum(t => t.Factor * solved.Values[t.Variable]).ShouldBeInRange(row.Low, row.High, row.Limit?.Name);
            }
        }
    }

    [Fact]
    public void The_order_of_the_catalogue_does_not_matter_and_a_second_run_says_the_same()
    {
        var request = QuarryFlora.Request(8);
        string Words(IReadOnlyList<CatalogueTaxon> catalogue) => string.Join('|', ConversionPlanner
            .Solve(request, QuarryFlora.Around with { Catalogue = catalogue, Forage = new(QuarryFlora.Forage.Records, catalogue) },
            QuarryFlora.Prices).Mix!.Taxa
            .Select(t => $"{t.Taxon.ScientificName} {t.As} {t.Plugs} {t.SeedsPerSquareMetre:R} {t.Cost:R}"));
        var shuffled = QuarryFlora.Catalogue.ToArray();
        new Random(5).Shuffle(shuffled);
        var first = Words(QuarryFlora.Catalogue);
        Words(shuffled).ShouldBe(first);
        Words(QuarryFlora.Catalogue).ShouldBe(first);
    }

    [Fact]
    public void What_is_locked_stays_what_is_wanted_is_in_and_what_is_not_wanted_is_out()
    {
        var before = Sunny.Value.Taxa.Single(t => t.Taxon.ScientificName == "Echinacea purpurea");
        var request = QuarryFlora.Request(132) with
        {
            LockedAmounts = new Dictionary<string, PlantedAmount>
            {
                ["Echinacea purpurea"] = before.Amount,
                ["Dalea candida"] = new(10.7639, 0)
            },
            MustHave = ["Silphium integrifolium"],
            Never = ["Ratibida pinnata", "Lespedeza capitata"],
        };
        var mix = QuarryFlora.Solve(request, Effort.Quick).Mix.ShouldNotBeNull();
        PlannedTaxon Of(string name) => mix.Taxa.Single(t => t.Taxon.ScientificName == name);
        Of("Echinacea purpurea").SeedsPerSquareMetre.ShouldBe(before.SeedsPerSquareMetre, 1e-9);
        Of("Dalea candida").SeedsPerSquareMetre.ShouldBe(10.7639, 1e-3);
        Of("Dalea candida").Plugs.ShouldBe(0);
        Of("Silphium integrifolium").Reasons.ShouldContain("you asked for it");
        mix.Taxa.ShouldNotContain(t => request.Never.Contains(t.Taxon.ScientificName));
    }

    [Fact]
    public void A_plant_advised_against_comes_only_when_asked_for_and_says_why_it_was_left_out()
    {
        var name = QuarryFlora.Catalogue.First(t => t.Mix?.AdvisedAgainst == AdvisedAgainst.AggressiveSmall
            && t.Mix.Role == MixRole.Seasonal && t.Light.Contains(Light.FullSun)
            && t.Moisture.Contains(Moisture.Medium) && t.HeightMaxMetres <= 1.5 && t.SeedsPerGram is not null
            && t.Nativity == Nativity.Native).ScientificName;
        Sunny.Value.Taxa.ShouldNotContain(t => t.Taxon.ScientificName == name);
        var mix = QuarryFlora.Solve(QuarryFlora.Request(132) with { MustHave = [name] }, Effort.Quick).Mix.ShouldNotBeNull();
        mix.Taxa.ShouldContain(t => t.Taxon.ScientificName == name);
        mix.Advice.ShouldContain(a => a.Contains("because you asked for it", StringComparison.Ordinal));
    }

    [Fact]
    public void A_kept_mix_comes_back_as_it_was_and_only_its_cost_follows_the_prices()
    {
        var amounts = Sunny.Value.Taxa.ToDictionary(t => t.Taxon.ScientificName, t => t.Amount);
        var again = ConversionPlanner.AsKept(QuarryFlora.Request(132), amounts, QuarryFlora.Around, QuarryFlora.Prices).ShouldNotBeNull();
        again.Taxa.Select(t => (t.Taxon.ScientificName, t.Plugs, t.Cost))
            .ShouldBe(Sunny.Value.Taxa.Select(t => (t.Taxon.ScientificName, t.Plugs, t.Cost)));
        again.Cost.ShouldBe(Sunny.Value.Cost, 1e-9);
        var dear = ConversionPlanner.AsKept(QuarryFlora.Request(132), amounts, QuarryFlora.Around, new PriceTable { PlugEach = 10 })
            .ShouldNotBeNull();
        dear.Cost.ShouldBeGreaterThan(again.Cost);
        ConversionPlanner.AsKept(QuarryFlora.Request(132), new Dictionary<string, PlantedAmount> { ["Planta nulla"] = new(1, 0) },
            QuarryFlora.Around, QuarryFlora.Prices).ShouldBeNull();
    }

    [Fact]
    public void A_third_plant_for_the_same_bee_is_worth_nothing()
    {
        // A bee with recorded plants a, b, c in the same period: one gives ten points, two four more, three no more.
        var forage = new ForageIndex(new([new("Apis alia", "", "bees", "")],
            [.. "abc".Select(c => new VisitedPlant($"Flos {c}", $"Flos {c}", "", [0]))]),
                [.. "abc".Select(c => InventedFlora.Forb($"Flos {c}", 8, 9))]);
        forage.Units.ShouldHaveSingleItem().IsSpecialist.ShouldBeTrue();
        forage.Of(["Flos a"]).BeesTwice.ShouldBe(0);
        forage.Of(["Flos a", "Flos b"]).BeesTwice.ShouldBe(1);
        forage.Of(["Flos a", "Flos b", "Flos c"]).Bees.ShouldBe(1);
    }

    [Fact]
    public void A_budget_of_one_buys_no_thirty_milligrams_but_is_said_to_be_too_little()
    {
        var none = QuarryFlora.Solve(QuarryFlora.Request(40) with { Budget = 1 }).None.ShouldNotBeNull();
        none.Conflict[0].ShouldStartWith("1.00 is not enough for 40 m²; enough for ");
        none.Relaxed[0].ShouldStartWith("Raise the budget from 1 to ");
        QuarryFlora.Solve(none.Request.ShouldNotBeNull()).Mix.ShouldNotBeNull().Cost.ShouldBeLessThanOrEqualTo(none.Request.Budget!.Value);
    }

    [Fact]
    public void Money_for_part_of_the_ground_plants_that_part_well_this_year()
    {
        var request = QuarryFlora.Request(132) with
        {
            Areas = [new("front", 80, [new(0, 0), new(10, 0), new(10, 8), new(0, 8)]),
            new("side", 52, [])],
            Budget = 25
        };
        var none = QuarryFlora.Solve(request).None.ShouldNotBeNull();
        none.Relaxed[0].ShouldContain("this year and the other");
        var less = none.Request.ShouldNotBeNull();
        less.SquareMetres.ShouldBeLessThan(132);
        less.Areas[0].Name.ShouldBe("front");
        var mix = QuarryFlora.Solve(less).Mix.ShouldNotBeNull();
        mix.Cost.ShouldBeLessThanOrEqualTo(25);
        mix.Advice.ShouldNotContain(a => a.Contains("thin", StringComparison.OrdinalIgnoreCase));
        // A metre more is not enough.
        QuarryFlora.Solve(MixMoneyAdvice.Cut(request, less.SquareMetres + 1), Effort.Quick).Mix.ShouldBeNull();
    }

    [Fact]
    public void Nobody_buys_less_than_a_packet()
    {
        var mix = Sunny.Value;
        mix.Taxa.Where(t => t.SeedsPerSquareMetre > 0).ShouldAllBe(t => t.BoughtGrams >= (t.Traits.IsGrass ? 3 : 1) - 1e-9
            && t.BoughtGrams >= t.PlsGrams - 1e-9);
        mix.Cost.ShouldBe(mix.Taxa.Sum(t => t.Cost), 1e-9);
        foreach (var area in mix.Taxa)
        {
            var parts = mix.Areas.SelectMany(a => a.Taxa).Where(t => t.Taxon == area.Taxon).ToList();
            parts.Sum(p => p.Plugs).ShouldBe(area.Plugs);
            parts.Sum(p => p.Cost).ShouldBe(area.Cost, 1e-6);
        }
    }

    /// <summary>Best bloom, and best visitors with bloom at least so good, by the simplex method without whole numbers.</summary>
    private static (double Bloom, double Visitors) Loosened(LinearModel linear, int bloom)
    {
        using var solver = Solver.CreateSolver("CLP");
        Variable[] variables = [.. linear.Variables.Select((v, i) => solver.MakeNumVar(v.Low, v.High, $"v{i}"))];
        foreach (var row in linear.Rows)
        {
            var made = solver.MakeConstraint(row.Low, row.High);
            foreach (var term in row.Terms)
            {
                made.SetCoefficient(variables[term.Variable], term.Factor);
            }
        }

        double Best(LinearAim aim)
        {
            solver.Objective().Clear();
            foreach (var term in aim.Terms)
            {
                solver.Objective().SetCoefficient(variables[term.Variable], term.Factor);
            }

            solver.Objective().SetMaximization();
            solver.Solve().ShouldBe(Solver.ResultStatus.OPTIMAL);
            return solver.Objective().Value();
        }

        var first = Best(linear.Aims[0]);
        var kept = solver.MakeConstraint(bloom, double.PositiveInfinity);
        foreach (var term in linear.Aims[0].Terms)
        {
            kept.SetCoefficient(variables[term.Variable], term.Factor);
        }

        return (first, Best(linear.Aims[1]));
    }
}
