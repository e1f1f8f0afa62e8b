using Google.OrTools.Sat;

namespace CommonGround.Planning.Conversion;

/// <summary>How much work the solver may put in, in its own measure and not by the clock; the same on every machine.</summary>
/// <param name="Bloom">For the stage of bloom; <paramref name="Visitors"/> and <paramref name="Craft"/> for the next two. The last, which
/// saves money, has a quarter of the work for craft.</param>
public sealed record Effort(double Bloom, double Visitors, double Craft)
{
    /// <summary>A sound mix soon.</summary>
    public static Effort Quick { get; } = new(0.5, 1, 0.1);

    /// <summary>After one change to a plan on the screen: its mix is the answer for now where it still obeys every limit.</summary>
    public static Effort Again { get; } = new(0.03, 0.05, 0.02);

    /// <summary>As good as is worth waiting for.</summary>
    public static Effort Full { get; } = new(3, 3, 3);

    internal double Of(int stage) => stage switch { 0 => Bloom, 1 => Visitors, 2 => Craft, _ => Craft / 4 };
}

/// <summary>What one stage came to.</summary>
internal readonly record struct StageResult(long Value, long Bound, bool Proven);

/// <summary>Values of all variables and what each stage came to; <paramref name="BeforeLast"/> are the values before the last
/// stage.</summary>
internal sealed record LinearSolution(IReadOnlyList<long> Values, IReadOnlyList<StageResult> Stages, IReadOnlyList<long> BeforeLast);

/// <summary>Runs the stages of a program through CP-SAT: one worker, work counted and not timed, so that the answer is the same
/// everywhere.</summary>
internal static class LinearSolver
{
    // The linear program does the work: probing and symmetry cost more than they save (measured over nine sites: a fifth less time).
    private const string Settings =
        "num_workers:1,random_seed:20,linearization_level:2,cp_model_probing_level:0,symmetry_level:0,max_deterministic_time:";

    /// <summary>The best values stage by stage; null when no values hold every row, or none were found.</summary>
    /// <param name="linear">The program.</param>
    /// <param name="effort">Work for each stage.</param>
    /// <param name="start">Values of some variables to begin with; they need not hold every row.</param>
    /// <param name="cancel">Stops the work.</param>
    public static LinearSolution? Solve(LinearModel linear, Effort effort, IReadOnlyDictionary<int, long>? start = null,
        CancellationToken cancel = default)
    {
        var (model, variables) = Translated(linear, _ => true);
        IReadOnlyList<long>? values = null, before = null;
        var stages = new List<StageResult>();
        if (start is not null && effort == Effort.Again)
        {
            // What stands on the screen still holds: it is the answer for now, unproven, and the full search follows.
            values = Completed(linear, start, cancel);
            return values is null ? null
                : new(values, [.. linear.Aims.Select(a => new StageResult(Value(a.Terms, values), long.MaxValue, false))], values);
        }

        foreach (var (index, aim) in linear.Aims.Index())
        {
            var sum = Sum(aim.Terms, variables);
            before = values;
            foreach (var kept in aim.Kept)
            {
                model.Add(Sum(kept, variables) >= Value(kept, values!));
            }

            model.Maximize(sum);
            Hint(model, variables, values, start);
            var solver = Run(model, effort.Of(index), out var status, cancel);
            if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible))
            {
                // The hint holds every row: a stage that ran out of work keeps what it began with.
                if (stages.Count == 0 || values is null) return null;
                stages.Add(new(Value(aim.Terms, values), long.MaxValue, false));
                continue;
            }

            values = [.. variables.Select(solver.Value)];
            var value = (long)Math.Round(solver.ObjectiveValue);
            stages.Add(new(value, (long)Math.Floor(solver.BestObjectiveBound + 1e-6), status == CpSolverStatus.Optimal));
            model.Add(sum >= (long)Math.Floor(value - (Math.Abs(value) * aim.Slack)));
        }

        return values is null ? null : new(values, stages, before ?? values);
    }

    /// <summary>Whether rows can hold together: false is proven, null not decided with so much work.</summary>
    public static bool? IsPossible(LinearModel linear, Func<LinearRow, bool> rows, double work)
    {
        var (model, _) = Translated(linear, rows);
        Run(model, work, out var status, default);
        return status switch { CpSolverStatus.Optimal or CpSolverStatus.Feasible => true, CpSolverStatus.Infeasible => false, _ => null };
    }

    /// <summary>The least of a sum within all rows; null when there is none.</summary>
    public static long? Least(LinearModel linear, IReadOnlyList<Term> terms, double work)
    {
        var (model, variables) = Translated(linear, _ => true);
        model.Minimize(Sum(terms, variables));
        var solver = Run(model, work, out var status, default);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible ? (long)Math.Round(solver.ObjectiveValue) : null;
    }

    /// <summary>All values, where some are given and the rows can hold with them; else null.</summary>
    private static long[]? Completed(LinearModel linear, IReadOnlyDictionary<int, long> given, CancellationToken cancel)
    {
        var (model, variables) = Translated(linear, _ => true);
        foreach (var (variable, value) in given)
        {
            model.Add(variables[variable] == value);
        }

        // The aims are sums of what the rows leave open: as much as they allow.
        model.Maximize(LinearExpr.Sum(linear.Aims.Select(a => Sum(a.Terms, variables))));
        var solver = Run(model, 0.2, out var status, cancel);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible ? [.. variables.Select(solver.Value)] : null;
    }

    private static (CpModel Model, IntVar[] Variables) Translated(LinearModel linear, Func<LinearRow, bool> rows)
    {
        var model = new CpModel();
        IntVar[] variables = [.. linear.Variables.Select((v, i) => model.NewIntVar(v.Low, v.High, $"v{i}"))];
        foreach (var row in linear.Rows.Where(rows))
        {
            model.AddLinearConstraint(Sum(row.Terms, variables), row.Low, row.High);
        }

        return (model, variables);
    }

    private static LinearExpr Sum(IReadOnlyList<Term> terms, IntVar[] variables) =>
        LinearExpr.WeightedSum(terms.Select(t => variables[t.Variable]), terms.Select(t => t.Factor));

    private static long Value(IReadOnlyList<Term> terms, IReadOnlyList<long> values) => terms.Sum(t => t.Factor * values[t.Variable]);

    private static void Hint(CpModel model, IntVar[] variables, IReadOnlyList<long>? values, IReadOnlyDictionary<int, long>? start)
    {
        model.ClearHints();
        foreach (var (variable, value) in values is null && start is not null ? start : new Dictionary<int, long>())
        {
            model.AddHint(variables[variable], value);
        }

        for (var i = 0; i < (values?.Count ?? 0); i++)
        {
            model.AddHint(variables[i], values![i]);
        }
    }

    private static CpSolver Run(CpModel model, double work, out CpSolverStatus status, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        var solver = new CpSolver { StringParameters = Settings + work.ToString(System.Globalization.CultureInfo.InvariantCulture) };
        using var stop = cancel.Register(solver.StopSearch);
        status = solver.Solve(model);
        cancel.ThrowIfCancellationRequested();
        return status == CpSolverStatus.ModelInvalid
            ? throw new InvalidOperationException("The solver refuses the model: " + model.Validate()) : solver;
    }
}
