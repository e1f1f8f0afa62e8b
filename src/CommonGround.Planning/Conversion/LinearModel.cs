namespace CommonGround.Planning.Conversion;

/// <summary>A whole-number factor on a variable.</summary>
internal readonly record struct Term(int Variable, long Factor);

/// <summary>Low ≤ Σ factor·variable ≤ High; <paramref name="Limit"/> is the rule it stands for, null for what holds the model
/// together.</summary>
internal sealed record LinearRow(long Low, long High, IReadOnlyList<Term> Terms, Limit? Limit);

/// <summary>What is made as large as possible, one after the other; of each later ones may give up <paramref name="Slack"/>
/// (0–1). What the sums <paramref name="Kept"/> have come to by then may not be lessened.</summary>
internal sealed record LinearAim(IReadOnlyList<Term> Terms, double Slack, IReadOnlyList<IReadOnlyList<Term>> Kept);

/// <summary>A program of whole numbers: variables with bounds, rows, aims in order. Any solver can read it.</summary>
internal sealed class LinearModel
{
    private const long Open = 1_000_000_000_000;

    private readonly List<(long Low, long High)> variables = [];
    private readonly List<LinearRow> rows = [];
    private readonly List<LinearAim> aims = [];

    public IReadOnlyList<(long Low, long High)> Variables => variables;

    public IReadOnlyList<LinearRow> Rows => rows;

    public IReadOnlyList<LinearAim> Aims => aims;

    /// <summary>The rule that rows are written for just now.</summary>
    public Limit? Now { get; set; }

    public int Variable(long high, long low = 0)
    {
        variables.Add((low, Math.Max(low, high)));
        return variables.Count - 1;
    }

    public void Fix(int variable, long value) => variables[variable] = (value, value);

    public long Most(int variable) => variables[variable].High;

    public void AtMost(IEnumerable<Term> terms, long high) => Between(terms, -Open, high);

    public void AtLeast(IEnumerable<Term> terms, long low) => Between(terms, low, Open);

    public void Between(IEnumerable<Term> terms, long low, long high) => rows.Add(new(low, high, Summed(terms), Now));

    public void Aim(IEnumerable<Term> terms, double slack = 0, params IReadOnlyList<IReadOnlyList<Term>> kept) =>
        aims.Add(new(Summed(terms), slack, kept));

    private static List<Term> Summed(IEnumerable<Term> terms)
    {
        var sum = new SortedDictionary<int, long>();
        foreach (var (variable, factor) in terms)
        {
            sum[variable] = sum.GetValueOrDefault(variable) + factor;
        }

        return [.. sum.Where(s => s.Value != 0).Select(s => new Term(s.Key, s.Value))];
    }
}
