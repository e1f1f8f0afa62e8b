using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using FsCheck.Xunit;
using Google.OrTools.LinearSolver;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>Every subset of a small catalogue, each with its own linear program by another solver (simplex): no mix is better than the planner's.</summary>
public class BruteForceTests
{
    [Property(MaxTest = 15)]
    public void No_subset_of_eight_taxa_covers_more_half_months_or_gives_more_support(int seed)
    {
        var random = new Random(seed);
        var catalogue = InventedFlora.Any(random, 8, seedOnly: true).Select(t => t.Bloom is null ? t : t with { Bloom = new(random.Next(6, 12), random.Next(12, 20)) }).ToArray();
        var request = Request(random);
        var best = BestOfAll(request, catalogue, out var covered);
        if (ConversionPlanner.Solve(request, InventedFlora.Around(catalogue, 2), InventedFlora.Prices).Mix is not { } mix)
        {
            best.ShouldBeNull();
            return;
        }

        mix.Quality.ProvenBest.ShouldBeTrue();
        mix.Quality.CoveredHalves.ShouldBe(covered);
        // Whole thousandths of ground give the same vertex; 2e-4 is the planner's rounding of weights.
        mix.Quality.Objective.ShouldBe(best!.Value, 2e-4);
    }

    [Property(MaxTest = 10)]
    public void The_same_holds_under_a_budget_but_for_the_last_thousandths_of_ground(int seed)
    {
        var random = new Random(seed);
        var catalogue = InventedFlora.Any(random, 7, seedOnly: true);
        var request = Request(random);
        if (ConversionPlanner.Solve(request, InventedFlora.Around(catalogue, 2), InventedFlora.Prices).Mix is not { } rich)
        {
            return;
        }

        request = request with { Budget = Math.Round(rich.Cost * 0.7, 2) };
        var best = BestOfAll(request, catalogue, out var covered);
        var mix = ConversionPlanner.Solve(request, InventedFlora.Around(catalogue, 2), InventedFlora.Prices).Mix;
        (mix is null).ShouldBe(best is null);
        if (mix is not null)
        {
            mix.Quality.CoveredHalves.ShouldBe(covered);
            mix.Quality.Objective.ShouldBeInRange(best!.Value - 0.03, best.Value + 2e-4);
        }
    }

    private static ConversionRequest Request(Random random) => InventedFlora.Request() with
    {
        FewestTaxa = 2,
        MostTaxa = random.Next(4, 8),
        MostShareOfOne = 0.2 + (0.1 * random.Next(4)),
        LeastGrassShare = 0.1 * random.Next(4),
        MostGrassShare = 0.6,
    };

    private static double? BestOfAll(ConversionRequest request, CatalogueTaxon[] catalogue, out int covered)
    {
        double? best = null;
        covered = -1;
        for (var set = 1; set < 1 << catalogue.Length; set++)
        {
            CatalogueTaxon[] chosen = [.. catalogue.Where((_, i) => (set >> i & 1) == 1)];
            if (chosen.Length < request.FewestTaxa || chosen.Length > request.MostTaxa)
            {
                continue;
            }

            var halves = Enumerable.Range(6, 14).Count(t => chosen.Count(c => c.Bloom?.Contains(t) ?? false) >= 3);
            if (halves >= covered && SupportOf(request, chosen) is { } support && (halves > covered || support > best))
            {
                (best, covered) = (support, halves);
            }
        }

        return best;
    }

    /// <summary>Two taxa flower on the street throughout and none of these grows there: each half-month counts 1.5 times, each taxon 1.25 times.</summary>
    private static double? SupportOf(ConversionRequest request, CatalogueTaxon[] chosen)
    {
        using var solver = Solver.CreateSolver("GLOP");
        Variable[] share = [.. chosen.Select(c => solver.MakeNumVar(0.01, request.MostShareOfOne, c.ScientificName))];
        double Weight(CatalogueTaxon c) => 1.25 * 1.5 * (c.PollinatorValue ?? 0) * Enumerable.Range(6, 14).Count(t => c.Bloom?.Contains(t) ?? false);
        double Money(CatalogueTaxon c) => 60 * 430 / c.SeedsPerGram!.Value * (c.LifeForm == LifeForm.Grass ? 0.35 : 0.9);
        Bound(solver, share, _ => 1, 1, 1);
        Bound(solver, share, i => chosen[i].LifeForm == LifeForm.Grass ? 1 : 0, request.LeastGrassShare, request.MostGrassShare);
        Bound(solver, share, i => Money(chosen[i]), 0, request.Budget ?? double.PositiveInfinity);
        for (var i = 0; i < share.Length; i++)
        {
            solver.Objective().SetCoefficient(share[i], Weight(chosen[i]));
        }

        solver.Objective().SetMaximization();
        return solver.Solve() == Solver.ResultStatus.OPTIMAL ? solver.Objective().Value() : null;
    }

    private static void Bound(Solver solver, Variable[] share, Func<int, double> factor, double least, double most)
    {
        var row = solver.MakeConstraint(least, most);
        for (var i = 0; i < share.Length; i++)
        {
            row.SetCoefficient(share[i], factor(i));
        }
    }
}
