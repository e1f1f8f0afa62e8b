using System.Numerics;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Pollinators;

/// <summary>How a taxon's visitors are known.</summary>
public enum VisitorBasis { Recorded, FromGenus, FromFamily, Unknown }

/// <summary>A kind of visitor that a plan can feed: a bee, or a genus of other visitors, in one of the three bloom periods.</summary>
/// <param name="Key">Name of the bee, or of the genus.</param>
/// <param name="IsBee">False for a genus of other visitors.</param>
/// <param name="IsSpecialist">A bee whose two or more recorded plants are all of one family.</param>
public sealed record ForageUnit(string Key, bool IsBee, bool IsSpecialist)
{
    /// <summary>Bloom periods in which it flies, bits 0 to 2 for April–June 15, June 15–July, August–October.</summary>
    public int Flies { get; init; }
}

/// <summary>Answers at once who comes to any set of plants: visitors as bits, one row of bits a plant.</summary>
/// <remarks>
/// Built once from <see cref="VisitorRecords"/> and a catalogue; asking is below 1 ms and safe from several threads. Only native
/// taxa's flowers are meant to be asked for; the honey bee never counts. See docs/measures.md#visitors.
/// </remarks>
public sealed class ForageIndex
{
    /// <summary>First and last half-month of the three periods in which published job sheets ask for bloom.</summary>
    public static IReadOnlyList<(int First, int Last)> Periods { get; } = [(6, 10), (11, 13), (14, 19)];

    /// <summary>A visitor flies in a period that holds at least this share of the bloom of its recorded plants.</summary>
    private const double LeastBloomShare = 0.2;

    private readonly Dictionary<string, int> positions = new(StringComparer.Ordinal);
    private readonly ulong[][] recorded;
    private readonly VisitorBasis[] basis;
    private readonly ulong[] bees;
    private readonly ulong[][] fliesIn;

    /// <summary>Reads the records once.</summary>
    public ForageIndex(VisitorRecords records, IReadOnlyList<CatalogueTaxon> catalogue)
    {
        ArgumentNullException.ThrowIfNull(records);
        ArgumentNullException.ThrowIfNull(catalogue);
        Records = records;
        Catalogue = catalogue;
        var words = (records.Visitors.Count + 63) / 64;
        var kin = new ForageKin(records, catalogue);
        Units = kin.Units;
        recorded = new ulong[catalogue.Count][];
        basis = new VisitorBasis[catalogue.Count];
        var weights = new IReadOnlyDictionary<int, int>[catalogue.Count];
        for (var i = 0; i < catalogue.Count; i++)
        {
            var taxon = catalogue[i];
            positions.TryAdd(taxon.ScientificName, i);
            var own = ForageKin.Names(taxon).Select(n => records.ByCurrentName.GetValueOrDefault(n)).FirstOrDefault(v => v is not null);
            recorded[i] = Bits(words, (own ?? []).Where(v => !records.Visitors[v].IsHoneyBee));
            (weights[i], basis[i]) = kin.WeightsOf(taxon);
        }

        Weights = weights;
        bees = Bits(words, records.Visitors.Index().Where(v => v.Item.IsBee).Select(v => v.Index));
        var flies = kin.FliesOf(LeastBloomShare);
        fliesIn = [.. Enumerable.Range(0, Periods.Count).Select(p => Bits(words,
            flies.Where(f => (f.Value >> p & 1) == 1).Select(f => f.Key)))];
        Specialists = kin.Specialists;
    }

    public VisitorRecords Records { get; }
    public IReadOnlyList<CatalogueTaxon> Catalogue { get; }

    /// <summary>What a plan can feed: each bee and each genus of other visitors.</summary>
    public IReadOnlyList<ForageUnit> Units { get; }

    /// <summary>Per taxon of the catalogue: position in <see cref="Units"/> → 10 when recorded, 1 to 5 when only its relatives
    /// are.</summary>
    public IReadOnlyList<IReadOnlyDictionary<int, int>> Weights { get; }

    /// <summary>Positions in <see cref="VisitorRecords.Visitors"/> of bees that keep to one plant family.</summary>
    public IReadOnlySet<int> Specialists { get; }

    /// <summary>Position of a taxon in <see cref="Catalogue"/>; −1 when it has none.</summary>
    public int PositionOf(string scientificName) => positions.GetValueOrDefault(scientificName, -1);

    /// <summary>How the visitors of a taxon are known.</summary>
    public VisitorBasis BasisOf(string scientificName) => PositionOf(scientificName) is var i and >= 0 ? basis[i] : VisitorBasis.Unknown;

    /// <summary>Recorded visitors of one taxon, the honey bee left out, in the order of the record.</summary>
    public IReadOnlyList<Visitor> RecordedOn(string scientificName) =>
        PositionOf(scientificName) is var i and >= 0 ? [.. Set(recorded[i]).Select(v => Records.Visitors[v])] : [];

    /// <summary>Who has something to feed on in a set of plants. Unknown names are left out; a name twice counts once.</summary>
    /// <returns>Zeroes for an empty set.</returns>
    /// <remarks>A visitor counts in a half-month when a plant it was recorded on flowers then and it flies in that period.</remarks>
    public VisitorSupport Of(IEnumerable<string> scientificNames)
    {
        ArgumentNullException.ThrowIfNull(scientificNames);
        var plants = scientificNames.Select(PositionOf).Where(p => p >= 0).Distinct().ToList();
        var halfMonths = new HalfMonthVisitors[HalfMonth.Count];
        for (var t = 0; t < HalfMonth.Count; t++)
        {
            var (one, two) = Counted(plants.Where(p => Catalogue[p].Bloom?.Contains(t) ?? false));
            var flying = Flying(t);
            halfMonths[t] = new(Count(one, flying), Count(two, flying), Count(one, flying, bees), Count(two, flying, bees));
        }

        var (once, twice) = Counted(plants);
        return new(halfMonths, Count(once), Count(once, bees), Count(twice, bees))
        {
            Specialists = [.. Set(once).Where(Specialists.Contains).Select(v => Records.Visitors[v].Name).Order(StringComparer.Ordinal)],
            ByGroup = Set(once).GroupBy(v => Records.Visitors[v].Group, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Count(),
                StringComparer.Ordinal),
            Recorded = plants.Count(p => basis[p] == VisitorBasis.Recorded),
            Estimated = plants.Count(p => basis[p] is VisitorBasis.FromGenus or VisitorBasis.FromFamily),
            Blank = plants.Count(p => basis[p] == VisitorBasis.Unknown && Catalogue[p].Bloom is not null),
        };
    }

    /// <summary>Which of some plants would feed most visitors that the set does not feed yet; most first, then by name.</summary>
    /// <param name="set">Plants there already.</param>
    /// <param name="candidates">Plants that may be added.</param>
    /// <param name="count">How many at most, 1 or more.</param>
    public IReadOnlyList<ForageAddition> Additions(IEnumerable<string> set, IEnumerable<string> candidates, int count = 5)
    {
        ArgumentNullException.ThrowIfNull(candidates);
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        var there = set.Select(PositionOf).Where(p => p >= 0).ToHashSet();
        var (one, two) = Counted(there);
        return
        [
            .. candidates.Select(PositionOf).Where(p => p >= 0 && !there.Contains(p)).Distinct()
                .Select(p => new ForageAddition(Catalogue[p], CountNew(recorded[p], one, null), CountNew(recorded[p], one, bees),
                CountNew(recorded[p], two, bees)))
                .Where(a => a.Visitors > 0 || a.BeesTwice > 0)
                .OrderByDescending(a => (10 * a.Bees) + (4 * a.BeesTwice) + (2 * a.Visitors)).ThenBy(a => a.Taxon.ScientificName,
                StringComparer.Ordinal).Take(count),
        ];
    }

    /// <summary>Who finds food on a set of plants: counted, plant by plant, and with what would feed most more.</summary>
    /// <param name="set">Plants there; only natives count, names that the catalogue has not are left out.</param>
    /// <param name="candidates">Plants that may be added.</param>
    /// <param name="count">Additions at most, 0 or more.</param>
    /// <returns>Zeroes and empty lists for an empty set, its additions apart.</returns>
    public FedVisitors Fed(IEnumerable<string> set, IEnumerable<string> candidates, int count)
    {
        ArgumentNullException.ThrowIfNull(set);
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        var plants = set.Select(PositionOf).Where(p => p >= 0 && Catalogue[p].Nativity == Nativity.Native).Distinct().Order()
            .Select(p => Catalogue[p]).ToList();
        var names = plants.Select(t => t.ScientificName).ToList();
        var offered = candidates.ToList();
        var there = names.ToHashSet(StringComparer.Ordinal);
        var additions = new List<ForageAddition>();
        while (additions.Count < count && Additions(there, offered, 1) is [var best])
        {
            additions.Add(best);
            there.Add(best.Taxon.ScientificName);
        }

        return new(Of(names),
            [
                .. plants.Where(t => t.Bloom is not null).OrderBy(t => t.Bloom!.Value.Start).ThenBy(t => t.Bloom!.Value.End)
                    .ThenBy(t => t.ScientificName, StringComparer.Ordinal)
                    .Select(t => new VisitedTaxon(t, RecordedOn(t.ScientificName).GroupBy(v => v.Group, StringComparer.Ordinal)
                    .ToDictionary(g => g.Key, g => g.Count(), StringComparer.Ordinal))),
            ],
            additions);
    }

    private (ulong[] One, ulong[] Two) Counted(IEnumerable<int> plants)
    {
        var (one, two) = (new ulong[bees.Length], new ulong[bees.Length]);
        foreach (var plant in plants)
        {
            var row = recorded[plant];
            for (var w = 0; w < row.Length; w++)
            {
                two[w] |= one[w] & row[w];
                one[w] |= row[w];
            }
        }

        return (one, two);
    }

    private ulong[]? Flying(int halfMonth)
    {
        for (var p = 0; p < Periods.Count; p++)
        {
            if (halfMonth >= Periods[p].First && halfMonth <= Periods[p].Last) return fliesIn[p];
        }

        return null;
    }

    private static int Count(ulong[] row, ulong[]? mask = null, ulong[]? second = null)
    {
        var sum = 0;
        for (var w = 0; w < row.Length; w++)
        {
            sum += BitOperations.PopCount(row[w] & (mask is null ? ulong.MaxValue : mask[w]) & (second is null ? ulong.MaxValue
                : second[w]));
        }

        return sum;
    }

    private static int CountNew(ulong[] row, ulong[] there, ulong[]? mask)
    {
        var sum = 0;
        for (var w = 0; w < row.Length; w++)
        {
            sum += BitOperations.PopCount(row[w] & ~there[w] & (mask is null ? ulong.MaxValue : mask[w]));
        }

        return sum;
    }

    private static ulong[] Bits(int words, IEnumerable<int> positions)
    {
        var row = new ulong[words];
        foreach (var p in positions)
        {
            row[p >> 6] |= 1UL << (p & 63);
        }

        return row;
    }

    private static IEnumerable<int> Set(ulong[] row)
    {
        for (var w = 0; w < row.Length; w++)
        {
            for (var rest = row[w]; rest != 0; rest &= rest - 1)
            {
                yield return (w << 6) + BitOperations.TrailingZeroCount(rest);
            }
        }
    }
}
