namespace CommonGround.Ecology.Identification;

/// <summary>A taxon and how likely it is, 0 to 1.</summary>
/// <param name="Taxon">Position in <see cref="CharacterMatrix.Taxa"/>.</param>
/// <param name="Probability">0 to 1; over all taxa they sum to 1.</param>
public readonly record struct Candidate(int Taxon, double Probability);

/// <summary>A character worth looking at next.</summary>
/// <param name="Character">Position in <see cref="CharacterMatrix.Characters"/>.</param>
/// <param name="GainBits">What an answer is expected to tell, bits, 0 or more.</param>
/// <param name="WorthBits">The gain less what looking costs, bits.</param>
public readonly record struct NextQuestion(int Character, double GainBits, double WorthBits);

/// <summary>Two answers that no taxon of the matrix shows together.</summary>
public readonly record struct Exclusion(FieldAnswer One, FieldAnswer Other);

/// <summary>From answers to taxa: Bayes' rule over a matrix of characters, and which character to look at next.</summary>
/// <remarks>See docs/measures.md#identification. Characters are taken as independent given the taxon, as every naive Bayes classifier
/// does.</remarks>
public sealed class Identifier
{
    private readonly double[][] named;

    /// <param name="matrix">Taxa × characters. Read once; 300 × 40 takes about a megabyte.</param>
    public Identifier(CharacterMatrix matrix)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        Matrix = matrix;
        named = [.. Enumerable.Range(0, matrix.Characters.Count).Select(c => Likelihood.Of(matrix, c))];
    }

    public CharacterMatrix Matrix { get; }

    /// <summary>How likely each taxon is, given what was seen.</summary>
    /// <param name="answers">At most one a character; none is allowed.</param>
    /// <param name="prior">For each taxon 0 or more, above 0 in all; need not sum to 1.</param>
    /// <returns>For each taxon 0 to 1, summing to 1. A taxon with a prior of 0 stays at 0.</returns>
    /// <exception cref="ArgumentException">A prior of another length, below 0 or 0 in all; a character answered twice; a character or
    /// state that does not exist; an answer without a state.</exception>
    public double[] Posterior(IReadOnlyList<FieldAnswer> answers, IReadOnlyList<double> prior)
    {
        ArgumentNullException.ThrowIfNull(answers);
        ArgumentNullException.ThrowIfNull(prior);
        if (prior.Count != Matrix.Taxa.Count || prior.Any(p => !(p >= 0) || !double.IsFinite(p)) || !prior.Any(p => p > 0))
        {
            throw new ArgumentException("The prior needs a weight of 0 or more for each taxon, and one above 0.", nameof(prior));
        }

        var read = Read(answers);
        // In logarithms: forty answers at once would be smaller than a double can hold.
        var logs = new double[prior.Count];
        for (var t = 0; t < logs.Length; t++)
        {
            logs[t] = Math.Log(prior[t]);
            foreach (var (character, bits) in read)
            {
                logs[t] += Math.Log(Named(t, character, bits));
            }
        }

        var largest = logs.Max();
        if (double.IsNegativeInfinity(largest))
        {
            // Only with an error rate of 0: the answers exclude every taxon, so they say nothing.
            return Normal(prior);
        }

        for (var t = 0; t < logs.Length; t++)
        {
            logs[t] = Math.Exp(logs[t] - largest);
        }

        return Normal(logs);
    }

    /// <summary>Characters not answered yet, the one worth most first.</summary>
    /// <param name="posterior">As <see cref="Posterior"/> gives it.</param>
    /// <param name="answers">Not asked again.</param>
    /// <param name="cannotTell">Characters the observer cannot see; not asked.</param>
    /// <param name="inFlower">False leaves out what only a flower shows.</param>
    /// <returns>Gain in bits: the entropy now less the entropy expected after the answer.</returns>
    public IReadOnlyList<NextQuestion> Next(IReadOnlyList<double> posterior, IReadOnlyList<FieldAnswer> answers,
        IReadOnlyCollection<string>? cannotTell = null, bool inFlower = true)
    {
        ArgumentNullException.ThrowIfNull(posterior);
        ArgumentNullException.ThrowIfNull(answers);
        var done = answers.Select(a => a.Character).Concat(cannotTell ?? []).Select(Matrix.At).ToHashSet();
        return
        [
            .. Enumerable.Range(0, Matrix.Characters.Count).Where(c => !done.Contains(c) && (inFlower || !Matrix.Characters[c].NeedsFlower))
                .Select(c => (Character: c, Gain: Gain(posterior, c)))
                .Select(q => new NextQuestion(q.Character, q.Gain, q.Gain - Matrix.Characters[q.Character].CostBits))
                .OrderByDescending(q => q.WorthBits).ThenBy(q => q.Character),
        ];
    }

    /// <summary>Answers that speak against a taxon: none of the states named is one of its own. Unknown cells never do.</summary>
    /// <remarks>These are the answers that would have to be wrong.</remarks>
    public IReadOnlyList<FieldAnswer> Against(int taxon, IReadOnlyList<FieldAnswer> answers) => Which(taxon, answers, (own, said) =>
        own != 0 && (own & said) == 0);

    /// <summary>Answers that agree with a taxon.</summary>
    public IReadOnlyList<FieldAnswer> For(int taxon, IReadOnlyList<FieldAnswer> answers) => Which(taxon, answers, (own, said) =>
        (own & said) != 0);

    /// <summary>Answers of which nothing is known of a taxon.</summary>
    public IReadOnlyList<FieldAnswer> Unknown(int taxon, IReadOnlyList<FieldAnswer> answers) => Which(taxon, answers, (own, _) => own == 0);

    /// <summary>Where no taxon goes with all answers: the pairs that no taxon of the matrix shows together. Empty where one goes with
    /// all.</summary>
    public IReadOnlyList<Exclusion> Exclusions(IReadOnlyList<FieldAnswer> answers)
    {
        ArgumentNullException.ThrowIfNull(answers);
        var against = Enumerable.Range(0, Matrix.Taxa.Count).Select(t => Against(t, answers).ToHashSet()).ToList();
        return against.Any(a => a.Count == 0) ? []
            : [.. answers.SelectMany((one, i) => answers.Skip(i + 1).Select(other => new Exclusion(one, other)))
                .Where(e => against.TrueForAll(a => a.Contains(e.One) || a.Contains(e.Other)))];
    }

    private FieldAnswer[] Which(int taxon, IReadOnlyList<FieldAnswer> answers, Func<ulong, ulong, bool> holds)
    {
        ArgumentNullException.ThrowIfNull(answers);
        return [.. answers.Where(a => holds(Matrix[taxon, Matrix.At(a.Character)], Bits(a)))];
    }

    private ulong Bits(FieldAnswer answer) => Matrix.Characters[Matrix.At(answer.Character)].Bits(answer.States);

    private List<(int Character, ulong Bits)> Read(IReadOnlyList<FieldAnswer> answers)
    {
        var read = answers.Select(a => (Character: Matrix.At(a.Character), Bits: Bits(a))).ToList();
        if (read.Exists(a => a.Bits == 0))
        {
            throw new ArgumentException("An answer names no state. Leave out what cannot be told.", nameof(answers));
        }

        return read.Select(a => a.Character).Distinct().Count() == read.Count ? read
            : throw new ArgumentException("A character is answered twice. Give its states in one answer.", nameof(answers));
    }

    private double Named(int taxon, int character, ulong bits)
    {
        var k = Matrix.Characters[character].States.Count;
        var sum = 0.0;
        for (; bits != 0; bits &= bits - 1)
        {
            sum += named[character][(taxon * k) + System.Numerics.BitOperations.TrailingZeroCount(bits)];
        }

        return sum;
    }

    /// <summary>Mutual information of taxon and answer, bits: H(answer) − H(answer | taxon), which is the entropy of the taxa now less the
    /// one expected after the answer (Cover and Thomas, Elements of Information Theory, 2006, section 2.4).</summary>
    private double Gain(IReadOnlyList<double> posterior, int character)
    {
        var k = Matrix.Characters[character].States.Count;
        Span<double> answer = stackalloc double[k];
        answer.Clear();
        var (known, none) = (0.0, 0.0);
        var table = named[character];
        for (var t = 0; t < posterior.Count; t++)
        {
            var p = posterior[t];
            // What is this unlikely changes the gain by less than a millionth of a bit.
            if (p < 1e-9)
            {
                continue;
            }

            var rest = 1.0;
            for (var s = 0; s < k; s++)
            {
                var one = table[(t * k) + s];
                answer[s] += p * one;
                rest -= one;
                known -= one > 0 ? p * one * Math.Log2(one) : 0;
            }

            // Of a plant that does not have the character most people say so: an answer too.
            rest = rest < 1e-9 ? 0 : rest;
            none += p * rest;
            known -= rest > 0 ? p * rest * Math.Log2(rest) : 0;
        }

        var all = none > 0 ? -none * Math.Log2(none) : 0;
        foreach (var one in answer)
        {
            all -= one > 0 ? one * Math.Log2(one) : 0;
        }

        return Math.Max(0, all - known);
    }

    private static double[] Normal(IReadOnlyList<double> weights)
    {
        var sum = weights.Sum();
        return [.. weights.Select(w => w / sum)];
    }
}
