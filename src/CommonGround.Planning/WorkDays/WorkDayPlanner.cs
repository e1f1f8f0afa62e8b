using Google.OrTools.Sat;

namespace CommonGround.Planning.WorkDays;

/// <summary>Chooses and orders what a group treats on a day so that most future pressure is removed: an orienteering problem, solved as an
/// integer program with its bound.</summary>
/// <remarks>
/// The whole group walks from place to place and works there together: Σ (hours + people × setting up) of the chosen + people × way ÷
/// speed ≤ people × hours. The
/// way
/// is the shortest path through the places chosen, begun and ended anywhere. First as many required follow-ups as fit, then the pressure.
/// CP-SAT with one circuit through a start of no distance. See docs/measures.md#work-days.
/// </remarks>
public static class WorkDayPlanner
{
    private const int Scale = 10_000;

    /// <summary>The bound may lie so far above what is found.</summary>
    private const double Gap = 0.01;

    /// <summary>The best choice.</summary>
    /// <param name="asked">People, hours, cases, ways.</param>
    /// <param name="work">How much the solver may do, in its own measure; the same everywhere.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <exception cref="ArgumentException">No people or hours, a case of no hours, or a way that is missing.</exception>
    public static WorkDayChoice Solve(WorkDayAsked asked, double work = 4, CancellationToken cancel = default)
    {
        RequireSound(asked);
        if (asked.Cases.Count == 0)
        {
            return new([], 0, 0, 0, 0, [], true);
        }

        var places = asked.Cases.Select(c => c.Place).Distinct().Order().ToList();
        var model = new CpModel();
        BoolVar[] takes = [.. asked.Cases.Select((_, i) => model.NewBoolVar($"take{i}"))];
        BoolVar[] visits = [.. places.Select((_, p) => model.NewBoolVar($"visit{p}"))];
        foreach (var (index, one) in asked.Cases.Index())
        {
            model.AddImplication(takes[index], visits[places.IndexOf(one.Place)]);
        }

        foreach (var (at, place) in places.Index())
        {
            // Nobody walks to where nothing is done.
            model.AddBoolOr([visits[at].Not(), .. asked.Cases.Index().Where(c => c.Item.Place == place).Select(c => takes[c.Index])]);
        }

        var (way, legs) = Circuit(model, asked, places, visits);
        // Hours in ten-thousandths, rounded against the group: what is chosen always fits.
        model.Add(LinearExpr.WeightedSum(takes, asked.Cases.Select(c => (long)Math.Ceiling(asked.Takes(c) * Scale))) + way
            <= (long)Math.Floor(asked.People * asked.Hours * Scale));
        var required = asked.Cases.Index().Where(c => c.Item.IsRequired).Select(c => c.Index).ToList();
        int[]? start = null;
        if (required.Count > 0)
        {
            model.Maximize(LinearExpr.Sum(required.Select(r => takes[r])));
            var (first, _) = Run(model, work / 2, 0, cancel);
            start = [.. takes.Select(t => (int)first.Value(t))];
            model.Add(LinearExpr.Sum(required.Select(r => takes[r])) >= required.Count(r => first.Value(takes[r]) == 1));
        }

        var most = Math.Max(1e-12, asked.Cases.Max(c => c.PressureRemoved));
        var worth = asked.Cases.Select(c => (long)Math.Round(c.PressureRemoved / most * 1_000_000)).ToList();
        // Of two equal choices the shorter walk: a millionth of the best case at most.
        model.Maximize((LinearExpr.WeightedSum(takes, worth) * 1000) - LinearExpr.Sum(visits));
        model.ClearHints();
        foreach (var (index, take) in (start ?? Greedy(asked, places)).Index())
        {
            model.AddHint(takes[index], take);
        }

        var (solver, bound) = Run(model, work, Gap / 2, cancel);
        List<int> chosen = [.. takes.Index().Where(t => solver.Value(t.Item) == 1).Select(t => t.Index)];
        var removed = chosen.Sum(c => asked.Cases[c].PressureRemoved);
        var (order, metres) = WalkOrder.Of(asked, chosen, Walked(solver, legs, places));
        var limit = Math.Max(removed, bound / 1_000_000_000 * most);
        return new(order, removed, limit, metres,
            chosen.Sum(c => asked.Takes(asked.Cases[c])) + (asked.People * metres / asked.MetresPerHour),
            [.. required.Except(chosen)], limit <= removed * (1 + Gap) + 1e-9);
    }

    /// <summary>The places in the order of the solver's own walk.</summary>
    private static List<int> Walked(CpSolver solver, IReadOnlyList<(int From, int To, BoolVar Goes)> legs, List<int> places)
    {
        var next = legs.Where(l => solver.Value(l.Goes) == 1).ToDictionary(l => l.From, l => l.To);
        var walk = new List<int>();
        for (var at = -1; next.TryGetValue(at, out var to); at = to)
        {
            walk.Add(places[to]);
        }

        return walk;
    }

    /// <summary>Person-hours of the way, in ten-thousandths, and its legs; −1 is where the day begins.</summary>
    private static (LinearExpr Hours, IReadOnlyList<(int From, int To, BoolVar Goes)> Legs) Circuit(CpModel model, WorkDayAsked asked,
        List<int> places, BoolVar[] visits)
    {
        var circuit = model.AddCircuit();
        List<(int From, int To, BoolVar Goes)> legs = [];
        List<long> hours = [];
        var idle = model.NewBoolVar("nowhere");
        circuit.AddArc(0, 0, idle);
        for (var from = 0; from < places.Count; from++)
        {
            circuit.AddArc(from + 1, from + 1, visits[from].Not());
            model.AddImplication(idle, visits[from].Not());
            var begins = model.NewBoolVar($"begin{from}");
            circuit.AddArc(0, from + 1, begins);
            legs.Add((-1, from, begins));
            hours.Add(0);
            circuit.AddArc(from + 1, 0, model.NewBoolVar($"end{from}"));
            for (var to = 0; to < places.Count; to++)
            {
                if (from == to)
                {
                    continue;
                }

                var leg = model.NewBoolVar($"leg{from}-{to}");
                circuit.AddArc(from + 1, to + 1, leg);
                legs.Add((from, to, leg));
                hours.Add((long)Math.Ceiling(asked.People * asked.MetresBetween[places[from]][places[to]] / asked.MetresPerHour * Scale));
            }
        }

        return (LinearExpr.WeightedSum(legs.Select(l => l.Goes), hours), legs);
    }

    /// <summary>Most pressure for an hour first, each way as if from the nearest place: where the search begins.</summary>
    private static int[] Greedy(WorkDayAsked asked, List<int> places)
    {
        var taken = new int[asked.Cases.Count];
        var left = asked.People * asked.Hours;
        var been = new HashSet<int>();
        foreach (var (index, one) in asked.Cases.Index().OrderByDescending(c => c.Item.PressureRemoved / asked.Takes(c.Item)))
        {
            var way = been.Count == 0 || been.Contains(one.Place) ? 0 : been.Min(b => asked.MetresBetween[b][one.Place]) * 2;
            var cost = asked.Takes(one) + (asked.People * way / asked.MetresPerHour);
            if (cost <= left)
            {
                (taken[index], left) = (1, left - cost);
                been.Add(one.Place);
            }
        }

        return taken;
    }

    private static (CpSolver Solver, double Bound) Run(CpModel model, double work, double gap, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        var solver = new CpSolver
        {
            StringParameters = FormattableString.Invariant(
                $"num_workers:1,random_seed:20,linearization_level:2,relative_gap_limit:{gap},max_deterministic_time:{work}"),
        };
        using var stop = cancel.Register(solver.StopSearch);
        var status = solver.Solve(model);
        cancel.ThrowIfCancellationRequested();
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible ? (solver, solver.BestObjectiveBound)
            : throw new InvalidOperationException($"The solver found no work day, though staying at home is one: {status}.");
    }

    private static void RequireSound(WorkDayAsked asked)
    {
        ArgumentNullException.ThrowIfNull(asked);
        if (asked.People < 1 || !(asked.Hours > 0) || !(asked.MetresPerHour > 0) || !(asked.HoursPerStop >= 0)
            || asked.Cases.Any(c => !(c.PersonHours > 0)
            || !(c.PressureRemoved >= 0) || c.Place < 0 || c.Place >= asked.MetresBetween.Count))
        {
            throw new ArgumentException("A work day has people, hours and a speed above 0; each case takes hours and lies at a place.",
                nameof(asked));
        }
    }
}
