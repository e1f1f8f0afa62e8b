using System.Numerics;

namespace CommonGround.Storage.Publishing;

/// <summary>
/// All linear combinations of published sets, each set a row of zeros and ones over yards: whoever keeps every figure that was ever
/// published can work out the sums over these combinations and no others. Exact: whole numbers of any length, no rounding.
/// </summary>
/// <remarks>
/// Kept as the reduced row echelon form with whole-number rows. A combination that rests on one or two yards exists exactly when, without
/// some two columns, the rank falls; in the reduced form that is seen without trying all pairs: a row has fewer than three entries, or two
/// rows are multiples of each other outside their pivots (then one taken from the other leaves nothing but the two pivots).
/// </remarks>
internal sealed class RowSpace
{
    private readonly List<long> yards;
    private readonly Dictionary<long, int> column = [];
    private readonly List<(int Pivot, BigInteger[] Row)> rows = [];

    public RowSpace(IEnumerable<IEnumerable<long>> sets, IEnumerable<long> alsoYards)
    {
        var all = sets.Select(s => s.ToHashSet()).ToList();
        yards = [.. all.SelectMany(s => s).Concat(alsoYards).Distinct().Order()];
        foreach (var (yard, at) in yards.Select((y, i) => (y, i)))
        {
            column[yard] = at;
        }

        foreach (var set in all)
        {
            Add(Reduced(set));
        }
    }

    private RowSpace(RowSpace from)
    {
        (yards, column) = (from.yards, from.column);
        rows = from.rows.ConvertAll(r => (r.Pivot, (BigInteger[])r.Row.Clone()));
    }

    public int Rank => rows.Count;

    /// <summary>Whether no combination rests on fewer than three yards.</summary>
    public bool IsSafe
    {
        get
        {
            var outside = new HashSet<string>(StringComparer.Ordinal);
            return rows.TrueForAll(r => r.Row.Count(v => !v.IsZero) >= PublicSets.FewestYards && outside.Add(Direction(r.Row, r.Pivot)));
        }
    }

    /// <summary>Whether everything would still rest on three yards or more with one set more; a set that can be worked out already tells
    /// nothing new.</summary>
    public bool StaysSafeWith(IEnumerable<long> set)
    {
        var row = Reduced(set);
        if (Array.TrueForAll(row, v => v.IsZero))
        {
            return true;
        }

        var with = new RowSpace(this);
        with.Add(row);
        return with.IsSafe;
    }

    /// <summary>The set less what the rows there already say of it, as whole numbers without a common divisor.</summary>
    private BigInteger[] Reduced(IEnumerable<long> set)
    {
        var row = new BigInteger[yards.Count];
        foreach (var yard in set)
        {
            row[column[yard]] = BigInteger.One;
        }

        foreach (var (pivot, other) in rows)
        {
            Eliminate(row, other, pivot);
        }

        return row;
    }

    private void Add(BigInteger[] row)
    {
        var pivot = Array.FindIndex(row, v => !v.IsZero);
        if (pivot < 0)
        {
            return;
        }

        foreach (var (_, other) in rows)
        {
            Eliminate(other, row, pivot);
        }

        rows.Add((pivot, row));
    }

    /// <summary>Takes as much of <paramref name="by"/> from the row as leaves nothing in the pivot's column.</summary>
    private static void Eliminate(BigInteger[] row, BigInteger[] by, int pivot)
    {
        if (row[pivot].IsZero)
        {
            return;
        }

        var (mine, its) = (row[pivot], by[pivot]);
        for (var i = 0; i < row.Length; i++)
        {
            row[i] = (row[i] * its) - (by[i] * mine);
        }

        var divisor = row.Aggregate(BigInteger.Zero, BigInteger.GreatestCommonDivisor);
        for (var i = 0; i < row.Length && divisor > BigInteger.One; i++)
        {
            row[i] /= divisor;
        }
    }

    /// <summary>The row outside its pivot, the same text for all its multiples.</summary>
    private static string Direction(BigInteger[] row, int pivot)
    {
        var outside = row.Select((v, i) => i == pivot ? BigInteger.Zero : v).ToArray();
        var divisor = outside.Aggregate(BigInteger.Zero, BigInteger.GreatestCommonDivisor);
        divisor = outside.First(v => !v.IsZero).Sign < 0 ? -divisor : divisor;
        return string.Join(' ', outside.Select(v => v / divisor));
    }
}
