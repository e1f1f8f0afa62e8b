using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>Every set of a small flora counted out by hand, rules, bloom and visitors written a second time: no set is better than the
/// planner's.</summary>
public class BruteForceTests
{
    private const double SquareMetres = 3;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void No_set_of_a_small_flora_blooms_longer_or_feeds_more(int seed)
    {
        var random = new Random(seed);
        var request = QuarryFlora.Request(SquareMetres);
        var suited = ConversionCandidates.Of(request, QuarryFlora.Catalogue).Suitable.Select(c => c.Taxon).ToArray();
        random.Shuffle(suited);
        CatalogueTaxon[] flora = [.. suited.Where(t => t.Mix!.IsGrass).Take(3), .. suited.Where(t => t.Mix!.Role == MixRole.GroundForb)
            .Take(3), .. suited.Where(t => t.Mix!.Role is MixRole.Seasonal or MixRole.Legume).Take(8)];
        var around = QuarryFlora.Around with { Catalogue = flora };
        var model = new MixModel(MixSite.Of(request), ConversionCandidates.Of(request, flora), around, QuarryFlora.Prices);
        var solved = LinearSolver.Solve(model.Linear, Effort.Full);
        var best = Best(model, flora);
        if (solved is null)
        {
            best.ShouldBeNull();
            return;
        }

        solved.Stages[0].Proven.ShouldBeTrue();
        solved.Stages[1].Proven.ShouldBeTrue();
        (solved.Stages[0].Value, solved.Stages[1].Value).ShouldBe(best!.Value);
    }

    private static (long Bloom, long Visitors)? Best(MixModel model, CatalogueTaxon[] flora)
    {
        (long, long)? best = null;
        for (var set = 1; set < 1 << flora.Length; set++)
        {
            CatalogueTaxon[] chosen = [.. flora.Where((_, i) => (set >> i & 1) == 1)];
            if (!Sound(chosen, flora) || !Plantable(model, chosen)) continue;
            var value = (Bloom(chosen), Visitors(chosen));
            if (best is null || value.CompareTo(best.Value) > 0) best = value;
        }

        return best;
    }

    /// <summary>The rules for taxa on sunny, medium ground below 4 m², from docs/measures.md, written again.</summary>
    private static bool Sound(CatalogueTaxon[] chosen, CatalogueTaxon[] flora)
    {
        int Usual(Func<CatalogueTaxon, bool> f) => flora.Count(t => f(t) && t.Mix!.Trade == Trade.Usual);
        bool Least(Func<CatalogueTaxon, bool> f, int k) => chosen.Count(f) >= Math.Min(k, Usual(f));
        var flowers = chosen.Where(t => !t.Mix!.IsGrass && t.Bloom is not null).ToList();
        bool In(CatalogueTaxon t, int from, int to) => !t.Mix!.IsGrass
            && Enumerable.Range(from, to - from + 1).Any(h => t.Bloom?.Contains(h) ?? false);
        return chosen.Length is >= 5 and <= 7
            && Least(t => t.Mix!.Role == MixRole.WarmBunch, 1) && Least(t => t.Mix!.IsGrass, 1) && chosen.Count(t => t.Mix!.IsGrass) <= 2
            && Least(t => t.Mix!.Role == MixRole.GroundForb, 1)
            && Least(t => In(t, 6, 10), 2) && Least(t => In(t, 11, 13), 2) && Least(t => In(t, 14, 19), 2)
            && chosen.GroupBy(t => t.ScientificName.Split(' ')[0]).All(g => g.Count() <= (g.Key == "Carex" ? 2 : 1))
            && chosen.Select(t => t.Family).Distinct().Count() >= Math.Min(4, flora.Select(t => t.Family).Distinct().Count())
            && 100 * chosen.Count(t => t.Family == "Asteraceae") <= 45 * flowers.Count
            && 10 * chosen.Count(t => t.Mix!.Longevity == Longevity.LongLived) >= 6 * chosen.Length
            && chosen.Where(t => t.C is not null).Sum(t => Math.Round((10 * t.C!.Value) - 40)) >= 0
            && chosen.Count(t => t.Mix!.Role == MixRole.Filler) <= 1 && chosen.Count(t => t.Mix!.Role == MixRole.Structural) <= 1
            && chosen.Count(t => t.Mix!.Trade == Trade.Rare) <= 1;
    }

    /// <summary>Whether plugs of exactly these can be counted out: left to the program, all taxa fixed.</summary>
    private static bool Plantable(MixModel model, CatalogueTaxon[] chosen)
    {
        var names = chosen.Select(t => t.ScientificName).ToHashSet();
        var copy = new LinearModel();
        foreach (var (variable, i) in model.Linear.Variables.Select((v, i) => (v, i)))
        {
            var taxon = model.Pool.FirstOrDefault(t => t.Chosen == i);
            var value = taxon is null ? -1 : names.Contains(taxon.Name) ? 1 : 0;
            copy.Variable(value < 0 ? variable.High : value, value < 0 ? variable.Low : value);
        }

        foreach (var row in model.Linear.Rows)
        {
            copy.Between(row.Terms, row.Low, row.High);
        }

        return LinearSolver.IsPossible(copy, _ => true, 1) == true;
    }

    private static long Bloom(CatalogueTaxon[] chosen) =>
        Enumerable.Range(6, 14).Sum(h => 2L * Math.Min(2, chosen.Count(t => !t.Mix!.IsGrass && (t.Bloom?.Contains(h) ?? false))));

    private static long Visitors(CatalogueTaxon[] chosen)
    {
        var forage = QuarryFlora.Forage;
        long points = 0;
        foreach (var (unit, position) in forage.Units.Select((u, i) => (u, i)))
        {
            for (var p = 0; p < 3; p++)
            {
                if ((unit.Flies >> p & 1) == 0) continue;
                var (first, last) = Ecology.Pollinators.ForageIndex.Periods[p];
                var food = chosen.Where(t => !t.Mix!.IsGrass && Enumerable.Range(first, last - first + 1).Any(h => t.Bloom?.Contains(h)
                    ?? false))
                    .Sum(t => forage.Weights[forage.PositionOf(t.ScientificName)].GetValueOrDefault(position));
                points += Math.Min(10, food) * (unit.IsBee ? 10 : 2) * (unit.IsSpecialist ? 2 : 1);
                if (unit.IsBee) points += Math.Clamp(food - 10, 0, 10) * 4;
            }
        }

        return points;
    }
}
