using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Pollinators;

/// <summary>Weights of visitors for each plant: recorded ones ten; of a blank plant what its relatives say, at most five.</summary>
/// <remarks>
/// Genus in the record: 5 × share of the genus's plants it comes to, from a third on. Else family: 3 × that share, from a third on and
/// three plants. Left out one by one, the genus's estimate gives half the true number of bees, the family's 7 %. Our own convention.
/// </remarks>
internal sealed class ForageKin
{
    private const int Recorded = 10, MostOfGenus = 5, MostOfFamily = 3, FewestOfFamily = 3;

    private readonly VisitorRecords records;
    private readonly Dictionary<(string Key, bool Bee), int> unitOf = [];
    private readonly int[] unit;
    private readonly Dictionary<string, HashSet<int>> links = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<HashSet<int>>> byGenus = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<HashSet<int>>> byFamily = new(StringComparer.Ordinal);
    private readonly Dictionary<string, CatalogueTaxon> named = new(StringComparer.Ordinal);

    public ForageKin(VisitorRecords records, IReadOnlyList<CatalogueTaxon> catalogue)
    {
        this.records = records;
        foreach (var (taxon, name) in catalogue.SelectMany(t => Names(t).Select(n => (t, n))))
        {
            named.TryAdd(name, taxon);
        }

        unit = [.. records.Visitors.Select(UnitOf)];
        foreach (var (name, visitors) in records.ByCurrentName.OrderBy(p => p.Key, StringComparer.Ordinal))
        {
            var units = visitors.Where(v => unit[v] >= 0).Select(v => unit[v]).ToHashSet();
            links[name] = units;
            Add(byGenus, name.Split(' ')[0], units);
            if (named.TryGetValue(name, out var taxon)) Add(byFamily, taxon.Family, units);
        }

        Specialists = Keeping();
        Units = MakeUnits();
    }

    public IReadOnlyList<ForageUnit> Units { get; }

    public IReadOnlySet<int> Specialists { get; }

    public static IEnumerable<string> Names(CatalogueTaxon taxon) => taxon.Synonyms.Prepend(taxon.ScientificName);

    /// <summary>Weights of a taxon; empty for one that has no flowers for visitors.</summary>
    public (IReadOnlyDictionary<int, int> Weights, VisitorBasis Basis) WeightsOf(CatalogueTaxon taxon)
    {
        if (Names(taxon).FirstOrDefault(links.ContainsKey) is { } own)
        {
            return (taxon.Bloom is null ? new Dictionary<int, int>() : links[own].ToDictionary(u => u, _ => Recorded),
                VisitorBasis.Recorded);
        }

        var kin = byGenus.GetValueOrDefault(taxon.ScientificName.Split(' ')[0]);
        var (basis, most, fewest) = (VisitorBasis.FromGenus, MostOfGenus, 1);
        if (kin is null)
        {
            (kin, basis, most, fewest) = (byFamily.GetValueOrDefault(taxon.Family), VisitorBasis.FromFamily, MostOfFamily, FewestOfFamily);
        }

        var weights = (kin ?? []).SelectMany(u => u).GroupBy(u => u).Where(_ => taxon.Bloom is not null)
            .Select(g => (g.Key, Count: g.Count())).Where(g => g.Count >= Math.Max(fewest, kin!.Count / 3.0))
            .ToDictionary(g => g.Key, g => Math.Max(1, (int)Math.Round((double)most * g.Count / kin!.Count)));
        return (weights, weights.Count > 0 ? basis : VisitorBasis.Unknown);
    }

    /// <summary>Per visitor the bloom periods that hold at least a share of the bloom of its recorded plants, as bits.</summary>
    public IReadOnlyDictionary<int, int> FliesOf(double leastShare)
    {
        var of = records.ByCurrentName.SelectMany(p => p.Value.Select(v => (v, p.Key))).GroupBy(p => p.v);
        return of.ToDictionary(g => g.Key, g => Periods(g.Select(p => p.Key), leastShare));
    }

    private static void Add(Dictionary<string, List<HashSet<int>>> to, string key, HashSet<int> units)
    {
        if (!to.TryGetValue(key, out var list)) to.Add(key, list = []);
        list.Add(units);
    }

    private int UnitOf(Visitor visitor)
    {
        if (visitor.IsHoneyBee) return -1;
        var key = (visitor.IsBee ? visitor.Name : visitor.Genus, visitor.IsBee);
        if (!unitOf.TryGetValue(key, out var position)) unitOf.Add(key, position = unitOf.Count);
        return position;
    }

    private int Periods(IEnumerable<string> plants, double leastShare)
    {
        var mass = new double[ForageIndex.Periods.Count];
        foreach (var plant in plants)
        {
            if (named.GetValueOrDefault(plant)?.Bloom is not { } bloom) continue;
            var halves = Enumerable.Range(0, Phenology.HalfMonth.Count).Where(bloom.Contains).ToList();
            for (var p = 0; p < mass.Length; p++)
            {
                mass[p] += (double)halves.Count(h => h >= ForageIndex.Periods[p].First && h <= ForageIndex.Periods[p].Last) / halves.Count;
            }
        }

        var all = mass.Sum();
        return all <= 0 ? 0 : Enumerable.Range(0, mass.Length).Where(p => mass[p] >= leastShare * all).Aggregate(0,
            (bits, p) => bits | (1 << p));
    }

    private HashSet<int> Keeping()
    {
        var plants = records.ByCurrentName.SelectMany(p => p.Value.Select(v => (v, p.Key))).Where(p => records.Visitors[p.v].IsBee)
            .GroupBy(p => p.v);
        return [.. plants.Where(g => g.Count() >= 2 && g.Select(p => named.GetValueOrDefault(p.Key)?.Family ?? p.Key)
            .Distinct(StringComparer.Ordinal).Count() == 1).Select(g => g.Key)];
    }

    private ForageUnit[] MakeUnits()
    {
        var plants = links.SelectMany(l => l.Value.Select(u => (u, l.Key))).GroupBy(p => p.u).ToDictionary(g => g.Key,
            g => g.Select(p => p.Key).ToList());
        var specialist = Specialists.Select(v => unit[v]).ToHashSet();
        return
        [
            .. unitOf.OrderBy(u => u.Value).Select(u => new ForageUnit(u.Key.Key, u.Key.Bee, specialist.Contains(u.Value))
            {
                Flies = Periods(plants.GetValueOrDefault(u.Value) ?? [], 0.2),
            }),
        ];
    }
}
