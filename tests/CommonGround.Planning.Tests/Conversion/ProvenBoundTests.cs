using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using FsCheck.Xunit;
using Google.OrTools.LinearSolver;

namespace CommonGround.Planning.Tests.Conversion;

public class ProvenBoundTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_plan_over_two_hundred_taxa_is_proven_and_lies_under_the_bound_of_the_loosened_linear_program(int seed)
    {
        var catalogue = InventedFlora.Any(new Random(seed), 200);
        var request = InventedFlora.Request() with { Budget = 250 };
        var quality = ConversionPlanner.Solve(request, InventedFlora.Around(catalogue, 2), InventedFlora.Prices).Mix.ShouldNotBeNull().Quality;
        quality.ProvenBest.ShouldBeTrue();
        quality.Gap.ShouldBeInRange(0, 0.005);
        quality.Bound.ShouldBeGreaterThanOrEqualTo(quality.Objective);
        // Shares of any size, no least share, no number of taxa, part plugs: no mix can pass what this allows.
        quality.Objective.ShouldBeLessThanOrEqualTo(Loosened(request, catalogue) + 1e-3);
        quality.Objective.ShouldBeGreaterThan(0.8 * Loosened(request, catalogue));
    }

    [Property(MaxTest = 10)]
    public void No_mix_found_by_chance_beats_the_bound(int seed)
    {
        var random = new Random(seed);
        var catalogue = InventedFlora.Any(random, 60, seedOnly: true).Select(t => t with { Bloom = t.Bloom is null ? null : new(random.Next(6, 9), random.Next(16, 20)) }).ToArray();
        var request = InventedFlora.Request();
        var quality = ConversionPlanner.Solve(request, InventedFlora.Around(catalogue, 2), InventedFlora.Prices).Mix.ShouldNotBeNull().Quality;
        var beaten = 0;
        for (var i = 0; i < 2000; i++)
        {
            var (covered, support) = Guess(random, catalogue);
            covered.ShouldBeLessThanOrEqualTo(quality.CoveredBound);
            if (covered == quality.CoveredHalves)
            {
                support.ShouldBeLessThanOrEqualTo(quality.Bound + 1e-3);
                beaten++;
            }
        }

        beaten.ShouldBeGreaterThan(0);
    }

    /// <summary>Greedy with luck: the best few of a random hand get the most, grasses the least they must.</summary>
    private static (int Covered, double Support) Guess(Random random, CatalogueTaxon[] catalogue)
    {
        var hand = (CatalogueTaxon[])catalogue.Clone();
        random.Shuffle(hand);
        var flowers = hand.Where(t => t.LifeForm != LifeForm.Grass).Take(random.Next(8, 20)).OrderByDescending(Weight).ToList();
        var left = 0.7 - (0.01 * flowers.Count);
        double support = 0;
        foreach (var flower in flowers)
        {
            var more = Math.Min(0.19, left);
            left -= more;
            support += (0.01 + more) * Weight(flower);
        }

        return (Enumerable.Range(6, 14).Count(t => flowers.Count(f => f.Bloom!.Value.Contains(t)) >= 3), support);
    }

    private static double Weight(CatalogueTaxon taxon) => 1.25 * 1.5 * (taxon.PollinatorValue ?? 0) * Enumerable.Range(6, 14).Count(t => taxon.Bloom?.Contains(t) ?? false);

    private static double Loosened(ConversionRequest request, CatalogueTaxon[] catalogue)
    {
        using var solver = Solver.CreateSolver("GLOP");
        var (ground, grass, money) = (solver.MakeConstraint(1, 1), solver.MakeConstraint(request.LeastGrassShare, request.MostGrassShare), solver.MakeConstraint(0, request.Budget!.Value));
        foreach (var candidate in ConversionCandidates.Of(request, catalogue, InventedFlora.Prices).Suitable)
        {
            var share = solver.MakeNumVar(0, request.MostShareOfOne, candidate.Taxon.ScientificName);
            ground.SetCoefficient(share, 1);
            grass.SetCoefficient(share, candidate.IsGrass ? 1 : 0);
            money.SetCoefficient(share, candidate.CostPerSquareMetre * request.SquareMetres);
            solver.Objective().SetCoefficient(share, Weight(candidate.Taxon));
        }

        solver.Objective().SetMaximization();
        solver.Solve().ShouldBe(Solver.ResultStatus.OPTIMAL);
        return solver.Objective().Value();
    }
}
