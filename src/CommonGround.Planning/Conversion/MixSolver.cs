using Google.OrTools.Sat;

namespace CommonGround.Planning.Conversion;

/// <summary>Shares in thousandths, in the order of the pool, and how far each stage is proven.</summary>
/// <param name="Covered">Half-months covered, <paramref name="CoveredBound"/> what no mix can pass.</param>
/// <param name="Support">In steps, with bonuses; <paramref name="SupportBound"/> what no mix with that many covered half-months can pass.</param>
internal sealed record SolvedMix(IReadOnlyList<PoolTaxon> Pool, IReadOnlyList<int> Shares, int Covered, int CoveredBound, long Support, long SupportBound, bool CheapestProven);

/// <summary>Runs the stages: half-months first, then support, then cost.</summary>
internal static class MixSolver
{
    // One worker and a limit on the solver's own count of work instead of the clock: the same answer on a slow machine.
    private const string Settings = "num_workers:1,random_seed:20,max_deterministic_time:3,"
        // The linear program does the work here: probing and symmetry cost more than they save (measured over 36 plans of 200 taxa, 45 % less time).
        + "linearization_level:2,add_lp_constraints_lazily:false,cp_model_probing_level:0,symmetry_level:0";

    /// <summary>The best mix, or null when the limits allow none.</summary>
    /// <param name="build">Makes the program afresh.</param>
    public static SolvedMix? Best(Func<MixModel> build)
    {
        // Most sites can cover every half-month that enough suitable taxa flower in; only when this one cannot is the number looked for.
        var mix = build();
        foreach (var half in mix.Covered)
        {
            mix.Model.Add(half == 1);
        }

        var (covered, coveredBound) = (mix.Covered.Count, mix.Covered.Count);
        var solver = Run(mix.Model, m => m.Maximize(mix.Support), out var status);
        if (!Found(status))
        {
            mix = build();
            var sum = LinearExpr.Sum(mix.Covered);
            solver = Run(mix.Model, m => m.Maximize(sum), out status);
            if (!Found(status)) return null;
            (covered, coveredBound) = ((int)Math.Round(solver.ObjectiveValue), (int)Math.Floor(solver.BestObjectiveBound + 1e-6));
            Hint(mix, solver);
            mix.Model.Add(sum >= covered);
            solver = Run(mix.Model, m => m.Maximize(mix.Support), out status);
            if (!Found(status)) return null;
        }

        var (support, bound) = ((long)Math.Round(solver.ObjectiveValue), (long)Math.Floor(solver.BestObjectiveBound + 1e-3));
        var shares = Shares(mix, solver);
        Hint(mix, solver);
        mix.Model.Add(mix.Support >= support);
        var cheapest = Run(mix.Model, m => m.Minimize(mix.Cost), out status);
        shares = Found(status) ? Shares(mix, cheapest) : shares;
        return new(mix.Pool, shares, covered, coveredBound, shares.Zip(mix.SupportPerStep, (share, value) => share * value).Sum(), bound, status == CpSolverStatus.Optimal);
    }

    /// <summary>Money of the cheapest mix within the limits, in steps; null when there is none.</summary>
    public static long? LeastMoney(MixModel mix)
    {
        var solver = Run(mix.Model, m => m.Minimize(mix.Cost), out var status);
        return Found(status) ? (long)Math.Round(solver.ObjectiveValue) : null;
    }

    /// <summary>Whether the firm limits allow any mix at all.</summary>
    public static bool IsPossible(MixModel mix)
    {
        Run(mix.Model, _ => { }, out var status);
        return Found(status);
    }

    /// <summary>The mix for which the soft limits give way least, its money and that penalty; null when even that does not help.</summary>
    public static (IReadOnlyList<int> Shares, long Money, long Penalty)? LeastPenalty(MixModel mix)
    {
        var solver = Run(mix.Model, m => m.Minimize(mix.Penalty), out var status);
        return Found(status) ? (Shares(mix, solver), solver.Value(mix.Cost), (long)Math.Round(solver.ObjectiveValue)) : null;
    }

    private static CpSolver Run(CpModel model, Action<CpModel> aim, out CpSolverStatus status)
    {
        aim(model);
        var solver = new CpSolver { StringParameters = Settings };
        status = solver.Solve(model);
        return status == CpSolverStatus.ModelInvalid ? throw new InvalidOperationException("The solver refuses the model: " + model.Validate()) : solver;
    }

    private static bool Found(CpSolverStatus status) => status is CpSolverStatus.Optimal or CpSolverStatus.Feasible;

    private static IReadOnlyList<int> Shares(MixModel mix, CpSolver solver) => [.. mix.Share.Select(s => (int)solver.Value(s))];

    private static void Hint(MixModel mix, CpSolver solver)
    {
        mix.Model.ClearHints();
        for (var i = 0; i < mix.Share.Length; i++)
        {
            mix.Model.AddHint(mix.Share[i], solver.Value(mix.Share[i]));
            mix.Model.AddHint(mix.Chosen[i], solver.Value(mix.Chosen[i]));
        }
    }
}
