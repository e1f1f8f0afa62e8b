using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>What the mix is chosen for: bloom first, then visitors, then what a careful hand would do. See docs/measures.md#mix.</summary>
internal static class MixAims
{
    public const int Recorded = 10;
    private const int BeeOnce = 10, BeeTwice = 4, OtherOnce = 2;
    private const double VisitorSlack = 0.10, CraftSlack = 0.03;

    public static void Add(MixModel mix)
    {
        var (bloom, visitors) = (Bloom(mix), Visitors(mix));
        mix.Linear.Aim(bloom);
        mix.Linear.Aim(visitors, VisitorSlack);
        mix.Linear.Aim(Craft(mix), CraftSlack);
        // Last of all the same for less money: neither bloom nor visitors nor plugs are lessened, and hardly any craft.
        mix.Linear.Aim(mix.Cost.Select(c => c with { Factor = -c.Factor }), 0, bloom, visitors, mix.Sum(t => t.Plugs));
    }

    /// <summary>Half-months up to the norm; where the street is below it a half-month weighs one and a half times.</summary>
    private static List<Term> Bloom(MixModel mix)
    {
        var (linear, season) = (mix.Linear, mix.Site.Request.Season);
        var norm = mix.Site.SquareMetres < 10 ? Math.Min(2, season.Norm) : season.Norm;
        var covered = new List<Term>();
        for (var h = season.First; h <= season.Last; h++)
        {
            var flowering = mix.Pool.Where(t => t.Candidate.Flowers(h)).Select(t => new Term(t.Chosen, 1)).ToList();
            var edge = h <= season.First + 1 || h >= season.Last - 1;
            var cover = linear.Variable(Math.Min(edge ? Math.Min(2, norm) : norm, flowering.Count));
            linear.AtLeast([.. flowering, new(cover, -1)], 0);
            covered.Add(new(cover, mix.Surroundings.StreetInFlower[h] < season.Norm ? 3 : 2));
        }

        return covered;
    }

    /// <summary>Each visitor with one plant, and each bee with a second, in every period in which it flies; a third plant counts
    /// nothing.</summary>
    private static List<Term> Visitors(MixModel mix)
    {
        var (linear, forage) = (mix.Linear, mix.Surroundings.Forage);
        var gain = new List<Term>();
        foreach (var row in Rows(mix, forage))
        {
            var (terms, units) = (row.Terms, row.Units);
            var bee = forage.Units[units[0]].IsBee;
            var weight = terms.Sum(t => t.Factor);
            var one = linear.Variable(Math.Min(Recorded, weight));
            List<Term> parts = [new(one, -1)];
            gain.Add(new(one, units.Count * (bee ? BeeOnce : OtherOnce) * (forage.Units[units[0]].IsSpecialist ? 2 : 1)));
            if (bee && weight > Recorded)
            {
                var two = linear.Variable(Math.Min(Recorded, weight - Recorded));
                parts.Add(new(two, -1));
                gain.Add(new(two, units.Count * BeeTwice));
            }

            linear.AtLeast([.. terms, .. parts], 0);
        }

        return gain;
    }

    /// <summary>Plants that feed a visitor in a period; visitors fed by the same plants are one row.</summary>
    private static IEnumerable<(List<Term> Terms, List<int> Units)> Rows(MixModel mix, ForageIndex forage)
    {
        var feeds = new SortedDictionary<(int Unit, int Period), List<Term>>();
        foreach (var t in mix.Pool.Where(t => mix.Linear.Most(t.Chosen) > 0))
        {
            var position = forage.PositionOf(t.Name);
            if (position < 0) continue;
            foreach (var (p, (first, last)) in ForageIndex.Periods.Index())
            {
                if (!Enumerable.Range(first, last - first + 1).Any(t.Candidate.Flowers)) continue;
                foreach (var (unit, weight) in forage.Weights[position].Where(w => (forage.Units[w.Key].Flies >> p & 1) == 1))
                {
                    if (!feeds.TryGetValue((unit, p), out var list)) feeds.Add((unit, p), list = []);
                    list.Add(new(t.Chosen, weight));
                }
            }
        }

        return feeds.GroupBy(f => (forage.Units[f.Key.Unit].IsBee, forage.Units[f.Key.Unit].IsSpecialist, f.Key.Period,
            string.Join(' ', f.Value.Select(v => $"{v.Variable}*{v.Factor}"))))
            .Select(g => (g.First().Value, g.Select(f => f.Key.Unit).ToList()));
    }

    /// <summary>Sound taxa, amounts near the usual, fair money. Weights are taste made explicit: our own convention.</summary>
    private static List<Term> Craft(MixModel mix)
    {
        var (site, linear) = (mix.Site, mix.Linear);
        var shape = mix.Pool.Select(t => new Term(t.Chosen, 6000L * Merit(site, t))).ToList();
        if (mix.Short >= 0 && site.Rate > 0) shape.Add(new(mix.Short, -900));
        foreach (var t in mix.Pool.Where(t => t.CanBeSown))
        {
            if (!t.IsGrass) shape.Add(new(t.Sown, t.Traits.FromSeed == FromSeed.Easy ? 12_000 : -12_000));
            shape.Add(new(t.Seeds, 3));
            Near(linear, shape, t.Seeds, t.Sown, t.UsualSeeds, 20L * site.Rate, Math.Max(1, (long)Math.Round(12_000 / t.UsualSeeds)));
        }

        foreach (var t in mix.Pool.Where(t => t.CanBePlanted && site.Method == Method.Plugs))
        {
            Near(linear, shape, t.Plugs, t.Planted, t.UsualPlugs, site.Plugs, (long)Math.Round(20_000.0 / Math.Max(1, t.UsualPlugs)));
        }

        var usual = 100 * ((site.SquareMetres * 0.6 * (site.SquareMetres >= 1000 ? 0.4 : 1)) + (site.Plugs * 2.8));
        shape.AddRange(mix.Cost.Select(c => new Term(c.Variable, -Math.Max(1, (long)Math.Round(60_000 * c.Factor / usual)))));
        return shape;
    }

    private static void Near(LinearModel linear, List<Term> shape, int amount, int chosen, double usual, long widest, long penalty)
    {
        var off = linear.Variable(widest);
        linear.AtLeast([new(off, 1), new(amount, -1), new(chosen, (long)Math.Ceiling(usual))], 0);
        linear.AtLeast([new(off, 1), new(amount, 1), new(chosen, -(long)Math.Floor(usual))], 0);
        shape.Add(new(off, -penalty));
    }

    private static int Merit(MixSite site, MixTaxon t)
    {
        var (traits, area) = (t.Traits, site.SquareMetres);
        var ground = t.IsGrass || traits.Role is MixRole.GroundForb or MixRole.Fern;
        var merit = traits.Spread == Spreading.StaysPut || (traits.Spread == Spreading.Slow && ground) ? 3 : 0;
        merit += traits.Longevity == Longevity.LongLived ? 2 : 0;
        merit += t.Taxon.C >= 4 && t.Taxon.C <= (t.IsGrass ? 10 : 8) ? 1 : 0;
        merit += traits.Kerb && area < 300 ? 2 : 0;
        merit -= traits.Trade == Trade.Rare ? 8 : 0;
        merit -= site.Method == Method.Plugs && t.IsGrass && traits.Longevity == Longevity.ShortLived ? 6 : 0;
        merit -= traits.IsAggressive ? area < 100 ? 4 : 2 : 0;
        merit -= traits.AdvisedAgainst == AdvisedAgainst.AggressiveSmall ? 6 : 0;
        return merit - (traits.Longevity == Longevity.AnnualBiennial ? 4 : 0);
    }
}
