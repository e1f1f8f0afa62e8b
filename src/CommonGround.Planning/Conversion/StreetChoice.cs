using CommonGround.Ecology.Pollinators;

namespace CommonGround.Planning.Conversion;

/// <summary>One mix of those offered for each yard: first the most yards, then the most kinds of bees, then the least money.</summary>
internal static class StreetChoice
{
    private const int Points = 1000;

    /// <summary>Per yard the position of its mix, −1 for none.</summary>
    public static IReadOnlyList<int> Of(IReadOnlyList<IReadOnlyList<ConversionMix>> offers, double? budget, ForageIndex forage)
    {
        var linear = new LinearModel();
        var chosen = offers.Select(o => o.Select(_ => linear.Variable(1)).ToList()).ToList();
        foreach (var yard in chosen)
        {
            linear.AtMost(yard.Select(v => new Term(v, 1)), 1);
        }

        var cost = offers.SelectMany((o, i) => o.Select((m, k) => new Term(chosen[i][k], (long)Math.Ceiling(m.Cost * MixModel.Cents))))
            .ToList();
        if (budget is { } money) linear.AtMost(cost, (long)Math.Floor((money * MixModel.Cents) + 1e-9));
        var feeds = new SortedDictionary<string, List<Term>>(StringComparer.Ordinal);
        foreach (var (mix, variable) in offers.SelectMany((o, i) => o.Select((m, k) => (m, chosen[i][k]))))
        {
            foreach (var bee in mix.Taxa.SelectMany(t => forage.RecordedOn(t.Taxon.ScientificName)).Where(v => v.IsBee).Select(v => v.Name)
                .Distinct(StringComparer.Ordinal))
            {
                if (!feeds.TryGetValue(bee, out var list)) feeds.Add(bee, list = []);
                list.Add(new(variable, 1));
            }
        }

        var gain = new List<Term>();
        foreach (var plants in feeds.Values)
        {
            var fed = linear.Variable(1);
            linear.AtLeast([.. plants, new(fed, -1)], 0);
            gain.Add(new(fed, Points));
        }

        linear.Aim(chosen.SelectMany(y => y.Select(v => new Term(v, 1))));
        linear.Aim(gain);
        linear.Aim(cost.Select(c => new Term(c.Variable, -c.Factor)));
        var solved = LinearSolver.Solve(linear, Effort.Full);
        return [.. chosen.Select(y => solved is null ? -1 : y.FindIndex(v => solved.Values[v] == 1))];
    }
}
